#include "engine/geom/circle_area.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "tests/engine/geom/random_shapes.hpp"

namespace rootstead {
namespace {

using std::numbers::pi;
using test::Dice;
using test::moved;
using test::rectangle;

constexpr double kFar = 1e4;  // half the side of a square that stands for a half-plane

double common(const Circle& circle, const Polygon& polygon) {
  return common_area(circle, polygon).square_metres();
}

Circle circle_at(double x, double y, double radius) {
  return {{x, y}, Length::metres(radius)};
}

// --- closed forms ---

TEST(CircleArea, AStraightCutAtEightAndAQuarterDiametersTakesATenthOfATwelveDiameterCircle) {
  // segment(12, 8.245) / (12^2 pi) = 10.00 %, by r^2 acos(d/r) - d sqrt(r^2 - d^2).
  const double by_formula =
      (144 * std::acos(8.245 / 12) - 8.245 * std::sqrt(144 - 8.245 * 8.245)) / (144 * pi);
  EXPECT_NEAR(by_formula, 0.1000, 0.00005);
  const double cut = common(circle_at(0, 0, 12), rectangle(8.245, -kFar, kFar, kFar));
  EXPECT_NEAR(cut / (144 * pi), by_formula, 1e-12);
  const Area segment = segment_area(Length::metres(12), Length::metres(8.245));
  EXPECT_NEAR(segment.square_metres() / (144 * pi), by_formula, 1e-12);
}

TEST(CircleArea, TheWorkedExampleOfTheMethodsPageHolds) {
  // docs/methods/areas.md: circle of 6 m, trench 0.6 m wide with its near side 3 m from the stem.
  const double strip = common(circle_at(0, 0, 6), rectangle(3.0, -kFar, 3.6, kFar));
  EXPECT_NEAR(strip, 6.0080, 0.00005);
  EXPECT_NEAR(strip / (36 * pi), 0.0531, 0.00005);
}

TEST(CircleArea, AHalfDiscIsHalfTheCircle) {
  EXPECT_NEAR(common(circle_at(0, 0, 6), rectangle(0, -kFar, kFar, kFar)), 18 * pi, 1e-9);
}

TEST(CircleArea, AQuarterDiscIsAQuarterOfTheCircle) {
  EXPECT_NEAR(common(circle_at(0, 0, 6), rectangle(0, 0, kFar, kFar)), 9 * pi, 1e-9);
}

TEST(CircleArea, APolygonRoundTheCircleTakesAllOfIt) {
  EXPECT_NEAR(common(circle_at(0, 0, 6), rectangle(-6, -6, 6, 6)), 36 * pi, 1e-9);
  EXPECT_NEAR(common(circle_at(0, 0, 6), rectangle(-kFar, -kFar, kFar, kFar)), 36 * pi, 1e-9);
}

TEST(CircleArea, APolygonInsideTheCircleIsTakenWhole) {
  EXPECT_NEAR(common(circle_at(0, 0, 6), rectangle(1, 1, 3, 2)), 2, 1e-12);
  // corners on the circle itself: the inscribed square
  const double corner = 6 / std::sqrt(2.0);
  EXPECT_NEAR(common(circle_at(0, 0, 6), rectangle(-corner, -corner, corner, corner)), 72, 1e-9);
}

TEST(CircleArea, TheCornerOfAnAnnulusIsAQuarterOfIt) {
  // Quarter-plane with the inner circle, as a fine polygon, for a hole: pi/4 (36 - 4) in the limit.
  Polygon corner = rectangle(0, 0, kFar, kFar);
  const MultiPolygon ring = difference_of({corner}, {polygon_of(circle_at(0, 0, 2), 1 << 12)});
  const double inner = 2 * 2 * (1 << 12) / 8.0 * std::sin(2 * pi / (1 << 12));
  EXPECT_NEAR(common_area(circle_at(0, 0, 6), ring).square_metres(), 9 * pi - inner, 1e-8);
}

TEST(CircleArea, ACornerInsideTheDiscAgreesWithItsClosedForm) {
  // Disc of radius r right of x = a and above y = b, with the corner (a, b) inside it:
  // the integral of sqrt(r^2 - x^2) - b from a to sqrt(r^2 - b^2).
  const double r = 6, a = 1.25, b = 2.5;
  const double end = std::sqrt(r * r - b * b);
  const auto primitive = [&](double x) {
    return (x * std::sqrt(r * r - x * x) + r * r * std::asin(x / r)) / 2;
  };
  const double expected = primitive(end) - primitive(a) - b * (end - a);
  const double found = common(circle_at(0, 0, r), rectangle(a, b, kFar, kFar));
  EXPECT_NEAR(found, expected, 1e-9 * expected);
}

TEST(CircleArea, TangentAndDistantPolygonsTakeNothing) {
  EXPECT_NEAR(common(circle_at(0, 0, 6), rectangle(6, -kFar, kFar, kFar)), 0, 1e-12);
  EXPECT_EQ(common(circle_at(0, 0, 6), rectangle(7, 7, 8, 8)), 0);
  // A diamond whose edges miss the circle although its box does not.
  EXPECT_NEAR(common(circle_at(0, 0, 1), {{{5, 0}, {2, 0.1}, {0.9, 2}, {5, 3}}, {}}), 0, 1e-12);
}

TEST(CircleArea, DegenerateInputHasNoArea) {
  EXPECT_EQ(common(circle_at(0, 0, 0), rectangle(-1, -1, 1, 1)), 0);
  EXPECT_EQ(common(circle_at(0, 0, -2), rectangle(-1, -1, 1, 1)), 0);
  EXPECT_EQ(common(circle_at(0, 0, 2), Polygon{}), 0);
  EXPECT_EQ(common(circle_at(0, 0, 2), {{{0, 0}, {1, 1}}, {}}), 0);
  EXPECT_EQ(common(circle_at(0, 0, 2), {{{1, 1}, {1, 1}, {1, 1}}, {}}), 0);
  EXPECT_NEAR(common(circle_at(0, 0, 2), {{{0, 0}, {1, 1}, {3, 3}}, {}}), 0, 1e-15);
  EXPECT_EQ(common_area(circle_at(0, 0, 2), MultiPolygon{}).square_metres(), 0);
}

TEST(CircleArea, RepeatedPointsAndAClosedRingChangeNothing) {
  const Polygon plain = rectangle(1, -3, 9, 4);
  Polygon repeated = plain;
  repeated.outer.insert(repeated.outer.begin() + 1, repeated.outer[1]);
  repeated.outer.push_back(repeated.outer.front());
  EXPECT_EQ(common(circle_at(0, 0, 6), repeated), common(circle_at(0, 0, 6), plain));
}

TEST(CircleArea, AHoleIsTakenOutInEitherOrientation) {
  Polygon with_hole = rectangle(-kFar, -kFar, kFar, kFar);
  with_hole.holes.push_back(rectangle(0, 0, 2, 3).outer);
  EXPECT_NEAR(common(circle_at(0, 0, 6), with_hole), 36 * pi - 6, 1e-9);
  std::reverse(with_hole.holes[0].begin(), with_hole.holes[0].end());
  EXPECT_NEAR(common(circle_at(0, 0, 6), with_hole), 36 * pi - 6, 1e-9);
}

TEST(CircleArea, ThinSegmentsKeepTheirDigits) {
  // For d = r (1 - e) the segment is (4 sqrt(2) / 3) r^2 e^1.5 (1 - 3e/20 - ...).
  for (const double e : {1e-4, 1e-6, 1e-8, 1e-10}) {
    const double expected = 4 * std::sqrt(2.0) / 3 * std::pow(e, 1.5) * (1 - 3 * e / 20);
    const double d = 1 - e;
    const double given = 1 - d;  // e as the distance can hold it
    const double adjusted = expected * std::pow(given / e, 1.5);
    const double found = segment_area(Length::metres(1), Length::metres(d)).square_metres();
    EXPECT_NEAR(found, adjusted, (0.02 * e * e + 1e-12) * adjusted) << e;
  }
}

TEST(CircleArea, ASegmentAndTheRestMakeTheWholeCircle) {
  for (const double d : {0.0, 0.5, 3.0, 5.999, 6.0, 7.0}) {
    const double far = segment_area(Length::metres(6), Length::metres(d)).square_metres();
    const double near = segment_area(Length::metres(6), Length::metres(-d)).square_metres();
    EXPECT_NEAR(far + near, 36 * pi, 1e-12) << d;
  }
}

TEST(CircleArea, AThousandRandomHalfPlanesAgreeWithTheSegmentFormula) {
  Dice dice = test::announced_dice(20261125);
  for (int i = 0; i < 1000; ++i) {
    const double r = dice.between(0.1, 30), d = dice.between(-0.999, 0.999) * r;
    const double turn = dice.between(0, 2 * pi);
    const double x = dice.between(1e5, 1e6), y = dice.between(1e5, 1e6);
    const Polygon half_plane = moved(rectangle(d, -4 * r, 9 * r, 5 * r), turn, x, y);
    // Coordinates of 1e6 m are held to 1e-10 m; the length of the chord turns that into area.
    const double held = 4 * r * 1.2e-10;
    const double expected = segment_area(Length::metres(r), Length::metres(d)).square_metres();
    EXPECT_NEAR(common(circle_at(x, y, r), half_plane), expected, 1e-9 * expected + held);
    const Polygon at_home = moved(rectangle(d, -4 * r, 9 * r, 5 * r), turn, 0, 0);
    EXPECT_NEAR(common(circle_at(0, 0, r), at_home), expected, 1e-9 * expected);
  }
}

// --- against GEOS with the circle as a polygon of many corners ---

TEST(CircleArea, AThousandRandomPolygonsAgreeWithGeosAndManyCorners) {
  Dice dice = test::announced_dice(8245);
  constexpr int kCorners = 4096;
  const double outside = 1 / std::cos(pi / kCorners);  // circumscribed over inscribed radius
  double worst = 0;
  for (int i = 0; i < 1000; ++i) {
    const Point centre{dice.between(4e5, 6e5), dice.between(1e5, 9e5)};
    const double r = dice.between(0.5, 15);
    const Point middle{centre.x + dice.between(-1.5, 1.5) * r,
                       centre.y + dice.between(-1.5, 1.5) * r};
    const Polygon polygon = test::star_polygon(dice, middle, dice.between(0.05, 2) * r);
    const auto by_geos = [&](double radius) {
      const Circle circle{centre, Length::metres(radius)};
      return area_of(intersection_of({polygon_of(circle, kCorners)}, {polygon})).square_metres();
    };
    const double inner = by_geos(r), outer = by_geos(r * outside);
    const double exact = common({centre, Length::metres(r)}, polygon);
    const double whole = pi * r * r;
    EXPECT_GE(exact, inner - 1e-9 * whole) << i;
    EXPECT_LE(exact, outer + 1e-9 * whole) << i;
    // The two polygons miss the disc by -2 and +1 parts: their mean weighted 1 : 2 converges as
    // n^-3.
    const double miss = std::abs(exact - (inner + 2 * outer) / 3) / whole;
    worst = std::max(worst, miss);
  }
  EXPECT_LT(worst, 1e-9);
  std::cout << "[ measured ] largest difference " << worst << " of the circle\n";
}

// --- properties ---

struct Case {
  Circle circle;
  Polygon polygon;
};

Case any_case() {
  Dice dice(*rc::gen::arbitrary<std::uint32_t>());
  const Circle circle =
      circle_at(dice.between(-50, 50), dice.between(-50, 50), dice.between(1, 20));
  const Point near{circle.centre.x + dice.between(-15, 15),
                   circle.centre.y + dice.between(-15, 15)};
  return {circle, test::star_polygon(dice, near, dice.between(1, 20))};
}

double tolerance(const Circle& circle) {
  return 1e-12 * circle_area(circle.radius).square_metres();
}

RC_GTEST_PROP(CircleArea, IsNeverMoreThanTheCircleNorThePolygon, ()) {
  const Case any = any_case();
  const double area = common(any.circle, any.polygon);
  RC_ASSERT(area >= 0);
  RC_ASSERT(area <= circle_area(any.circle.radius).square_metres());
  RC_ASSERT(area <= area_of(any.polygon).square_metres() + tolerance(any.circle));
}

RC_GTEST_PROP(CircleArea, DoesNotChangeUnderRotationAndTranslation, ()) {
  const Case any = any_case();
  const double turn = *rc::gen::inRange(0, 6283) / 1000.0;
  const double dx = *rc::gen::inRange(-1000, 1000), dy = *rc::gen::inRange(-1000, 1000);
  const Ring centre = moved(Ring{any.circle.centre}, turn, dx, dy);
  const Circle circle{centre[0], any.circle.radius};
  const double before = common(any.circle, any.polygon);
  const double after = common(circle, moved(any.polygon, turn, dx, dy));
  RC_ASSERT(std::abs(before - after) <= 50 * tolerance(circle));
}

RC_GTEST_PROP(CircleArea, DoesNotDependOnTheFirstCornerNorOnTheOrientation, ()) {
  const Case any = any_case();
  Polygon other = any.polygon;
  const auto corners = static_cast<int>(other.outer.size());
  std::rotate(other.outer.begin(), other.outer.begin() + *rc::gen::inRange(0, corners),
              other.outer.end());
  if (*rc::gen::arbitrary<bool>()) std::reverse(other.outer.begin(), other.outer.end());
  for (Ring& hole : other.holes) std::reverse(hole.begin(), hole.end());
  const double difference = common(any.circle, any.polygon) - common(any.circle, other);
  RC_ASSERT(std::abs(difference) <= tolerance(any.circle));
}

RC_GTEST_PROP(CircleArea, TheTwoSidesOfACutAddUpToTheWhole, ()) {
  const Case any = any_case();
  const double x = any.circle.centre.x + *rc::gen::inRange(-100, 100) / 10.0;
  const MultiPolygon west = {rectangle(-kFar, -kFar, x, kFar)};
  const MultiPolygon left = intersection_of({any.polygon}, west);
  const MultiPolygon right = difference_of({any.polygon}, west);
  const Area sum = common_area(any.circle, left) + common_area(any.circle, right);
  const double difference = sum.square_metres() - common(any.circle, any.polygon);
  RC_ASSERT(std::abs(difference) <= 50 * tolerance(any.circle));
}

RC_GTEST_PROP(CircleArea, AWiderCircleNeverTakesLess, ()) {
  const Case any = any_case();
  const Circle wider{any.circle.centre, any.circle.radius * 1.01};
  RC_ASSERT(common(wider, any.polygon) >= common(any.circle, any.polygon) - tolerance(wider));
}

}  // namespace
}  // namespace rootstead
