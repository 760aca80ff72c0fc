// One likely root system, and where absorbing roots are, as the page draws them.
#include "engine/geom/measure.hpp"
#include "serve/ground_json.hpp"
#include "serve/root_share.hpp"
#include "serve/root_system_json.hpp"
#include "tests/serve/a_standing.hpp"

namespace rootstead::test {
namespace {

using io::Json;

Site level_street() {
  Site site = street();
  HeightGrid grid{{-30, 30}, 1, 60, 60, std::vector<float>(3600, 12.5F)};
  site.existing_levels = LevelSurface{"survey", "", "", grid};
  return site;
}

TEST(Roots, GrowAsTheEngineGrowsThem) {
  const auto standing = street_standing();
  const auto answer = serve::root_system_json(*standing, "T1");
  ASSERT_TRUE(answer.ok()) << answer.error().sentence();
  EXPECT_EQ(faults("/api/trees/{id}/roots", *answer), "");
  const Site& site = standing->site;
  const auto grown = grow_roots(site.trees[0], site, loaded_tables(), 1);
  const Json& pieces = (*answer)["pieces"];
  ASSERT_EQ(pieces.size(), grown->pieces.size());
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    EXPECT_NEAR(pieces[i]["to"][0].get<double>(), grown->pieces[i].to.x, 6e-4);
    EXPECT_LT(pieces[i]["parent"].get<int>(), static_cast<int>(i));
  }
  EXPECT_NE((*answer)["note"].get<std::string>().find("not a map"), std::string::npos);
}

TEST(Roots, BeyondTheTrenchAreSeveredAndOnlyThose) {
  const auto answer = serve::root_system_json(*street_standing(), "T1");
  ASSERT_TRUE(answer.ok());
  int severed = 0, beyond_and_shallow = 0;
  for (const Json& piece : (*answer)["pieces"]) {
    const double y = std::max(piece["from"][1].get<double>(), piece["to"][1].get<double>());
    severed += piece["severed"].get<bool>();
    if (piece["severed"]) continue;
    // What is whole and lies beyond has come below the trench, or round its end.
    const double depth = std::max(piece["from"][2].get<double>(), piece["to"][2].get<double>());
    beyond_and_shallow += y < -3.3 && depth < 0.2 && std::abs(piece["to"][0].get<double>()) < 5;
  }
  EXPECT_GT(severed, 10);
  EXPECT_LT(beyond_and_shallow, severed / 4);
}

TEST(Roots, OfAPalmStandForManyAndComeWithTheGround) {
  const auto answer = serve::root_system_json(*standing_of(level_street()), "P1");
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(faults("/api/trees/{id}/roots", *answer), "");
  EXPECT_GE((*answer)["each_stands_for"], 1);
  const Json& ground = (*answer)["ground"];
  ASSERT_TRUE(ground.is_object());
  EXPECT_LE(ground["columns"], serve::kMostGroundCells);
  EXPECT_EQ(ground["height_m"].size(),
            ground["columns"].get<std::size_t>() * ground["rows"].get<std::size_t>());
  EXPECT_NEAR(ground["height_m"][ground["height_m"].size() / 2].get<double>(), 12.5, 1e-3);
  EXPECT_FALSE((*answer)["works"].empty());
  EXPECT_FALSE((*answer)["barriers"].empty());
}

TEST(Roots, AreFollowedLessFarWhereThereAreTooMany) {
  const auto standing = street_standing();
  const Tree& tree = standing->site.trees[0];
  const auto all = serve::grown_roots(*standing, tree);
  const auto few = serve::grown_roots(*standing, tree, all->system.pieces.size() / 3);
  ASSERT_TRUE(few.ok());
  EXPECT_LE(few->system.pieces.size(), all->system.pieces.size() / 3);
  EXPECT_GT(few->system.pieces.size(), 0U);
  EXPECT_GT(few->thinnest, all->thinnest);
  EXPECT_EQ(few->severed.size(), few->system.pieces.size());
}

TEST(Roots, WithoutAPlaceAreRefused) {
  Site site = street();
  site.trees[0].position.reset();
  const auto standing = standing_of(site);
  EXPECT_EQ(serve::root_system_json(*standing, "T1").error().code, Code::missing_measurement);
  EXPECT_EQ(serve::root_tint(*standing, "T1").error().code, Code::missing_measurement);
  EXPECT_EQ(serve::root_profiles(*standing, "none").error().code, Code::unknown_name);
}

TEST(RootTint, HoldsNearlyAllRootsOnAGridThatAPageCanDraw) {
  for (const char* id : {"T1", "P1"}) {
    const auto tint = serve::root_tint(*street_standing(), id);
    ASSERT_TRUE(tint.ok());
    EXPECT_EQ(faults("/api/trees/{id}/tint", *tint), "");
    const auto columns = (*tint)["columns"].get<std::size_t>();
    EXPECT_LE(columns, 120U);
    ASSERT_EQ((*tint)["share_per_m2"].size(), columns * (*tint)["rows"].get<std::size_t>());
    const double cell = (*tint)["cell_m"];
    double sum = 0;
    for (const Json& share : (*tint)["share_per_m2"]) sum += share.get<double>() * cell * cell;
    EXPECT_NEAR(sum, 1, 0.1) << id;
  }
}

TEST(RootTint, ShowsNoRootsBeyondABuilding) {
  const Site site = SiteBuilder()
                        .rules({"bs5837-2012"})
                        .tree("T1", {0, 0}, 0.5)
                        .building("B1", rectangle(-30, 2, 30, 20));
  const auto tint = serve::root_tint(*standing_of(site), "T1");
  ASSERT_TRUE(tint.ok());
  const auto& shares = (*tint)["share_per_m2"];
  const auto columns = (*tint)["columns"].get<std::size_t>();
  const double cell = (*tint)["cell_m"], south = (*tint)["at"][1];
  double before = 0, under = 0;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    const double y = south + (double(i / columns) + 0.5) * cell;
    (y > 2.3 ? under : before) += shares[i].get<double>();
  }
  EXPECT_LT(under, 0.2 * before);
}

TEST(RootProfiles, RiseToAllOfTheRoots) {
  for (const char* id : {"T1", "P1"}) {
    const auto profiles = serve::root_profiles(*street_standing(), id);
    ASSERT_TRUE(profiles.ok());
    EXPECT_EQ(faults("/api/trees/{id}/profiles", *profiles), "");
    for (const char* by : {"by_depth", "by_distance"}) {
      double before = -1;
      for (const Json& point : (*profiles)[by]) {
        const Json& share = point["share"];
        EXPECT_LE(share["low"], share["best"]);
        EXPECT_LE(share["best"], share["high"]);
        EXPECT_GE(share["best"].get<double>(), before - 0.01) << by;
        before = share["best"];
      }
      EXPECT_NEAR(before, 1, 0.05) << id << by;
    }
  }
}

}  // namespace
}  // namespace rootstead::test
