#include "engine/screening/network_ground.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "engine/geom/circle_area.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr Length kLook = Length::metres(30);

NetworkGround ground_of(const std::vector<MultiPolygon>& works, int threads = 1) {
  NetworkBuilder builder;
  for (const MultiPolygon& work : works) builder.add(work);
  return std::move(builder).finish(threads);
}

Circle circle(double x, double y, double radius) {
  return {{x, y}, Length::metres(radius)};
}

double segment(double radius, double distance) {
  return radius * radius * std::acos(distance / radius) -
         distance * std::sqrt(radius * radius - distance * distance);
}

TEST(NetworkGround, WithoutWorksTakesNothing) {
  const GroundAnswer answer = NetworkGround().ask(circle(0, 0, 5), kLook);
  EXPECT_EQ(answer.taken, Area());
  EXPECT_EQ(answer.nearest, GroundAnswer::kNone);
  EXPECT_EQ(answer.worst, GroundAnswer::kNone);
}

// Closed form: a trench right across a circle takes the difference of two segments.
TEST(NetworkGround, TakesWhatATrenchAcrossTheCircleHolds) {
  const auto ground = ground_of({test::rectangle(-50, 2, 50, 3)});
  const GroundAnswer answer = ground.ask(circle(0, 0, 5), kLook);
  EXPECT_NEAR(answer.taken.square_metres(), segment(5, 2) - segment(5, 3), 1e-9);
  EXPECT_EQ(answer.nearest, 0u);
  EXPECT_DOUBLE_EQ(answer.distance.metres(), 2);
  EXPECT_EQ(answer.worst, 0u);
  EXPECT_EQ(answer.by_worst, answer.taken);
}

TEST(NetworkGround, CountsGroundThatTwoWorksTakeOnce) {
  const auto ground = ground_of({test::rectangle(-50, 2, 50, 4), test::rectangle(-50, 3, 50, 4.5)});
  const GroundAnswer answer = ground.ask(circle(0, 0, 5), kLook);
  EXPECT_NEAR(answer.taken.square_metres(), segment(5, 2) - segment(5, 4.5), 1e-9);
  EXPECT_EQ(answer.worst, 0u);
  EXPECT_NEAR(answer.by_worst.square_metres(), segment(5, 2) - segment(5, 4), 1e-9);
}

// The second work lies wholly within the first, but is the only one to be told the worst of its
// own ground; alone it takes all that it takes.
TEST(NetworkGround, TellsTheWorstWorkByWhatItTakesAlone) {
  const auto ground = ground_of({test::rectangle(-50, 3, 50, 3.5), test::rectangle(-50, 2, 50, 4)});
  const GroundAnswer answer = ground.ask(circle(0, 0, 5), kLook);
  EXPECT_EQ(answer.worst, 1u);
  EXPECT_NEAR(answer.by_worst.square_metres(), segment(5, 2) - segment(5, 4), 1e-9);
  EXPECT_NEAR(answer.taken.square_metres(), answer.by_worst.square_metres(), 1e-9);
}

TEST(NetworkGround, FindsTheNearestWorkBeyondTheZone) {
  const auto ground = ground_of({test::rectangle(20, -1, 22, 1), test::rectangle(-9, -1, -8, 1)});
  const GroundAnswer answer = ground.ask(circle(0, 0, 5), kLook);
  EXPECT_EQ(answer.taken, Area());
  EXPECT_EQ(answer.nearest, 1u);
  EXPECT_DOUBLE_EQ(answer.distance.metres(), 8);
  EXPECT_EQ(ground.ask(circle(0, 0, 5), Length::metres(7)).nearest, GroundAnswer::kNone);
  EXPECT_EQ(ground.ask(circle(0, 0, 0), kLook).nearest, 1u);
}

TEST(NetworkGround, IsNotFooledByATouch) {
  const auto ground = ground_of({test::rectangle(5, -1, 6, 1)});
  const GroundAnswer answer = ground.ask(circle(0, 0, 5), kLook);
  EXPECT_EQ(answer.taken, Area());
  EXPECT_EQ(answer.worst, GroundAnswer::kNone);
  EXPECT_DOUBLE_EQ(answer.distance.metres(), 5);
}

TEST(NetworkGround, HolesOfAWorkAreNotTaken) {
  MultiPolygon ring = test::rectangle(-10, -10, 10, 10);
  ring[0].holes.push_back(test::rectangle(-1, -1, 1, 1)[0].outer);
  const GroundAnswer answer = ground_of({ring}).ask(circle(0, 0, 5), kLook);
  EXPECT_NEAR(answer.taken.square_metres(), 25 * kPi - 4, 1e-9);
  EXPECT_DOUBLE_EQ(answer.distance.metres(), 1);
}

TEST(NetworkGround, AWorkThatCoversTheZoneTakesAllOfIt) {
  const auto ground = ground_of({test::rectangle(-900, -700, 900, 700)});
  EXPECT_GT(ground.piece_count(), 10u);
  const GroundAnswer answer = ground.ask(circle(3, 4, 5), kLook);
  EXPECT_NEAR(answer.taken.square_metres(), 25 * kPi, 1e-9);
  EXPECT_LE(answer.taken, circle_area(Length::metres(5)));
  EXPECT_EQ(answer.distance, Length());
}

