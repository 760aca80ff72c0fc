// A work moved across its direction: a tree loses less the farther it lies, and nothing moves.
#include "serve/offsets.hpp"

#include "serve/desk.hpp"
#include "tests/serve/a_standing.hpp"

namespace rootstead::test {
namespace {

using io::Json;

Json offsets_of(const serve::Standing& standing, const char* work, const char* tree) {
  const auto answer = serve::offsets(standing, work, tree);
  EXPECT_TRUE(answer.ok()) << answer.error().sentence();
  EXPECT_EQ(faults("/api/works/{id}/offsets", *answer), "");
  return *answer;
}

TEST(Offsets, FallFromTheStemOutward) {
  const auto standing = street_standing();
  const Json answer = offsets_of(*standing, "W1", "T1");
  EXPECT_NEAR(answer["now_m"].get<double>(), 3 - 0.3 - 0.25, 1e-9);
  const Json& points = answer["points"];
  ASSERT_GE(points.size(), 12U);
  EXPECT_NEAR(points.front()["offset_m"].get<double>(), 0, 1e-9);
  double before = -1, loss = 2;
  for (const Json& point : points) {
    EXPECT_GT(point["offset_m"].get<double>(), before);
    before = point["offset_m"];
    EXPECT_LE(point["absorbing_loss"]["best"].get<double>(), loss + 0.005);
    loss = point["absorbing_loss"]["best"];
  }
  EXPECT_GT(points.front()["absorbing_loss"]["best"].get<double>(), loss + 0.2);
}

// The point at its own place says what the trial's assessment says of the site as it is.
TEST(Offsets, AtItsOwnPlaceAreTheTrialsAnswer) {
  const Site site = street();
  const Json answer = offsets_of(*standing_of(site), "W1", "T2");
  AssessOptions options;
  options.simulation.draws = serve::kTrialDraws;
  const auto whole = assess(site, loaded_tables(), options);
  ASSERT_TRUE(whole.ok());
  bool seen = false;
  for (const Json& point : answer["points"]) {
    if (point["offset_m"] != answer["now_m"]) continue;
    seen = true;
    EXPECT_EQ(point["absorbing_loss"], io::to_json(whole->trees[1].roots->all));
    EXPECT_EQ(point["verdict"], to_text(whole->trees[1].verdict.action));
  }
  EXPECT_TRUE(seen);
}

TEST(Offsets, AreThoseOfTheWorkPutThere) {
  const auto standing = street_standing();
  const Json answer = offsets_of(*standing, "W1", "T1");
  const Json& far = answer["points"].back();
  Site site = street();
  const double by = far["offset_m"].get<double>() - answer["now_m"].get<double>();
  for (Point& at : site.works[0].shape.lines[0]) at.y -= by;
  AssessOptions options;
  options.simulation.draws = serve::kTrialDraws;
  const auto moved = assess(site, loaded_tables(), options);
  ASSERT_TRUE(moved.ok());
  EXPECT_NEAR(far["absorbing_loss"]["best"].get<double>(), moved->trees[0].roots->all.best, 1e-6);
}

TEST(Offsets, OfAnAreaGoStraightAwayFromTheStem) {
  const Json answer = offsets_of(*street_standing(), "W2", "T1");
  EXPECT_NEAR(answer["now_m"].get<double>(), 3 - 0.25, 1e-9);
  EXPECT_GE(answer["points"].size(), 12U);
}

TEST(Offsets, OfAPalmAreToldToo) {
  EXPECT_GE(offsets_of(*street_standing(), "W1", "P1")["points"].size(), 12U);
}

TEST(Offsets, AreRefusedWhereNothingCanBeMoved) {
  Site site = street();
  site.trees[1].position.reset();
  const auto standing = standing_of(site);
  EXPECT_EQ(serve::offsets(*standing, "none", "T1").error().code, Code::unknown_name);
  EXPECT_EQ(serve::offsets(*standing, "W1", "none").error().code, Code::unknown_name);
  EXPECT_EQ(serve::offsets(*standing, "W0", "T1").error().code, Code::wrong_use);
  EXPECT_EQ(serve::offsets(*standing, "W1", "T2").error().code, Code::missing_measurement);
}

}  // namespace
}  // namespace rootstead::test
