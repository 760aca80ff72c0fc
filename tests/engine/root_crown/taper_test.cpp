// What a trunk's diameter near the ground says. The law and its limits are our assumption: the
// values below are worked by hand from it.
#include "engine/root_crown/taper.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "tests/support/shipped_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using test::metres;

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

TaperReading reading(double height, double diameter) {
  return {metres(height), metres(diameter)};
}

// d(z) = d (1 + k exp(-z / 0.25 m))
TaperReading on_law(double height, double stem, double k) {
  return reading(height, stem * (1 + k * std::exp(-height / 0.25)));
}

TEST(Taper, IsTheMeasuredRatioWhereBothHeightsWereRead) {
  // 0.620 / 0.560 = 1.1071
  const auto fit = fit_taper({reading(0, 0.62), reading(0.3, 0.56)}, tables());
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->ratio, 0.62 / 0.56, 1e-12);
  EXPECT_EQ(fit->says, TaperSays::like_a_flare);
  EXPECT_EQ(fit->figure.from.status, Status::assumption);
}

TEST(Taper, SaysPoleProbeAndFlareAtItsTwoLimits) {
  const auto says = [](double ratio) {
    return fit_taper({reading(0, 0.5 * ratio), reading(0.3, 0.5)}, tables())->says;
  };
  EXPECT_EQ(says(0.98), TaperSays::like_a_pole);
  EXPECT_EQ(says(1.049), TaperSays::like_a_pole);
  EXPECT_EQ(says(1.051), TaperSays::worth_a_probe);
  EXPECT_EQ(says(1.099), TaperSays::worth_a_probe);
  EXPECT_EQ(says(1.101), TaperSays::like_a_flare);
}

TEST(Taper, OfASoundFlareIsThatOfTheLaw) {
  // k = 0.3: 1.3 / (1 + 0.3 * 0.301194) = 1.19227; k = 0.6: 1.6 / 1.180717 = 1.35511
  const auto thin = fit_taper({on_law(0.1, 0.4, 0.3), on_law(0.6, 0.4, 0.3)}, tables());
  EXPECT_NEAR(thin->ratio, 1.19227, 1e-5);
  EXPECT_NEAR(thin->stem.metres(), 0.4, 1e-12);
  const auto wide =
      fit_taper({on_law(0, 0.4, 0.6), on_law(0.2, 0.4, 0.6), on_law(0.9, 0.4, 0.6)}, tables());
  EXPECT_NEAR(wide->ratio, 1.35511, 1e-5);
  EXPECT_NEAR(wide->k, 0.6, 1e-12);
}

TEST(Taper, IsNotReadFromTooLittle) {
  EXPECT_FALSE(fit_taper({}, tables()));
  EXPECT_FALSE(fit_taper({reading(0, 0.5)}, tables()));
  EXPECT_FALSE(fit_taper({reading(0.3, 0.5), reading(0.3, 0.6)}, tables())) << "one height";
  EXPECT_FALSE(fit_taper({reading(0, 0.5), reading(1.4, 0.4)}, tables())) << "one near the ground";
  EXPECT_FALSE(fit_taper({reading(0, 0.5), reading(0.3, 0)}, tables())) << "no diameter";
  EXPECT_FALSE(fit_taper({reading(0, 2.0), reading(0.1, 0.05)}, tables())) << "no trunk";
}

RC_GTEST_PROP(TaperOfAnyTrunk, IsUnchangedByItsThicknessAndTheOrderOfReadings, ()) {
  const double stem = *rc::gen::inRange(50, 1500) / 1000.0, k = *rc::gen::inRange(0, 100) / 100.0;
  const double low = *rc::gen::inRange(0, 20) / 100.0, high = *rc::gen::inRange(30, 90) / 100.0;
  const auto a = fit_taper({on_law(low, stem, k), on_law(high, stem, k)}, tables());
  const auto b = fit_taper({on_law(high, 2 * stem, k), on_law(low, 2 * stem, k)}, tables());
  RC_ASSERT(a && b);
  RC_ASSERT(std::abs(a->ratio - b->ratio) < 1e-9);
  RC_ASSERT(std::abs(a->k - k) < 1e-9);
}

}  // namespace
}  // namespace rootstead
