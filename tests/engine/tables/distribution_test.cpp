#include "engine/tables/distribution.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace rootstead {
namespace {

Parameter parameter(double low, double best, double high, std::string spread) {
  return {"x", low, best, high, std::move(spread), "", "", {}};
}

std::vector<double> sorted_draws(const Parameter& row, int count = 20001) {
  RandomStream random(1, row.spread);
  const auto distribution = Distribution::of(row);
  std::vector<double> drawn;
  for (int i = 0; i < count; ++i) drawn.push_back(distribution->draw(random));
  std::sort(drawn.begin(), drawn.end());
  return drawn;
}

TEST(Distribution, FixedAlwaysGivesTheBestValueAndUsesUpOneNumber) {
  RandomStream random(1, "a"), other(1, "a");
  EXPECT_EQ(Distribution::of(parameter(0, 2, 9, "fixed"))->draw(random), 2);
  other.next();
  EXPECT_EQ(random.next(), other.next());
}

TEST(Distribution, LognormalHasItsMedianAndItsSpread) {
  const auto drawn = sorted_draws(parameter(0.01, 38, 9000, "lognormal 0.25"));
  EXPECT_NEAR(drawn[drawn.size() / 2], 38, 0.4);
  // P90 of a lognormal: median * exp(1.2816 sigma).
  EXPECT_NEAR(drawn[drawn.size() * 9 / 10], 38 * std::exp(1.2816 * 0.25), 0.8);
}

TEST(Distribution, NormalHasItsMeanAndItsSpread) {
  const auto drawn = sorted_draws(parameter(0, 0.966, 2, "normal 0.006"));
  EXPECT_NEAR(drawn[drawn.size() / 2], 0.966, 0.0003);
  EXPECT_NEAR(drawn[drawn.size() * 9 / 10], 0.966 + 1.2816 * 0.006, 0.0004);
}

TEST(Distribution, StaysInsideItsBounds) {
  for (const char* spread : {"uniform", "triangular", "normal 5", "lognormal 2"}) {
    const auto drawn = sorted_draws(parameter(1, 2, 4, spread));
    EXPECT_GE(drawn.front(), 1) << spread;
    EXPECT_LE(drawn.back(), 4) << spread;
  }
}

TEST(Distribution, RefusesWordsItDoesNotKnow) {
  for (const char* spread : {"", "gamma 2", "lognormal", "normal -1", "normal x", "fixed 3"})
    EXPECT_FALSE(Distribution::of(parameter(1, 2, 3, spread))) << spread;
  EXPECT_FALSE(Distribution::of(parameter(3, 2, 1, "uniform")));
  EXPECT_FALSE(Distribution::of(parameter(-1, 0, 1, "lognormal 0.2")));
}

}  // namespace
}  // namespace rootstead
