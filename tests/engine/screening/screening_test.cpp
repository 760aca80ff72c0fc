#include "engine/screening/screening.hpp"

#include <gtest/gtest.h>

#include "engine/losses/losses.hpp"
#include "tests/support/loaded_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using test::loaded_tables;

const ZoneRule& rule(std::string_view id) {
  const ZoneRule* found = loaded_tables().rule(id);
  if (found == nullptr) ADD_FAILURE() << "no rule " << id;
  return *found;
}

Tree tree_of(double diameter) {
  return test::SiteBuilder().tree("T", {0, 0}, diameter).site().trees.front();
}

NetworkGround ground_of(const Site& site) {
  NetworkBuilder builder;
  for (const Work& work : site.works)
    builder.add(is_new(work) ? footprint(work, true) : MultiPolygon());
  return std::move(builder).finish();
}

// BS 5837:2012 clause 4.6.1: a radius of 12 stem diameters.
TEST(ZoneMemory, GivesTheZoneOfTheRule) {
  ZoneMemory memory(rule("bs5837-2012"), loaded_tables());
  const ScreenZone& zone = memory.zone_of(tree_of(0.5));
  EXPECT_TRUE(zone.known());
  EXPECT_DOUBLE_EQ(zone.radius.metres(), 6);
  EXPECT_EQ(zone.outline, nullptr);
  EXPECT_NE(zone.remark.find("the rule bs5837-2012 measures at 1.5 m"), std::string::npos);
}

TEST(ZoneMemory, APalmHasNoZoneByItsStem) {
  ZoneMemory memory(rule("bs5837-2012"), loaded_tables());
  const Site site = test::SiteBuilder().palm("P", {0, 0}).site();
  const ScreenZone& zone = memory.zone_of(site.trees.front());
  EXPECT_FALSE(zone.known());
  EXPECT_NE(zone.why_none.find("palms"), std::string::npos) << zone.why_none;
}

// The form is that of the species where the tree says none: a palm stays one.
TEST(ZoneMemory, APalmIsKnownByItsName) {
  ZoneMemory memory(rule("bs5837-2012"), loaded_tables());
  Tree palm = tree_of(0.4);
  palm.form = GrowthForm::unknown;
  palm.botanical_name = "Trachycarpus fortunei";
  EXPECT_FALSE(memory.zone_of(palm).known());
  palm.botanical_name = "Nobody knows";
  EXPECT_TRUE(memory.zone_of(palm).known());
  EXPECT_NE(memory.zone_of(palm).remark.find("no palm"), std::string::npos);
}

TEST(ZoneMemory, ATreeWithoutADiameterSaysSo) {
  ZoneMemory memory(rule("bs5837-2012"), loaded_tables());
  Tree tree = tree_of(0.4);
  tree.stems.clear();
  EXPECT_FALSE(memory.zone_of(tree).known());
  EXPECT_NE(memory.zone_of(tree).why_none.find("diameter"), std::string::npos)
      << memory.zone_of(tree).why_none;
  tree.stems = {{Stem::Read::diameter, test::metres(0), {}}};
  EXPECT_FALSE(memory.zone_of(tree).known());
}

// AS 4970:2009 draws two zones: the wider is screened by, unless one is named.
TEST(ZoneMemory, TakesTheWidestZoneOrTheOneThatIsNamed) {
  const ZoneRule& two = rule("as4970-2009");
  ASSERT_GE(two.zones.size(), 2u);
  const Tree tree = tree_of(0.5);
  const auto zones = zones_of(tree, two, loaded_tables());
  ASSERT_TRUE(zones.ok());
  ZoneMemory widest(two, loaded_tables());
  for (const Zone& zone : *zones) {
    EXPECT_GE(widest.zone_of(tree).reach, zone.reach);
    ZoneMemory named(two, loaded_tables(), zone.zone);
    EXPECT_EQ(named.zone_of(tree).radius, zone.radius);
  }
}

