#include "engine/assess/live_assessment.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/engine/assess/fingerprint.hpp"
#include "tests/support/loaded_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using namespace rootstead::test;

AssessOptions quick() {
  AssessOptions options;
  options.simulation = {7, 40};
  options.threads = 2;
  return options;
}

// Trees and works, a wall and a paved square: everything a change may touch.
Site town(std::uint64_t seed) {
  Site site = random_site(seed, 30, 10, 90);
  site.settings.rules = {"bs5837-2012", "as4970-2009"};
  Barrier wall;
  wall.id = "wall";
  wall.shape.lines = {{{10, 45}, {80, 45}}};
  wall.depth = metres(0.7);
  site.barriers.push_back(wall);
  Surface square;
  square.id = "square";
  square.area = rectangle(50, 50, 75, 70);
  site.surfaces.push_back(square);
  site.works.front().state = WorkState::existing;
  return site;
}

LiveAssessment started(Site site) {
  return std::move(LiveAssessment::start(std::move(site), loaded_tables(), quick())).value();
}

std::string from_scratch(const Site& site) {
  return bits(*assess(site, loaded_tables(), quick()));
}

Work shifted_work(const Site& site, std::size_t i, double dx, double dy) {
  return shifted(site, dx, dy).works[i];
}

TEST(LiveAssessment, StartsAsAnAssessmentFromScratch) {
  const Site site = town(1);
  EXPECT_EQ(bits(started(site).assessment()), from_scratch(site));
}

TEST(LiveAssessment, SaysAfterAnyChangeWhatAnAssessmentFromScratchSays) {
  LiveAssessment live = started(town(2));
  RandomStream random(2, "changes");
  for (int change = 0; change < 6; ++change) {
    const std::size_t i = random.next() % live.site().works.size();
    live.put(shifted_work(live.site(), i, random.uniform(-6, 6), random.uniform(-6, 6)));
    ASSERT_EQ(bits(live.assessment()), from_scratch(live.site())) << "change " << change;
  }
  Work added = random_work(random, "new", {40, 40});
  live.put(added);
  ASSERT_EQ(bits(live.assessment()), from_scratch(live.site()));
  live.remove("new");
  live.remove(live.site().works.front().id);  // one that exists already
  EXPECT_EQ(bits(live.assessment()), from_scratch(live.site()));
}

bool same_but_for_the_last_digit(const TreeAssessment& a, const TreeAssessment& b) {
  for (std::size_t z = 0; z < a.zones.size(); ++z) {
    if (std::abs(a.zones[z].loss.share - b.zones[z].loss.share) > 1e-12) return false;
    for (std::size_t l = 0; l < a.zones[z].limits.size(); ++l)
      if (a.zones[z].limits[l].passed_over != b.zones[z].limits[l].passed_over) return false;
  }
  const bool roots = a.roots ? b.roots && a.roots->all == b.roots->all : !b.roots;
  const bool kept =
      a.anchorage ? b.anchorage && a.anchorage->kept == b.anchorage->kept : !b.anchorage;
  return roots && kept && a.verdict.action == b.verdict.action;
}

TEST(LiveAssessment, WithAnswersOnlySaysAfterAnyChangeWhatSuchAnAssessmentFromScratchSays) {
  AssessOptions options = quick();
  options.answers_only = true;
  LiveAssessment live = std::move(LiveAssessment::start(town(3), loaded_tables(), options)).value();
  RandomStream random(3, "changes");
  for (int change = 0; change < 4; ++change) {
    const std::size_t i = random.next() % live.site().works.size();
    live.put(shifted_work(live.site(), i, random.uniform(-6, 6), random.uniform(-6, 6)));
    const Assessment scratch = *assess(live.site(), loaded_tables(), options);
    for (std::size_t t = 0; t < scratch.trees.size(); ++t)
      ASSERT_TRUE(same_but_for_the_last_digit(live.trees()[t], scratch.trees[t]))
          << "change " << change << ", tree " << scratch.trees[t].tree;
  }
}

TEST(LiveAssessment, WithAnswersOnlyAnswersAsWithExplanations) {
  AssessOptions options = quick();
  const Site site = town(4);
  const Assessment whole = *assess(site, loaded_tables(), options);
  options.answers_only = true;
  const Assessment bare = *assess(site, loaded_tables(), options);
  std::size_t explained = 0;
  for (std::size_t i = 0; i < whole.trees.size(); ++i) {
    const TreeAssessment &full = whole.trees[i], &quick = bare.trees[i];
    EXPECT_EQ(full.roots.has_value(), quick.roots.has_value());
    if (full.roots) {
      EXPECT_EQ(full.roots->all, quick.roots->all);
      EXPECT_TRUE(quick.roots->influences.empty());
      explained += full.roots->influences.size();
    }
    EXPECT_EQ(full.verdict.action, quick.verdict.action);
    EXPECT_EQ(full.verdict.vitality, quick.verdict.vitality);
    EXPECT_EQ(full.verdict.stability, quick.verdict.stability);
    EXPECT_EQ(full.anchorage.has_value(), quick.anchorage.has_value());
    if (full.anchorage) {
      EXPECT_EQ(full.anchorage->kept, quick.anchorage->kept);
    }
    for (std::size_t z = 0; z < full.zones.size(); ++z)
      for (std::size_t l = 0; l < full.zones[z].limits.size(); ++l)
        EXPECT_EQ(full.zones[z].limits[l].value, quick.zones[z].limits[l].value);
  }
  EXPECT_GT(explained, 0U);
}

TEST(LiveAssessment, LooksOnlyAtTreesInReach) {
  Site site = SiteBuilder()
                  .rules({"bs5837-2012"})
                  .tree("near", {0, 0}, 0.3)
                  .tree("far", {300, 0}, 0.3)
                  .trench("W1", {{4, -10}, {4, 10}}, 0.5, 1);
  LiveAssessment live = started(site);
  EXPECT_EQ(live.put(shifted_work(live.site(), 0, 0.1, 0)), std::vector<std::string>{"near"});
  EXPECT_EQ(live.put(shifted_work(live.site(), 0, 296, 0)),
            (std::vector<std::string>{"near", "far"}));
  EXPECT_TRUE(live.remove("no such work").empty());
}

TEST(LiveAssessment, FailsWhereAnAssessmentFails) {
  EXPECT_FALSE(LiveAssessment::start({}, loaded_tables()).ok());
  Site site = SiteBuilder().tree("T1", {0, 0}, 0.3);
  site.settings.rules = {"no-such-rule"};
  EXPECT_EQ(LiveAssessment::start(site, loaded_tables()).error().code, Code::unknown_name);
}

}  // namespace
}  // namespace rootstead