TEST(NetworkGround, AsksAnOutlineAsItAsksACircle) {
  const auto ground = ground_of({test::rectangle(-50, 2, 50, 4), test::rectangle(1, 3, 9, 60)});
  const MultiPolygon square = test::rectangle(-5, -5, 5, 5);
  const GroundAnswer answer =
      ground.ask(square, {0, 0}, Length::metres(std::sqrt(50)), Area::square_metres(100), kLook);
  EXPECT_NEAR(answer.taken.square_metres(), 10 * 2 + 4 * 1, 1e-9);
  EXPECT_EQ(answer.worst, 0u);
  EXPECT_NEAR(answer.by_worst.square_metres(), 20, 1e-9);
}

TEST(NetworkGround, RefusesAWorkAsWideAsACountry) {
  NetworkBuilder builder;
  EXPECT_FALSE(builder.add(test::rectangle(0, 0, 4e5, 1)));
  EXPECT_TRUE(builder.add(test::rectangle(0, 0, 1, 1)));
  const NetworkGround ground = std::move(builder).finish();
  EXPECT_EQ(ground.work_count(), 2u);
  EXPECT_EQ(ground.ask(circle(0, 0, 5), kLook).nearest, 1u);
}

TEST(NetworkGround, APlaceThatIsNoneFindsNothing) {
  const double nowhere = std::numeric_limits<double>::quiet_NaN();
  const auto ground = ground_of({test::rectangle(0, 0, 1, 1)});
  EXPECT_EQ(ground.ask(circle(nowhere, 0, 5), kLook).nearest, GroundAnswer::kNone);
  EXPECT_EQ(ground.ask(circle(1e300, 0, 5), kLook).nearest, GroundAnswer::kNone);
}

// Patches and lines thrown over a small place, so that most of them overlap.
std::vector<MultiPolygon> tangle(std::uint64_t seed, int count) {
  RandomStream random(seed, "tangle");
  std::vector<MultiPolygon> works;
  for (int i = 0; i < count; ++i) {
    const Point at{random.uniform(-40, 40), random.uniform(-40, 40)};
    if (i % 2 == 0) {
      works.push_back(union_of({{test::random_patch(random, at, random.uniform(2, 20), 7)}}));
    } else {
      const Point to{random.uniform(-400, 400), random.uniform(-400, 400)};
      works.push_back(corridor({at, to}, Length::metres(random.uniform(0.2, 2))));
    }
  }
  return works;
}

struct Asked {
  std::uint64_t seed;
  int works;
  Circle zone;
};

Asked any_question() {
  const auto seed = static_cast<std::uint64_t>(*rc::gen::inRange(0, 1'000'000));
  const int works = *rc::gen::inRange(1, 14);
  const double x = *rc::gen::inRange(-500, 500) / 10.0, y = *rc::gen::inRange(-500, 500) / 10.0;
  return {seed, works, circle(x, y, *rc::gen::inRange(10, 150) / 10.0)};
}

// The quick way against the slow one: one union of everything, every work by itself.
RC_GTEST_PROP(NetworkGround, AgreesWithTheUnionOfAllWorks, ()) {
  const Asked asked = any_question();
  const auto works = tangle(asked.seed, asked.works);
  const GroundAnswer answer = ground_of(works).ask(asked.zone, kLook);
  const double zone = circle_area(asked.zone.radius).square_metres();
  const double all = common_area(asked.zone, union_of(works)).square_metres();
  RC_ASSERT(std::abs(answer.taken.square_metres() - all) <= 1e-8 * zone);
  double worst = 0, nearest = std::numeric_limits<double>::infinity();
  for (const MultiPolygon& work : works) {
    worst = std::max(worst, common_area(asked.zone, work).square_metres());
    nearest = std::min(nearest, distance_between(asked.zone.centre, work).metres());
  }
  RC_ASSERT(std::abs(answer.by_worst.square_metres() - worst) <= 1e-8 * zone);
  if (nearest < kLook.metres() * (1 - 1e-9))
    RC_ASSERT(std::abs(answer.distance.metres() - nearest) <= 1e-6);
  else if (nearest > kLook.metres() * (1 + 1e-9))
    RC_ASSERT(answer.nearest == GroundAnswer::kNone);
}

// So that a network may be shared out: what is far away changes no bit.
RC_GTEST_PROP(NetworkGround, IsTheSameBitForBitWithoutWorksFarAway, ()) {
  const Asked asked = any_question();
  auto works = tangle(asked.seed, asked.works);
  const GroundAnswer before = ground_of(works).ask(asked.zone, kLook);
  RandomStream random(asked.seed, "far");
  for (int i = 0; i < 5; ++i) {
    const Point at{random.uniform(2000, 3000), random.uniform(-500, 500)};
    works.push_back({test::random_patch(random, at, 20, 6)});
  }
  const GroundAnswer after = ground_of(works, 2).ask(asked.zone, kLook);
  RC_ASSERT(before.taken == after.taken);
  RC_ASSERT(before.distance == after.distance);
  RC_ASSERT(before.nearest == after.nearest);
  RC_ASSERT(before.worst == after.worst);
  RC_ASSERT(before.by_worst == after.by_worst);
}

RC_GTEST_PROP(NetworkGround, OneMoreWorkNeverTakesLess, ()) {
  const Asked asked = any_question();
  auto works = tangle(asked.seed, asked.works + 1);
  const GroundAnswer more = ground_of(works).ask(asked.zone, kLook);
  works.pop_back();
  const GroundAnswer fewer = ground_of(works).ask(asked.zone, kLook);
  const double slack = 1e-8 * circle_area(asked.zone.radius).square_metres();
  RC_ASSERT(more.taken.square_metres() >= fewer.taken.square_metres() - slack);
  RC_ASSERT(more.by_worst <= more.taken);
}

}  // namespace
}  // namespace rootstead
