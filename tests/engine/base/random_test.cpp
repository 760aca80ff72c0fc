#include "engine/base/random.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace rootstead {
namespace {

TEST(Random, NormalQuantilesAreThoseOfTheTables) {
  // Abramowitz & Stegun 1964, Handbook of Mathematical Functions, table 26.5.
  EXPECT_NEAR(normal_quantile(0.5), 0.0, 1e-9);
  EXPECT_NEAR(normal_quantile(0.9), 1.28155, 5e-6);
  EXPECT_NEAR(normal_quantile(0.975), 1.95996, 5e-6);
  EXPECT_NEAR(normal_quantile(0.001), -3.09023, 5e-6);
}

RC_GTEST_PROP(Random, NormalQuantileInvertsTheDistribution, ()) {
  const double p = *rc::gen::inRange(1, 999999) / 1e6;
  const double back = 0.5 * std::erfc(-normal_quantile(p) / std::sqrt(2.0));
  RC_ASSERT(std::abs(back - p) < 1e-8);
}

TEST(Random, TheSameSeedAndNameGiveTheSameBits) {
  RandomStream a(7, "T12"), b(7, "T12");
  for (int i = 0; i < 100; ++i) EXPECT_EQ(a.next(), b.next());
}

TEST(Random, AnotherNameOrSeedIsAnotherStream) {
  const std::uint64_t first = RandomStream(7, "T12").next();
  EXPECT_NE(first, RandomStream(7, "T13").next());
  EXPECT_NE(first, RandomStream(8, "T12").next());
}

// 20,000 draws: the sampling error of a mean is sigma / 141, so five of those are allowed.
constexpr int kDraws = 20000;

template <class Draw>
std::vector<double> sample(Draw draw) {
  RandomStream stream(2026, "sample");
  std::vector<double> values(kDraws);
  std::generate(values.begin(), values.end(), [&] { return draw(stream); });
  return values;
}

double mean(const std::vector<double>& values) {
  double sum = 0;
  for (const double v : values) sum += v;
  return sum / static_cast<double>(values.size());
}

double median(std::vector<double> values) {
  std::nth_element(values.begin(), values.begin() + kDraws / 2, values.end());
  return values[kDraws / 2];
}

TEST(Random, DrawsFollowTheirDistribution) {
  const double error = 5 / std::sqrt(double{kDraws});
  EXPECT_NEAR(mean(sample([](RandomStream& s) { return s.uniform(2, 4); })), 3, 0.577 * error);
  EXPECT_NEAR(mean(sample([](RandomStream& s) { return s.normal(10, 3); })), 10, 3 * error);
  EXPECT_NEAR(median(sample([](RandomStream& s) { return s.lognormal(38, 0.25); })), 38,
              38 * 0.25 * 1.253 * error);
  // Mean of a triangular distribution: (low + mode + high) / 3.
  EXPECT_NEAR(mean(sample([](RandomStream& s) { return s.triangular(0.18, 0.25, 0.40); })),
              0.83 / 3, 0.0467 * error);
}

TEST(Random, UniformNeverReachesItsEnds) {
  RandomStream stream(1, "ends");
  for (int i = 0; i < kDraws; ++i) {
    const double u = stream.uniform();
    ASSERT_GT(u, 0.0);
    ASSERT_LT(u, 1.0);
  }
}

// McKay, Beckman & Conover 1979: every number lies alone in its stratum.
TEST(RandomStream, InStrataSharesOutEveryNumber) {
  for (const std::uint32_t count : {1U, 2U, 7U, 200U, 1000U}) {
    std::vector<std::vector<int>> hits(30, std::vector<int>(count, 0));
    for (std::uint32_t draw = 0; draw < count; ++draw) {
      RandomStream stream = RandomStream::in_strata(5, "oak", draw, count);
      for (auto& of_place : hits) ++of_place[static_cast<std::size_t>(stream.uniform() * count)];
    }
    for (const auto& of_place : hits)
      EXPECT_EQ(of_place, std::vector<int>(count, 1)) << count << " draws";
  }
}

TEST(RandomStream, InStrataDoesNotTieOneNumberToTheNext) {
  constexpr std::uint32_t kTaken = 2000;
  constexpr std::size_t kPlaces = 12;
  std::vector<std::vector<double>> numbers(kPlaces);
  for (std::uint32_t draw = 0; draw < kTaken; ++draw) {
    RandomStream stream = RandomStream::in_strata(11, "lime", draw, kTaken);
    for (auto& of_place : numbers) of_place.push_back(stream.uniform() - 0.5);
  }
  for (std::size_t a = 0; a < kPlaces; ++a)
    for (std::size_t b = a + 1; b < kPlaces; ++b) {
      const double together =
          std::inner_product(numbers[a].begin(), numbers[a].end(), numbers[b].begin(), 0.0) /
          kTaken * 12;
      EXPECT_LT(std::abs(together), 4 / std::sqrt(double{kTaken})) << a << " and " << b;
    }
}

}  // namespace
}  // namespace rootstead