// Law: whatever is remembered is what zones_of() gives, for every rule that is shipped.
TEST(ZoneMemory, IsZonesOfForEveryRuleAndTree) {
  const Site site = test::random_site(7, 40, 0, 100);
  for (const ZoneRule& any : loaded_tables().rules) {
    ZoneMemory memory(any, loaded_tables());
    for (int pass = 0; pass < 2; ++pass) {
      for (Tree tree : site.trees) {
        if (pass == 1) tree.crown.reset();
        const auto zones = zones_of(tree, any, loaded_tables());
        const ScreenZone& zone = memory.zone_of(tree);
        const bool some = zones.ok() && std::any_of(zones->begin(), zones->end(),
                                                    [](auto& z) { return z.reach > Length(); });
        ASSERT_EQ(zone.known(), some) << any.id << ' ' << tree.id << ' ' << zone.why_none;
        if (!some) continue;
        const bool found = std::any_of(zones->begin(), zones->end(), [&](const Zone& z) {
          return z.zone == zone.zone && z.radius == zone.radius && z.area == zone.area;
        });
        EXPECT_TRUE(found) << any.id << ' ' << tree.id;
      }
    }
  }
}

// The screen and the full model say the same share of the same zone.
TEST(Screening, AgreesWithTheLossesOfTheFullModel) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    Site site = test::random_site(seed, 30, 12, 120);
    for (Tree& tree : site.trees) tree.crown.reset();
    const WorkMap works(site);
    const NetworkGround ground = ground_of(site);
    const ZoneRule& by = rule("bs5837-2012");
    ZoneMemory memory(by, loaded_tables());
    int reached = 0;
    for (const Tree& tree : site.trees) {
      const auto zones = zones_of(tree, by, loaded_tables());
      const TreeScreening screening = screen(tree, memory.zone_of(tree), ground);
      if (!zones) {
        EXPECT_EQ(screening.status, ScreenStatus::no_figure);
        continue;
      }
      const ZoneLoss loss = zone_loss(zones->front(), works, Beyond::left_out);
      ASSERT_TRUE(screening.share.has_value());
      EXPECT_NEAR(*screening.share, loss.share, 1e-8) << tree.id;
      EXPECT_EQ(screening.status == ScreenStatus::in_reach, !loss.by_work.empty()) << tree.id;
      if (loss.by_work.empty()) continue;
      ++reached;
      double worst = 0;
      for (const auto& work : loss.by_work) worst = std::max(worst, work.share);
      EXPECT_NEAR(screening.worst_share.value_or(-1), worst, 1e-8) << tree.id;
    }
    EXPECT_GT(reached, 3) << "seed " << seed;
  }
}

TEST(Screening, AnOutlineIsScreenedWhereTheTreeStands) {
  Tree tree = tree_of(0.5);
  tree.position->at = {500'000, 5'400'000};
  tree.crown->radius = {test::metres(4), test::metres(6), test::metres(5), test::metres(3)};
  const ZoneRule* by = nullptr;
  for (const ZoneRule& any : loaded_tables().rules) {
    ZoneMemory memory(any, loaded_tables());
    if (memory.zone_of(tree).outline) by = &any;
  }
  ASSERT_NE(by, nullptr) << "no shipped rule draws an outline";
  ZoneMemory memory(*by, loaded_tables());
  const ScreenZone& zone = memory.zone_of(tree);
  NetworkBuilder builder;
  builder.add(test::rectangle(499'900, 5'400'000, 500'100, 5'400'100));
  const TreeScreening half = screen(tree, zone, std::move(builder).finish());
  EXPECT_EQ(half.status, ScreenStatus::in_reach);
  EXPECT_GT(*half.share, 0.3);
  EXPECT_LT(*half.share, 0.7);
  EXPECT_EQ(half.ground.distance, Length());
}

TEST(Screening, WithoutAFigureTheNearestWorkIsToldAllTheSame) {
  const Site site =
      test::SiteBuilder().palm("P", {0, 0}).trench("W", {{-50, 3}, {50, 3}}, 1, 1).site();
  ZoneMemory memory(rule("bs5837-2012"), loaded_tables());
  const Tree& palm = site.trees.front();
  const TreeScreening screening = screen(palm, memory.zone_of(palm), ground_of(site));
  EXPECT_EQ(screening.status, ScreenStatus::no_figure);
  EXPECT_FALSE(screening.share.has_value());
  EXPECT_NEAR(screening.ground.distance.metres(), 2.5, 1e-9);
}

TEST(Screening, WithoutAPlaceNothingIsSaid) {
  Tree tree = tree_of(0.5);
  tree.position.reset();
  ZoneMemory memory(rule("bs5837-2012"), loaded_tables());
  const TreeScreening screening = screen(tree, memory.zone_of(tree), NetworkGround());
  EXPECT_EQ(screening.status, ScreenStatus::no_position);
  EXPECT_FALSE(screening.share.has_value());
}

}  // namespace
}  // namespace rootstead
