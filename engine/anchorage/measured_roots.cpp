#include "engine/anchorage/measured_roots.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/ray.hpp"

namespace rootstead {
namespace {

constexpr double kFeltUnits = 3;  // as far as a cut was felt in any test (Smiley 2008)

bool is_opening(const Evidence& evidence) {
  return evidence.kind != EvidenceKind::dug_root;
}

int ray_of(const Point& stem, const Point& at) {
  const double degrees = azimuth(stem, at).degrees() * kRoseRays / 360;
  return static_cast<int>(std::lround(degrees)) % kRoseRays;
}

MeasuredRoot measured(const FoundRoot& root, int ray) {
  const double radius = root.diameter.length().metres() / 2;
  MeasuredRoot result{ray, std::numbers::pi * radius * radius, {}};
  if (root.depth) result.depth = root.depth->length().metres();
  return result;
}

void add_roots(RootsSeen& seen, const Evidence& evidence, const Point& stem, double reach) {
  for (const FoundRoot& root : evidence.roots) {
    if (!root.alive || root.diameter.length() <= Length()) continue;
    if (!root.at)
      ++seen.without_place;
    else if (distance(stem, *root.at).metres() <= reach)
      seen.roots.push_back(measured(root, ray_of(stem, *root.at)));
  }
}

}  // namespace

RootsSeen roots_seen(const Tree& tree, const Trunk& trunk, std::span<const Evidence> evidence) {
  RootsSeen seen;
  const Point& stem = tree.position->at;
  const double reach = trunk.face + kFeltUnits * trunk.unit;
  std::array<bool, kRoseRays> open{};
  for (const Evidence& one : evidence) {
    if (one.tree != tree.id) continue;
    bool near = !is_opening(one);
    const MultiPolygon ground = is_opening(one) ? footprint(one) : MultiPolygon{};
    for (int ray = 0; ray < kRoseRays && is_opening(one); ++ray) {
      const Angle way = Angle::degrees(ray * 360.0 / kRoseRays);
      if (ray_crossings(stem, way, reach, ground).empty()) continue;
      open[static_cast<std::size_t>(ray)] = near = true;
    }
    if (near) add_roots(seen, one, stem, reach);
  }
  seen.circle_seen = static_cast<double>(std::count(open.begin(), open.end(), true)) / kRoseRays;
  return seen;
}

std::string why_not_used(const RootsSeen& seen, const Tables& tables) {
  const double circle = tables.parameter("anchorage.measured_circle_seen").best;
  const double least = tables.parameter("anchorage.measured_least_roots").best;
  if (seen.circle_seen < circle)
    return "the ground is open over " + percent(seen.circle_seen, 0) +
           " of the circle within 3 stem diameters, and " + percent(circle, 0) + " are needed";
  if (seen.without_place > 0)
    return std::to_string(seen.without_place) + " living roots have no place";
  if (static_cast<double>(seen.roots.size()) < least)
    return std::to_string(seen.roots.size()) + " living roots are placed, and " +
           fixed_number(least, 0) + " are needed";
  return {};
}

}  // namespace rootstead
