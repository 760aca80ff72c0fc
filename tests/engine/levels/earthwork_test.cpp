// Volumes between surfaces: solids whose volume is known, then what must hold on any ground.
#include "engine/levels/earthwork.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/levels/depth_spread.hpp"
#include "tests/engine/levels/level_shapes.hpp"

namespace rootstead {
namespace {

using test::flat;
using test::grid_of;
using test::mesh_of;
using test::ready;
using test::rough;

double m2(Area area) {
  return area.square_metres();
}

TEST(Earthwork, OfAPrismIsAreaTimesHeight) {
  const auto before = ready(mesh_of(flat(10), 20, 3));
  const auto after = ready(mesh_of(flat(10.5), 20, 7, 5));
  const Earthwork work = earthwork_between(before, after);
  EXPECT_NEAR(m2(work.area), 400, 1e-9);
  EXPECT_NEAR(work.fill, 200, 1e-9);
  EXPECT_EQ(work.cut, 0);
  EXPECT_NEAR(m2(work.fill_area), 400, 1e-9);
  EXPECT_EQ(m2(work.cut_area), 0);
  EXPECT_NEAR(work.highest_fill.metres(), 0.5, 1e-12);
  EXPECT_EQ(work.deepest_cut.metres(), 0);
  EXPECT_NEAR(work.mean_difference(), 0.5, 1e-12);
}

TEST(Earthwork, OfATiltedPlaneIsAWedgeEachSide) {
  // From -1 m to +1 m over 20 m, 20 m wide: each wedge is 10 * 20 * 1 / 2 = 100 m3.
  const auto before = ready(mesh_of(flat(0), 20, 5, 3));
  const auto after = ready(mesh_of([](double x, double) { return x / 10 - 1; }, 20, 6, 4));
  const Earthwork work = earthwork_between(before, after);
  EXPECT_NEAR(work.cut, 100, 1e-9);
  EXPECT_NEAR(work.fill, 100, 1e-9);
  EXPECT_NEAR(m2(work.cut_area), 200, 1e-9);
  EXPECT_NEAR(work.deepest_cut.metres(), 1, 1e-12);
  EXPECT_NEAR(work.net(), 0, 1e-9);
}

TEST(Earthwork, OfAPyramidIsAThirdOfItsBox) {
  TriangleMesh pyramid;
  pyramid.points = {{{0, 0}, 0}, {{6, 0}, 0}, {{6, 6}, 0}, {{0, 6}, 0}, {{3, 3}, 2}};
  pyramid.triangles = {{0, 1, 4}, {1, 2, 4}, {4, 3, 2}, {3, 0, 4}};  // one turned the other way
  const Earthwork work = earthwork_between(ready(mesh_of(flat(0), 6, 4, 9)), ready(pyramid));
  EXPECT_NEAR(work.fill, 24, 1e-9);
  EXPECT_NEAR(work.highest_fill.metres(), 2, 1e-12);
  // Within the middle square of 2 by 2 m: 4 * (2 - 2/3 * 2/3) by the slope of 2/3 per metre.
  const Earthwork inner = earthwork_between(ready(mesh_of(flat(0), 6, 4, 9)), ready(pyramid),
                                            test::rectangle(2, 2, 4, 4));
  EXPECT_NEAR(inner.fill, 4 * (2 - 2.0 / 3 * 2.0 / 3), 1e-9);
}

TEST(Earthwork, OfMatchingGridsIsByCells) {
  HeightGrid before = grid_of(flat(1), 4, 4), after = before;
  after.heights[5] += 0.5F;
  after.heights[6] -= 0.25F;
  after.heights[15] = std::nanf("");
  const Earthwork work = earthwork_between(ready(before), ready(after));
  EXPECT_NEAR(m2(work.area), 15, 1e-9);
  EXPECT_NEAR(work.fill, 0.5, 1e-9);
  EXPECT_NEAR(work.cut, 0.25, 1e-9);
  // Half a cell, cut by the outline: row 1 from the north is y 2 to 3.
  const Earthwork half =
      earthwork_between(ready(before), ready(after), test::rectangle(1.5, 2, 2, 3));
  EXPECT_NEAR(half.fill, 0.25, 1e-9);
  EXPECT_NEAR(m2(half.area), 0.5, 1e-9);
}

TEST(Earthwork, OfAGridAndTrianglesIsExactOnAnEvenSlope) {
  const auto slope = [](double x, double y) { return 0.1 * x - 0.07 * y; };
  const auto grid = ready(grid_of(slope, 20, 20));
  const auto mesh = ready(mesh_of([&](double x, double y) { return slope(x, y) + 0.3; }, 20, 7, 8));
  // Away from the rim, where the tents carry the ground on level.
  const Earthwork inner = earthwork_between(grid, mesh, test::rectangle(2, 2, 18, 18));
  EXPECT_NEAR(inner.fill, 0.3 * 256, 1e-4);  // heights of a grid are kept to seven digits
  EXPECT_NEAR(inner.cut, 0, 1e-9);
  // On curved ground within cell^2/8 times the curvature: 1/8 * 0.02 * 256 m2, and what the
  // triangles of 1/3 m leave of it themselves.
  const auto bowl = [](double x, double y) { return 0.005 * (x * x + y * y); };
  const Earthwork curved = earthwork_between(
      ready(grid_of(bowl, 20, 20)), ready(mesh_of(bowl, 20, 60)), test::rectangle(2, 2, 18, 18));
  EXPECT_LE(curved.cut + curved.fill, 0.02 / 8 * 256 * (1 + 1.0 / 9));
}

TEST(Earthwork, KeepsToAnOutlineWithAHole) {
  const auto before = ready(mesh_of(flat(0), 20, 9, 2));
  const auto after = ready(mesh_of(flat(1), 20, 8, 3));
  MultiPolygon frame = test::rectangle(2, 2, 18, 18);
  frame[0].holes = {{{5, 5}, {15, 5}, {15, 15}, {5, 15}}};
  const Earthwork work = earthwork_between(before, after, frame);
  EXPECT_NEAR(work.fill, 256 - 100, 1e-9);
  EXPECT_EQ(m2(work.missing), 0);
}

TEST(Earthwork, TakesNoDepthFromOutsideTheOutline) {
  // A peak in the notch of an outline shaped like a U.
  const auto before = ready(mesh_of(flat(0), 20, 2));
  const auto after = ready(mesh_of(
      [](double x, double y) { return std::abs(x - 10) < 1e-9 && std::abs(y - 10) < 1e-9 ? 5 : 0; },
      20, 2));
  const MultiPolygon u{
      Polygon{{{0, 0}, {20, 0}, {20, 20}, {15, 20}, {15, 5}, {5, 5}, {5, 20}, {0, 20}}, {}}};
  const Earthwork work = earthwork_between(before, after, u);
  EXPECT_NEAR(work.highest_fill.metres(), 2.5, 1e-9);
}

TEST(Earthwork, CountsWhatIsMissing) {
  const auto small = ready(mesh_of(flat(0), 10, 3, 2));
  const auto large = ready(mesh_of(flat(1), 20, 3, 2));
  const Earthwork work = earthwork_between(small, large, test::rectangle(0, 0, 20, 10));
  EXPECT_NEAR(m2(work.area), 100, 1e-9);
  EXPECT_NEAR(m2(work.missing), 100, 1e-9);
  EXPECT_NEAR(m2(covered(small, test::rectangle(5, 5, 15, 15))), 25, 1e-9);
  EXPECT_NEAR(m2(covered(large)), 400, 1e-9);
}

TEST(Earthwork, OfASurfaceAndItselfIsNothing) {
  const auto ground = ready(mesh_of(rough(4, 1), 30, 12, 4, {2.5e7, 6.8e6}));
  const Earthwork work = earthwork_between(ground, ground);
  EXPECT_EQ(work.cut, 0);
  EXPECT_EQ(work.fill, 0);
  EXPECT_EQ(m2(work.fill_area), 0);
}

TEST(Heights, AreThoseOfThePlane) {
  const auto slope = [](double x, double y) { return 3 + 0.1 * x - 0.2 * y; };
  const auto mesh = ready(mesh_of(slope, 10, 4, 7));
  const auto grid = ready(grid_of(slope, 10, 20));
  EXPECT_NEAR(mesh.height_at({3.3, 4.4}).value(), slope(3.3, 4.4), 1e-12);
  EXPECT_NEAR(grid.height_at({3.3, 4.4}).value(), slope(3.3, 4.4), 1e-5);
  EXPECT_NEAR(mesh.height_at({10, 10}).value(), slope(10, 10), 1e-12);
  EXPECT_FALSE(mesh.height_at({10.1, 3}).has_value());
  EXPECT_FALSE(grid.height_at({-0.1, 3}).has_value());
  EXPECT_FALSE(mesh.height_at({std::nan(""), 3}).has_value());
  EXPECT_NEAR(mesh.raised(Length::metres(2)).height_at({1, 1}).value(), slope(1, 1) + 2, 1e-12);
}

TEST(DepthSpread, KnowsTheQuantilesOfAWedge) {
  const auto before = ready(mesh_of(flat(0), 20, 5, 3));
  const auto after = ready(mesh_of([](double x, double) { return x / 10 - 1; }, 20, 6, 4));
  const DepthSpread spread(before, after);
  EXPECT_NEAR(m2(spread.area()), 400, 1e-9);
  EXPECT_NEAR(spread.quantile(0.5), 0, 1e-5);
  EXPECT_NEAR(spread.quantile(0.9), 0.8, 1e-5);
  EXPECT_NEAR(m2(spread.above(0.5)), 100, 1e-6);
  EXPECT_NEAR(m2(spread.below(-0.5)), 100, 1e-6);
  EXPECT_NEAR(spread.raised_quantile(0.5, 0.9), 0.95, 1e-5);
  EXPECT_NEAR(spread.lowered_quantile(0.5, 0.9), 0.95, 1e-5);
  EXPECT_NEAR(spread.median_deviation(0), 0.5, 1e-5);
}

// ---- properties ---------------------------------------------------------------------------------

struct Scene {
  TriangleMesh before, after;
  MultiPolygon area;
};

Scene scene_of(std::uint64_t seed) {
  RandomStream random(seed, "levels scene");
  Scene scene;
  scene.before = mesh_of(rough(seed, 0.8), 24, 2 + static_cast<int>(random.next() % 4), seed + 1);
  scene.after = mesh_of(rough(seed * 7 + 3, 0.8), 24, 2 + static_cast<int>(random.next() % 4),
                        seed + 2, {random.uniform(-6, 6), random.uniform(-6, 6)});
  scene.area = {test::random_patch(random, {12, 12}, 11, 5 + static_cast<int>(random.next() % 9))};
  return scene;
}

TriangleMesh moved_mesh(TriangleMesh mesh, const std::function<Point(Point)>& move) {
  for (LevelPoint& point : mesh.points) point.at = move(point.at);
  return mesh;
}

void expect_same(const Earthwork& a, const Earthwork& b, double tolerance) {
  RC_ASSERT(std::abs(a.cut - b.cut) <= tolerance * (1 + a.cut));
  RC_ASSERT(std::abs(a.fill - b.fill) <= tolerance * (1 + a.fill));
  RC_ASSERT(std::abs(m2(a.area) - m2(b.area)) <= tolerance * (1 + m2(a.area)));
  RC_ASSERT(std::abs(a.highest_fill.metres() - b.highest_fill.metres()) <= 1e-4);
  RC_ASSERT(std::abs(a.deepest_cut.metres() - b.deepest_cut.metres()) <= 1e-4);
}

RC_GTEST_PROP(EarthworkProperty, NetIsMeanDifferenceTimesArea, (std::uint32_t seed)) {
  const Scene scene = scene_of(seed);
  const auto before = ready(scene.before), after = ready(scene.after);
  const Earthwork work = earthwork_between(before, after, scene.area);
  RC_ASSERT(std::abs(work.fill - work.cut - work.mean_difference() * m2(work.area)) <= 1e-9);
  // Independent of the overlay: the mean of many places is near the mean difference.
  const Box box = box_of(scene.area);
  double sum = 0;
  int count = 0;
  constexpr int kSide = 25;
  for (int i = 0; i < kSide * kSide; ++i) {
    const Point at{box.min_x + (i % kSide + 0.5) / kSide * (box.max_x - box.min_x),
                   box.min_y + (i / kSide + 0.5) / kSide * (box.max_y - box.min_y)};
    if (!contains(scene.area, at)) continue;
    const auto low = before.height_at(at), high = after.height_at(at);
    if (!low || !high) continue;
    sum += *high - *low;
    ++count;
  }
  RC_PRE(count > 80);
  RC_ASSERT(std::abs(sum / count - work.mean_difference()) <= 0.2);
}

RC_GTEST_PROP(EarthworkProperty, SwappingSurfacesSwapsCutAndFill, (std::uint32_t seed)) {
  const Scene scene = scene_of(seed);
  const auto before = ready(scene.before), after = ready(scene.after);
  Earthwork there = earthwork_between(before, after, scene.area);
  const Earthwork back = earthwork_between(after, before, scene.area);
  std::swap(there.cut, there.fill);
  std::swap(there.deepest_cut, there.highest_fill);
  expect_same(there, back, 1e-9);
}

RC_GTEST_PROP(EarthworkProperty, PartsAddUp, (std::uint32_t seed)) {
  const Scene scene = scene_of(seed);
  const auto before = ready(scene.before), after = ready(scene.after);
  const Earthwork whole = earthwork_between(before, after, scene.area);
  double cut = 0, fill = 0, area = 0, missing = 0;
  for (const auto& half :
       {test::rectangle(-50, -50, 11.3, 50), test::rectangle(11.3, -50, 50, 50)}) {
    const Earthwork part = earthwork_between(before, after, intersection_of(scene.area, half));
    cut += part.cut;
    fill += part.fill;
    area += m2(part.area);
    missing += m2(part.missing);
  }
  RC_ASSERT(std::abs(cut - whole.cut) <= 1e-8);
  RC_ASSERT(std::abs(fill - whole.fill) <= 1e-8);
  RC_ASSERT(std::abs(area - m2(whole.area)) <= 1e-8);
  RC_ASSERT(std::abs(missing - m2(whole.missing)) <= 1e-6);
}

RC_GTEST_PROP(EarthworkProperty, MovingAndTurningChangeNothing, (std::uint32_t seed)) {
  const Scene scene = scene_of(seed);
  RandomStream random(seed, "turn");
  const double turn = random.uniform(0, 2 * std::numbers::pi);
  const auto move = [turn](Point p) {
    return Point{500000 + p.x * std::cos(turn) - p.y * std::sin(turn),
                 6000000 + p.x * std::sin(turn) + p.y * std::cos(turn)};
  };
  MultiPolygon area = scene.area;
  test::move_area(area, move);
  const Earthwork here = earthwork_between(ready(scene.before), ready(scene.after), scene.area);
  const Earthwork there = earthwork_between(ready(moved_mesh(scene.before, move)),
                                            ready(moved_mesh(scene.after, move)), area);
  expect_same(here, there, 1e-6);
}

RC_GTEST_PROP(EarthworkProperty, AConstantOnBothChangesNothing, (std::uint32_t seed)) {
  const Scene scene = scene_of(seed);
  const auto before = ready(scene.before), after = ready(scene.after);
  const Length by = Length::metres(137.25);
  expect_same(earthwork_between(before, after, scene.area),
              earthwork_between(before.raised(by), after.raised(by), scene.area), 1e-9);
}

RC_GTEST_PROP(EarthworkProperty, HoldsForGridsAndMixedPairs, (std::uint32_t seed)) {
  const Scene scene = scene_of(seed);
  const auto grid = ready(grid_of(rough(seed, 0.8), 24, 7));
  const auto other = ready(grid_of(rough(seed + 5, 0.8), 24, 7, {1.1, -0.7}));
  const auto match = ready(grid_of(rough(seed + 5, 0.8), 24, 7));
  const auto mesh = ready(scene.after);
  for (const auto* after : {&other, &match, &mesh}) {
    const Earthwork there = earthwork_between(grid, *after, scene.area);
    Earthwork back = earthwork_between(*after, grid, scene.area);
    std::swap(back.cut, back.fill);
    std::swap(back.deepest_cut, back.highest_fill);
    expect_same(there, back, 1e-9);
    const DepthSpread spread(grid, *after, scene.area);
    RC_ASSERT(std::abs(m2(spread.area()) - m2(there.area)) <= 1e-8);
    RC_ASSERT(std::abs(m2(spread.above(0)) - m2(there.fill_area)) <= 1e-6);
  }
}

}  // namespace
}  // namespace rootstead
