// All advice from one assessment.
#include "engine/advice/advice.hpp"

#include <algorithm>
#include <set>

#include "engine/assess/assess.hpp"
#include "tests/support/loaded_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

const Tables& tables() {
  return test::loaded_tables();
}

struct Job {
  Site site;
  Assessment assessment;
  Advice advice;
};

Result<Advice> advised(const Site& site, Assessment& assessment) {
  AssessOptions how;
  how.simulation.draws = 100;
  assessment = assess(site, tables(), how).value();
  return advise(site, tables(), assessment, {how.simulation, {}});
}

Site street() {
  Site site = test::SiteBuilder()
                  .tree("T1", {0, 0}, 0.5)
                  .tree("T2", {14, 0}, 0.2)
                  .tree("T3", {28, 0}, 0.3)
                  .area("W1", WorkKind::fill, test::rectangle(-3, 3, 3, 6), 0.3)
                  .area("W2", WorkKind::traffic, test::rectangle(8, 4, 40, 8), 0)
                  .area("W3", WorkKind::pit, test::rectangle(-6, -5, 6, -3), 1.0);
  site.settings.rules = {"bs5837-2012"};
  site.settings.date = "2026-03-02";
  site.trees[1].intent = Intent::move;
  site.trees[2].intent = Intent::remove;
  return site;
}

const Job& job() {
  static const Job made = [] {
    Job one;
    one.site = street();
    one.advice = advised(one.site, one.assessment).value();
    return one;
  }();
  return made;
}

TEST(Advice, HasAPartForEveryTreeInTheirOrder) {
  ASSERT_EQ(job().advice.trees.size(), 3U);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(job().advice.trees[i].tree, job().site.trees[i].id);
}

TEST(Advice, CutsForTreesThatStayAndMovesThoseThatMove) {
  const auto& trees = job().advice.trees;
  ASSERT_FALSE(trees[0].cuts.empty());
  EXPECT_EQ(trees[0].cuts.front().work, "W3");
  EXPECT_TRUE(trees[0].water);
  EXPECT_FALSE(trees[0].move);
  EXPECT_TRUE(trees[1].move);
  EXPECT_TRUE(trees[1].cuts.empty());
  EXPECT_TRUE(trees[2].cuts.empty());
  EXPECT_FALSE(trees[2].move);
}

TEST(Advice, SpeaksOfEveryFillAndHaulRoad) {
  ASSERT_EQ(job().advice.fills.size(), 1U);
  EXPECT_EQ(job().advice.fills.front().work, "W1");
  ASSERT_EQ(job().advice.traffic.size(), 1U);
  EXPECT_EQ(job().advice.traffic.front().work, "W2");
}

TEST(Advice, SaysEachThingOnceAndFromAKnownSource) {
  std::set<std::string> said;
  for (const Prescription& one : job().advice.prescriptions()) {
    EXPECT_TRUE(said.insert(one.tree + "|" + one.work + "|" + one.text).second) << one.text;
    EXPECT_NE(tables().source(one.from.source), nullptr) << one.text << ": " << one.from.source;
    EXPECT_FALSE(one.topic.empty()) << one.text;
  }
  EXPECT_GT(said.size(), 20U);
}

TEST(Advice, WatersATreeDamagedBeforeInOneWay) {
  Site site = street();
  site.works.push_back(site.works[2]);
  Work& old = site.works.back();
  old.id = "W4";
  old.state = WorkState::existing;
  old.date = "2025-06";
  old.shape.areas = test::rectangle(-6, 3.2, 6, 4.2);
  Assessment assessment;
  const auto both = advised(site, assessment);
  ASSERT_TRUE(both.ok());
  ASSERT_TRUE(both->trees[0].damage && both->trees[0].water);
  const auto portions = [](const Advice& advice) {
    const auto all = advice.prescriptions();
    return std::count_if(all.begin(), all.end(), [](const Prescription& one) {
      return one.tree == "T1" && one.topic == "irrigation" &&
             one.text.starts_with("In dry weather");
    });
  };
  EXPECT_EQ(portions(*both), 1);
  site.works.erase(site.works.begin() + 2);  // the damage alone waters too
  site.works.erase(site.works.begin());
  const auto alone = advised(site, assessment);
  ASSERT_TRUE(alone.ok());
  ASSERT_TRUE(alone->trees[0].damage && alone->trees[0].water);
  EXPECT_EQ(portions(*alone), 1);
}

const TreeAdvice& of(const Advice& advice, const std::string& tree) {
  return *std::find_if(advice.trees.begin(), advice.trees.end(),
                       [&](const TreeAdvice& one) { return one.tree == tree; });
}

bool cuts_for(const Advice& advice, const std::string& tree, const std::string& work) {
  const auto& cuts = of(advice, tree).cuts;
  return std::any_of(cuts.begin(), cuts.end(),
                     [&](const CutAdvice& cut) { return cut.work == work; });
}

