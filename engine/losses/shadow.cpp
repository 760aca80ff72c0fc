#include "engine/losses/shadow.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "engine/geom/measure.hpp"

namespace rootstead {
namespace {

// An edge is projected in parts that subtend at most this, so that the far chord of each part
// stays outside the circle.
constexpr double kWidestPart = std::numbers::pi / 6;
constexpr double kBeyond = 1.05;  // of the circle's radius over cos(kWidestPart / 2)

struct Vector {
  double x = 0, y = 0;
};
Vector from(const Point& centre, const Point& p) {
  return {p.x - centre.x, p.y - centre.y};
}
double cross(Vector a, Vector b) {
  return a.x * b.y - a.y * b.x;
}
double dot(Vector a, Vector b) {
  return a.x * b.x + a.y * b.y;
}
double size(Vector a) {
  return std::hypot(a.x, a.y);
}

double distance_to_origin(Vector a, Vector b) {
  const Vector along{b.x - a.x, b.y - a.y};
  const double t = std::clamp(-dot(a, along) / dot(along, along), 0.0, 1.0);
  return size({a.x + t * along.x, a.y + t * along.y});
}

// Where the ray at `angle` from the origin meets the line through a and b.
Vector on_line(Vector a, Vector b, double angle) {
  const Vector ray{std::cos(angle), std::sin(angle)};
  const Vector along{b.x - a.x, b.y - a.y};
  const double t = cross(a, along) / cross(ray, along);
  return {t * ray.x, t * ray.y};
}

Point at(const Point& centre, Vector v, double length) {
  const double scale = length / size(v);
  return {centre.x + v.x * scale, centre.y + v.y * scale};
}

// What hides behind the edge from a to b, in parts, added to `shadows`.
void cast(const Point& centre, Vector a, Vector b, double far, std::vector<MultiPolygon>& shadows) {
  const double turn = std::atan2(cross(a, b), dot(a, b));
  const int parts = static_cast<int>(std::ceil(std::abs(turn) / kWidestPart));
  const double start = std::atan2(a.y, a.x);
  Vector p = a;
  for (int i = 1; i <= parts; ++i) {
    const Vector q = i == parts ? b : on_line(a, b, start + turn * i / parts);
    shadows.push_back(
        {Polygon{{at(centre, p, size(p)), at(centre, q, size(q)),
                  at(centre, q, std::max(far, size(q))), at(centre, p, std::max(far, size(p)))},
                 {}}});
    p = q;
  }
}

// Which edges cast: every root that meets the ground from outside meets an edge that faces the stem
// first. A stem inside the ground looks at edges from behind, so all of them count.
enum class Edges { facing_the_stem, all };

void cast(const Ring& ring, Edges edges, const Circle& within, std::vector<MultiPolygon>& shadows) {
  const double radius = within.radius.metres();
  const double far = kBeyond * radius / std::cos(kWidestPart / 2);
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vector a = from(within.centre, ring[i]);
    const Vector b = from(within.centre, ring[(i + 1) % ring.size()]);
    const double facing = cross(a, b);  // negative where the ground lies behind the edge
    if (facing == 0 || (facing > 0 && edges == Edges::facing_the_stem)) continue;
    if (distance_to_origin(a, b) >= radius) continue;
    cast(within.centre, a, b, far, shadows);
  }
}

}  // namespace

std::vector<MultiPolygon> shadows_of(const MultiPolygon& ground, const Circle& within) {
  std::vector<MultiPolygon> shadows;
  const Edges edges = contains(ground, within.centre) ? Edges::all : Edges::facing_the_stem;
  for (const Polygon& polygon : ground) {
    cast(polygon.outer, edges, within, shadows);
    for (const Ring& hole : polygon.holes) cast(hole, edges, within, shadows);
  }
  return shadows;
}

}  // namespace rootstead
