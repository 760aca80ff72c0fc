#include "engine/rules/redraw.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

#include "engine/geom/circle_area.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

constexpr int kOutlineCorners = 360;
constexpr double kWidestShadowPiece = std::numbers::pi / 6;  // radians seen from the stem
constexpr int kHalvings = 45;                                // 2^-45 of the radius: 3e-14
constexpr int kNewtonSteps = 60;

double angle_between(const Point& a, const Point& b, const Point& seen_from) {
  const double ax = a.x - seen_from.x, ay = a.y - seen_from.y;
  const double bx = b.x - seen_from.x, by = b.y - seen_from.y;
  return std::abs(std::atan2(ax * by - ay * bx, ax * bx + ay * by));
}

// What an observer at `eye` cannot see for the segment a-b, out to `far`, in narrow pieces so that
// no far edge comes nearer than the zone reaches.
void add_shadow(const Point& eye, const Point& a, const Point& b, double far,
                std::vector<MultiPolygon>& shadows) {
  const double angle = angle_between(a, b, eye);
  if (angle == 0) return;
  const double span = distance(a, b).metres();
  if (angle > kWidestShadowPiece && span > 1e-9) {
    const Point middle{(a.x + b.x) / 2, (a.y + b.y) / 2};
    add_shadow(eye, a, middle, far, shadows);
    add_shadow(eye, middle, b, far, shadows);
    return;
  }
  const auto beyond = [&](const Point& point) {
    const double away = distance(eye, point).metres();
    const double stretch = std::max(1.0, far / away);
    return Point{eye.x + (point.x - eye.x) * stretch, eye.y + (point.y - eye.y) * stretch};
  };
  if (distance(eye, a).metres() == 0 || distance(eye, b).metres() == 0) return;
  shadows.push_back({Polygon{{a, b, beyond(b), beyond(a)}, {}}});
}

void add_shadow(const Point& eye, const Line& line, bool closed, double far,
                std::vector<MultiPolygon>& shadows) {
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    add_shadow(eye, line[i], line[i + 1], far, shadows);
  }
  if (closed && line.size() > 2) add_shadow(eye, line.back(), line.front(), far, shadows);
}

// The ground a barrier takes: its areas, and its lines as wide as they are.
MultiPolygon ground_of(const Barrier& barrier) {
  std::vector<MultiPolygon> parts{barrier.shape.areas};
  if (barrier.width) {
    for (const Line& line : barrier.shape.lines) {
      parts.push_back(corridor(line, barrier.width->length() / 2));
    }
  }
  return union_of(parts);
}

Length distance_to(const Point& eye, const Barrier& barrier, const MultiPolygon& ground) {
  Length nearest = distance_between(eye, ground);
  for (const Line& line : barrier.shape.lines) {
    nearest = std::min(nearest, distance_between(eye, line));
  }
  return nearest;
}

// Seen from its box alone, so that a campus of buildings does not cost every tree their outlines.
bool surely_beyond(const Point& eye, const Barrier& barrier, Length reach) {
  constexpr double kLongestMitre = 5;  // half-widths, as corridor() draws them
  const Length margin = barrier.width ? barrier.width->length() / 2 * kLongestMitre : Length();
  const auto beyond = [&](const Box& box) {
    return box.empty() || distance(eye, box) > reach + margin;
  };
  return beyond(box_of(barrier.shape.areas)) &&
         std::all_of(barrier.shape.lines.begin(), barrier.shape.lines.end(),
                     [&](const Line& line) { return beyond(box_of(line)); });
}

// The circle's radius for which `visible` gives back the wanted area; visible rises with it.
template <class Visible>
Length enlarged(Length radius, Area wanted, const Visible& visible) {
  Length low = radius, high = radius * kLargestStretch;
  if (visible(high) < wanted) return high;
  for (int i = 0; i < kHalvings; ++i) {
    const Length middle = (low + high) / 2;
    (visible(middle) < wanted ? low : high) = middle;
  }
  return (low + high) / 2;
}

}  // namespace

Length equal_area_radius(Length r, Length distance) {
  assert(distance >= Length());
  const double d = distance.metres(), wanted = circle_area(r).square_metres();
  if (d >= r.metres() || r <= Length()) return r;
  // The kept area is convex in R: Newton from the right never overshoots.
  double radius = r.metres() * std::numbers::sqrt2;
  for (int i = 0; i < kNewtonSteps; ++i) {
    const Length here = Length::metres(radius);
    const double kept = (circle_area(here) - segment_area(here, distance)).square_metres();
    const double kept_arc = 2 * radius * (std::numbers::pi - std::acos(d / radius));
    const double step = (kept - wanted) / kept_arc;
    radius -= step;
    if (std::abs(step) <= 1e-15 * radius) break;
  }
  return Length::metres(radius);
}

bool stops_roots(const Barrier& barrier) {
  return barrier.kind == BarrierKind::building || barrier.kind == BarrierKind::water ||
         depth_of(barrier) >= kStoppingDepth;
}

Redrawn redrawn_at(const Circle& circle, const std::vector<Barrier>& barriers) {
  Redrawn result;
  const Length widest = circle.radius * kLargestStretch;
  const double far = widest.metres() / std::cos(kWidestShadowPiece / 2) * 1.001;
  std::vector<MultiPolygon> shadows;
  bool cuts = false;
  for (const Barrier& barrier : barriers) {
    if (!stops_roots(barrier) || surely_beyond(circle.centre, barrier, widest)) continue;
    const MultiPolygon ground = ground_of(barrier);
    const Length away = distance_to(circle.centre, barrier, ground);
    if (away >= widest) continue;
    if (away <= Length()) {
      result.ignored.push_back(barrier.id);
      continue;
    }
    if (away < circle.radius) result.barriers.push_back(barrier.id);
    cuts = cuts || away < circle.radius;
    shadows.push_back(ground);
    for (const Polygon& polygon : ground) {
      add_shadow(circle.centre, polygon.outer, true, far, shadows);
    }
    if (barrier.width) continue;
    for (const Line& line : barrier.shape.lines) {
      add_shadow(circle.centre, line, false, far, shadows);
    }
  }
  if (!cuts) return result;
  const MultiPolygon hidden = union_of(shadows);
  const auto visible = [&](Length radius) {
    return circle_area(radius) - common_area(Circle{circle.centre, radius}, hidden);
  };
  result.radius = enlarged(circle.radius, circle_area(circle.radius), visible);
  result.area = visible(result.radius);
  const Polygon whole = polygon_of(Circle{circle.centre, result.radius}, kOutlineCorners);
  result.outline = difference_of({whole}, hidden);
  return result;
}

}  // namespace rootstead