TEST(Advice, OpensNoLineForATreeWithoutAPlace) {
  Site site = street();
  site.trees.push_back(site.trees.front());
  site.trees.back().id = site.trees.back().tag = "T4";
  site.trees.back().position.reset();
  Assessment assessment;
  const auto advice = advised(site, assessment);
  ASSERT_TRUE(advice.ok());
  EXPECT_TRUE(of(*advice, "T4").cuts.empty());
  EXPECT_TRUE(cuts_for(*advice, "T1", "W3"));
}

TEST(Advice, CutsNoRootsForWhatIsBuiltOnTheGroundAsItLies) {
  Site site = street();
  Work walk = site.works.front();
  walk.id = "W5";
  walk.kind = WorkKind::paving;
  walk.depth = test::metres(0.25);
  walk.shape.areas = test::rectangle(2, -1, 5, 2);
  site.works.push_back(walk);
  Assessment assessment;
  const auto advice = advised(site, assessment);
  ASSERT_TRUE(advice.ok() && advice->protection);
  ASSERT_EQ(advice->protection->no_dig.size(), 1U);
  EXPECT_EQ(advice->protection->no_dig.front().work, "W5");
  EXPECT_FALSE(cuts_for(*advice, "T1", "W5"));
  for (const Prescription& one : advice->prescriptions())
    EXPECT_FALSE(one.work == "W5" && one.text.find("narrow trench") != std::string::npos)
        << one.text;
}

TEST(Advice, MarksNoLineForTreesThatItCannotConcern) {
  Site site = street();
  site.works[2].shape.areas = test::rectangle(-6, -18, 6, -16);  // clear of T1, its zone and roots
  Assessment assessment;
  const auto advice = advised(site, assessment);
  ASSERT_TRUE(advice.ok());
  for (const CutAdvice& cut : of(*advice, "T1").cuts) {
    const bool likely = cut.expected && cut.expected->front().best >= 0.5;
    EXPECT_TRUE(cut.nearness != CutAdvice::Nearness::clear || likely) << cut.work;
  }
}

TEST(Advice, WatersNeitherTheDeadNorThoseThatGo) {
  Site site = street();
  site.trees[0].condition = Condition::dead;
  Assessment assessment;
  const auto advice = advised(site, assessment);
  ASSERT_TRUE(advice.ok());
  EXPECT_FALSE(of(*advice, "T1").water);
  for (const Prescription& one : advice->prescriptions())
    EXPECT_FALSE(one.topic == "irrigation" && (one.tree == "T1" || one.tree == "T3")) << one.text;
}

TEST(Advice, IsTheSameForTheSameSite) {
  Assessment assessment;
  const auto again = advised(street(), assessment);
  ASSERT_TRUE(again.ok());
  const auto first = job().advice.prescriptions(), second = again->prescriptions();
  ASSERT_EQ(first.size(), second.size());
  for (std::size_t i = 0; i < first.size(); ++i) EXPECT_EQ(first[i].text, second[i].text);
}

TEST(Advice, WithoutADateHasNoVisits) {
  EXPECT_TRUE(job().advice.monitoring);
  Site site = street();
  site.settings.date.clear();
  Assessment assessment;
  EXPECT_FALSE(advised(site, assessment)->monitoring);
}

TEST(Advice, NamesAStandardThatIsNotKnown) {
  Site site = street();
  site.settings.other[std::string(kCutStandardKey)] = "no-such";
  Assessment assessment;
  const auto none = advised(site, assessment);
  ASSERT_FALSE(none.ok());
  EXPECT_NE(none.error().sentence().find("no-such"), std::string::npos);
}

TEST(WithLevelWorks, AddsWhatTheLevelsAskForOnce) {
  Site site = street();
  // Level ground, and the same with a bank from 30 m east on.
  const auto ground = [](double bank) {
    TriangleMesh mesh;
    for (const double x : {-10.0, 30.0, 30.2, 40.0})
      for (const double y : {-10.0, 10.0})
        mesh.points.push_back({{x, y}, 50 + (x > 30 ? bank : 0)});
    for (const std::uint32_t i : {0U, 2U, 4U}) {
      mesh.triangles.push_back({i, i + 2, i + 1});
      mesh.triangles.push_back({i + 2, i + 3, i + 1});
    }
    return mesh;
  };
  site.existing_levels = LevelSurface{"today", "", "", ground(0)};
  site.proposed_levels = LevelSurface{"design", "", "", ground(0.6)};
  const std::size_t before = site.works.size();
  const auto once = with_level_works(site, tables());
  ASSERT_TRUE(once.ok());
  const auto twice = with_level_works(*once, tables());
  ASSERT_TRUE(twice.ok());
  EXPECT_EQ(once->works.size(), twice->works.size());
  ASSERT_EQ(once->works.size(), before + 1);
  EXPECT_EQ(once->works.back().kind, WorkKind::fill);
}

}  // namespace
}  // namespace rootstead
