// The travel distance against closed forms: plane geometry of taut strings, and Snell's law.
#include "engine/geom/eikonal.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "engine/geom/measure.hpp"
#include "tests/engine/geom/travel_scene.hpp"

namespace rootstead {
namespace {

using test::converge;
using test::error_of;
using test::order_of;
using test::TravelError;
using test::TravelScene;

double apart(const Point& a, const Point& b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}
const auto kEverywhere = [](const Point&) { return true; };

// ---- open field ---------------------------------------------------------------------------------

TEST(TravelDistance, InOpenGroundIsTheStraightDistanceToRounding) {
  for (const Point source : {Point{0, 0}, Point{0.03, 0.07}, Point{-4.9, 3.1}, Point{0.1, -0.1}}) {
    TravelScene scene(6, 0.2);
    const TravelMap map = travel_from(source, scene.grid, scene.speed);
    const TravelError error = error_of(
        map, scene, [&](const Point& p) { return apart(source, p); }, kEverywhere);
    EXPECT_LT(error.largest, 1e-12);
  }
}

TEST(TravelDistance, BetweenCentresIsTheStraightDistanceToo) {
  const PlanGrid grid = PlanGrid::around({10, 20}, Length::metres(6), Length::metres(0.2));
  const TravelMap map = travel_from({10, 20}, grid, std::vector<double>(grid.count(), 1));
  EXPECT_NEAR(map.at({13.05, 24.02}), std::hypot(3.05, 4.02), 1e-12);
  EXPECT_NEAR(map.at({10.03, 20.01}), std::hypot(0.03, 0.01), 1e-12);
  EXPECT_TRUE(std::isinf(map.at({30, 20}))) << "off the grid";
}

TEST(TravelDistance, InEvenSlowGroundIsTheDistanceOverTheSpeed) {
  TravelScene scene(6, 0.1);
  scene.lay(0.5, kEverywhere);
  const TravelMap map = travel_from({0.05, 0.05}, scene.grid, scene.speed);
  // The source's own cell counts as open, which spares at most half a diagonal of it.
  const TravelError error = error_of(
      map, scene,
      [](const Point& p) {
        return apart({0.05, 0.05}, p) / 0.5;
      },
      kEverywhere);
  EXPECT_LT(error.largest, 0.1 * std::sqrt(0.5) * 1.01);
}

// ---- blocked ground -----------------------------------------------------------------------------

// A wall one metre thick from the south to a flat tip: the way bends round two corners.
TEST(TravelDistance, RoundTheTipOfAHalfPlaneWallIsTheTautString) {
  const Point near{3, 2}, far{4, 2};
  TravelScene scene(10, 0.2);
  scene.lay(0, 3, -20, 4, 2);
  const auto exact = [&](const Point& p) {
    const double y_at_near = p.y * near.x / p.x, y_at_far = p.y * far.x / p.x;
    if (p.x <= near.x || (y_at_near >= near.y && (p.x <= far.x || y_at_far >= far.y)))
      return apart({0, 0}, p);
    if (p.x <= far.x || p.y >= near.y) return apart({0, 0}, near) + apart(near, p);
    return apart({0, 0}, near) + apart(near, far) + apart(far, p);
  };
  const TravelMap map = travel_from({0, 0}, scene.grid, scene.speed);
  EXPECT_LT(error_of(map, scene, exact, kEverywhere).largest, 1e-12);
}

// The same for a wall that runs askew over the cells: what is left is the wall's own steps.
TEST(TravelDistance, RoundTheTipOfASlantingWallIsWithinACellAndGoesAtFirstOrder) {
  const double slant = Angle::degrees(25).radians();
  const Point along{std::sin(slant), std::cos(slant)};
  const Point tip{3.07, 1.93};
  // Thin: the string bends at the tip alone.
  const auto exact = [&](const Point& p) {
    const double side = (p.x - tip.x) * along.y - (p.y - tip.y) * along.x;
    const double source_side = (0 - tip.x) * along.y - (0 - tip.y) * along.x;
    const double cross_t = source_side / (source_side - side);
    const Point at{p.x * cross_t, p.y * cross_t};
    const bool hidden =
        side * source_side < 0 && (at.x - tip.x) * along.x + (at.y - tip.y) * along.y < 0;
    return hidden ? apart({0, 0}, tip) + apart(tip, p) : apart({0, 0}, p);
  };
  const auto errors = converge("slanting wall", 0.4, [&](double cell) {
    TravelScene scene(10, cell);
    const double thin = 1e-4, length = 30;
    const Point end{tip.x - length * along.x, tip.y - length * along.y};
    const Point aside{along.y * thin, -along.x * thin};
    const MultiPolygon wall = {
        {{tip, {tip.x + aside.x, tip.y + aside.y}, {end.x + aside.x, end.y + aside.y}, end}, {}}};
    const auto touched = cells_touched(scene.grid, wall);
    for (std::size_t i = 0; i < touched.size(); ++i)
      if (touched[i] != 0) scene.speed[i] = 0;
    return error_of(travel_from({0, 0}, scene.grid, scene.speed), scene, exact, kEverywhere);
  });
  double cell = 0.4;
  for (const TravelError& error : errors) {
    EXPECT_LT(error.largest, 2.5 * cell);
    cell /= 2;
  }
  EXPECT_GT(order_of(errors.front().largest, errors.back().largest, 3), 0.7);
}

// Tangent, arc, tangent.
TEST(TravelDistance, RoundARoundObstacleIsTangentAndArc) {
  const Point middle{4, 0};
  const double radius = 2;
  const auto exact = [&](const Point& p) {
    const double from_source = apart({0, 0}, middle), from_p = apart(p, middle);
    const double angle = std::abs(std::atan2(p.y, middle.x - p.x));  // seen from the middle
    const double turned = angle - std::acos(radius / from_source) - std::acos(radius / from_p);
    if (turned <= 0) return apart({0, 0}, p);
    return std::sqrt(from_source * from_source - radius * radius) +
           std::sqrt(from_p * from_p - radius * radius) + radius * turned;
  };
  const auto errors = converge("round obstacle", 0.4, [&](double cell) {
    TravelScene scene(10, cell);
    scene.lay(0, [&](const Point& p) { return apart(p, middle) < radius; });
    return error_of(travel_from({0, 0}, scene.grid, scene.speed), scene, exact,
                    [&](const Point& p) { return apart(p, middle) > radius; });
  });
  EXPECT_LT(errors.back().largest, 0.05);
  EXPECT_GT(order_of(errors.front().mean, errors.back().mean, 3), 0.8);
}

TEST(TravelDistance, ThroughASlitFansOutFromItsEdges) {
  TravelScene scene(8, 0.2);
  scene.lay(0, 2, -20, 2.4, 1).lay(0, 2, 1.4, 2.4, 20);
  const Point low_in{2, 1}, low_out{2.4, 1}, high_out{2.4, 1.4};
  const TravelMap map = travel_from({0, 0}, scene.grid, scene.speed);
  const auto exact = [&](const Point& p) {
    if (p.x < 2) return apart({0, 0}, p);
    // Seen through the slit: over its upper corners at 1.4/2.4 and below, over the lower at 1/2.
    const double slope = p.y / p.x;
    if (p.x > 2.4 ? slope <= 1.4 / 2.4 && slope >= 0.5 : slope >= 0.5) return apart({0, 0}, p);
    if (slope > 0.5) return apart({0, 0}, high_out) + apart(high_out, p);
    if (p.x <= 2.4 || p.y >= 1) return apart({0, 0}, low_in) + apart(low_in, p);
    return apart({0, 0}, low_in) + apart(low_in, low_out) + apart(low_out, p);
  };
  EXPECT_LT(error_of(map, scene, exact, kEverywhere).largest, 1e-12);
}

// ---- changes of ground --------------------------------------------------------------------------

// Over a half-speed band whose sides run along the cells: by Snell's law sin(in) / sin(out) = 2.
double through_band(const Point& p, double x0, double x1, double speed) {
  const double inside = std::clamp(p.x, x0, x1) - x0, outside = p.x - inside;
  double low = 0, high = 1;  // sine of the angle in open ground
  const auto rise = [&](double sine) {
    const double slow = sine * speed;
    return outside * sine / std::sqrt(1 - sine * sine) + inside * slow / std::sqrt(1 - slow * slow);
  };
  for (int i = 0; i < 200; ++i) {
    const double sine = (low + high) / 2;
    (rise(sine) < std::abs(p.y) ? low : high) = sine;
  }
  const double slow = low * speed;
  return outside / std::sqrt(1 - low * low) + inside / speed / std::sqrt(1 - slow * slow);
}

TEST(TravelDistance, ThroughAHalfSpeedBandObeysSnellsLaw) {
  const auto exact = [](const Point& p) {
    return p.x < 2 ? apart({0, 0}, p) : through_band(p, 2, 4, 0.5);
  };
  const auto beyond = converge("beyond a half-speed band", 0.4, [&](double cell) {
    TravelScene scene(8, cell);
    scene.lay(0.5, 2, -20, 4, 20);
    return error_of(travel_from({0, 0}, scene.grid, scene.speed), scene, exact,
                    [](const Point& p) { return p.x > 4 && std::abs(p.y) < 6; });
  });
  EXPECT_LT(beyond.back().largest, 0.02);
  EXPECT_GT(order_of(beyond.front().largest, beyond.back().largest, 3), 0.8);
  converge("within a half-speed band", 0.4, [&](double cell) {
    TravelScene scene(8, cell);
    scene.lay(0.5, 2, -20, 4, 20);
    return error_of(travel_from({0, 0}, scene.grid, scene.speed), scene, exact,
                    [](const Point& p) { return p.x > 2 && p.x < 4 && std::abs(p.y) < 6; });
  });
}

// With many starts there is nothing to see by: marching alone.
TEST(TravelDistance, ByMarchingAloneIsOfSecondOrder) {
  const auto exact = [](const Point& p) { return apart({0, 0}, p); };
  const auto errors = converge("marching alone, from a ring", 0.4, [&](double cell) {
    TravelScene scene(8, cell);
    std::vector<TravelStart> starts;
    for (std::size_t i = 0; i < scene.grid.count(); ++i) {
      const auto columns = static_cast<std::size_t>(scene.grid.columns);
      const Point at =
          scene.grid.centre(static_cast<int>(i % columns), static_cast<int>(i / columns));
      if (exact(at) > 1.2 && exact(at) < 2) starts.push_back({i, exact(at)});
    }
    return error_of(travel_from({0, 0}, starts, scene.grid, scene.speed), scene, exact,
                    [&](const Point& p) { return exact(p) > 2; });
  });
  EXPECT_GT(order_of(errors.front().largest, errors.back().largest, 3), 1.7);
}

}  // namespace
}  // namespace rootstead
