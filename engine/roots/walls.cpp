#include "engine/roots/walls.hpp"

#include <algorithm>
#include <cmath>

#include "engine/geom/measure.hpp"

namespace rootstead {
namespace {

constexpr double kClearance = 0.05;  // m that a root's axis keeps from a wall

double cross(const Point& a, const Point& b) {
  return a.x * b.y - a.y * b.x;
}

Point minus(const Point& a, const Point& b) {
  return {a.x - b.x, a.y - b.y};
}

Point along(const Point& from, const Point& direction, double part) {
  return {from.x + direction.x * part, from.y + direction.y * part};
}

double distance_to_face(const Point& p, const Point& a, const Point& b) {
  const Point ab = minus(b, a), ap = minus(p, a);
  const double square = ab.x * ab.x + ab.y * ab.y;
  const double part = square > 0 ? std::clamp((ap.x * ab.x + ap.y * ab.y) / square, 0.0, 1.0) : 0.0;
  const Point foot = along(a, ab, part);
  return std::hypot(p.x - foot.x, p.y - foot.y);
}

}  // namespace

Walls::Walls(const Site& site, const Point& near, double reach) {
  for (const Barrier& barrier : site.barriers) {
    const double underside = depth_of(barrier).metres();
    for (const Line& line : barrier.shape.lines)
      for (std::size_t i = 1; i < line.size(); ++i)
        add(line[i - 1], line[i], underside, near, reach);
    for (const Polygon& area : barrier.shape.areas)
      for (std::size_t i = 0; i < area.outer.size(); ++i)
        add(area.outer[i], area.outer[(i + 1) % area.outer.size()], underside, near, reach);
  }
}

void Walls::add(const Point& a, const Point& b, double underside, const Point& near, double reach) {
  if (underside > 0 && distance_to_face(near, a, b) <= reach) faces_.push_back({a, b, underside});
}

Walls::Meeting Walls::first_met(const Point& from, const Point& to, double depth) const {
  Meeting first;
  const Point way = minus(to, from);
  for (const Face& face : faces_) {
    if (face.underside <= depth) continue;
    const Point run = minus(face.b, face.a);
    const double turn = cross(way, run);
    if (turn == 0) continue;
    const Point gap = minus(face.a, from);
    const double on_way = cross(gap, run) / turn, on_face = cross(gap, way) / turn;
    if (on_way >= 0 && on_way <= first.part && on_face >= 0 && on_face <= 1)
      first = {on_way, &face};
  }
  return first;
}

Point Walls::way(const Point& from, const Point& to, double depth) const {
  const Meeting wall = first_met(from, to, depth);
  if (!wall.face) return to;
  const Point direction = minus(to, from);
  const double length = std::hypot(direction.x, direction.y);
  const double kept = std::max(0.0, wall.part - kClearance / length);
  const Point stop = along(from, direction, kept);
  Point run = minus(wall.face->b, wall.face->a);
  const double run_length = std::hypot(run.x, run.y);
  const double side = run.x * direction.x + run.y * direction.y < 0 ? -1 : 1;
  const Point end = along(stop, run, side * (1 - kept) * length / run_length);
  const Meeting second = first_met(stop, end, depth);
  if (!second.face) return end;
  const double rest = (1 - kept) * length;
  return along(stop, minus(end, stop), std::max(0.0, second.part - kClearance / rest));
}

}  // namespace rootstead
