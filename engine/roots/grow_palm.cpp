// Palms and their like: many thin roots from the inverted cone at the foot of the trunk, each of
// one thickness for its whole length.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/geom/measure.hpp"
#include "engine/roots/field_source.hpp"
#include "engine/roots/root_grower.hpp"

namespace rootstead {
namespace {

constexpr double kLongestPiece = 0.4;         // m
constexpr double kPalmRootSinksIn = 0.3;      // m over which a root comes to its depth
constexpr double kPalmRootStraightens = 1.0;  // m over which a root turns outward again
constexpr double kConeFoot = 0.3;             // radius of the cone's foot beside its top

// The r with share_within(r) = share; r of the least root end where share is 0.
double end_of(const RadialSpread& spread, double share) {
  double low = 0, high = extent_of(spread);
  for (int i = 0; i < 50; ++i) {
    const double middle = (low + high) / 2;
    (share_within(spread, middle) < share ? low : high) = middle;
  }
  return high;
}

double depth_of(const DepthLaw& law, double relative_distance, double share) {
  const DepthLaw::Profile profile = law.at(relative_distance);
  double low = 0, high = law.limit;
  for (int i = 0; i < 50; ++i) {
    const double middle = (low + high) / 2;
    (profile.share_above(middle) < share ? low : high) = middle;
  }
  return high;
}

// Uniform over the side of the cone cut off at its foot: radius falls evenly with depth.
Place3 emergence(Growing& growing, double face, double zone, double azimuth) {
  const double u = growing.random.uniform();
  const double wide = 1, narrow = kConeFoot;
  const double radius = std::sqrt(wide * wide - u * (wide * wide - narrow * narrow));
  const double depth = zone * (wide - radius) / (wide - narrow);
  const Point at = offset(growing.stem, Angle::radians(azimuth), Length::metres(face * radius));
  return {at.x, at.y, std::max(kShallowestAxis, depth)};
}

struct PalmRoot {
  double end = 1;      // m from the stem
  double depth = 0.3;  // m, where it ends
  double thickness = 0.008;
};

void grow_root(Growing& growing, Place3 at, double azimuth, const PalmRoot& root, double wander) {
  RootPiece piece;
  piece.kind = RootKind::palm;
  piece.thickness_from = piece.thickness_to = root.thickness;
  const auto radius_of = [&](const Place3& p) {
    return distance(growing.stem, Point{p.x, p.y}).metres();
  };
  double aside = 0, radius = radius_of(at);
  // A root that ends below the trunk itself still goes down.
  const int steps = std::max(1, static_cast<int>(std::ceil((root.end - radius) / kLongestPiece)));
  const double dr = std::max(0.0, root.end - radius) / steps;
  for (int i = 0; i < steps; ++i) {
    azimuth += std::tan(aside) * dr / (radius + dr / 2 + 1e-9);
    const Point aim = offset(growing.stem, Angle::radians(azimuth), Length::metres(radius + dr));
    const Point to = growing.walls.way({at.x, at.y}, aim, at.z);
    const double way = std::hypot(to.x - at.x, to.y - at.y);
    const double kept = i + 1 == steps ? 0 : std::exp(-way / kPalmRootSinksIn);
    piece.from = at;
    piece.to = {to.x, to.y, std::max(kShallowestAxis, root.depth + (at.z - root.depth) * kept)};
    if (piece.to == piece.from) return;
    piece.parent = growing.add(piece);
    at = piece.to;
    radius = radius_of(at);
    azimuth = std::atan2(at.x - growing.stem.x, at.y - growing.stem.y);
    aside = aside * std::exp(-dr / kPalmRootStraightens) +
            growing.random.normal(0, wander) * std::sqrt(dr);
  }
}

bool is_large(const Growing& growing) {
  return !growing.tree.height ||
         growing.tree.height->length().metres() >= growing.best("palms.large_from_height");
}

double number_of_roots(const Growing& growing, double trunk) {
  const Parameter& bounds = growing.tables.parameter("architecture.palm_roots");
  return std::clamp(growing.best("architecture.palm_roots_factor") * std::pow(trunk, 1.5),
                    bounds.low, bounds.high);
}

}  // namespace

void grow_palm(Growing& growing, const Species* species, std::optional<Length> trunk) {
  const RootField field =
      fibrous_fields(growing.tree, trunk, species, growing.site.soil, growing.tables)->central();
  const double diameter = trunk ? trunk->metres() : growing.best("palms.trunk_diameter");
  const double number = std::round(number_of_roots(growing, diameter));
  const double drawn = std::min(number, growing.best("architecture.palm_roots_drawn"));
  growing.roots.palm = true;
  growing.roots.each_stands_for = number / drawn;

  const double face = diameter / 2 * growing.best("palms.root_zone_per_radius");
  const double zone = growing.best("architecture.palm_zone_depth");
  const double wander = Angle::degrees(growing.best("architecture.wander")).radians();
  const Distribution thickness =
      distribution_of(growing.tables, is_large(growing) ? "architecture.palm_thickness_large"
                                                        : "architecture.palm_thickness_small");
  const auto count = static_cast<std::size_t>(drawn);
  for (const double azimuth : azimuths_round(field.sectors, count, growing.random)) {
    PalmRoot root;
    root.end = end_of(field.spread, growing.random.uniform());
    root.depth = depth_of(field.depth, std::min(1.0, root.end / extent_of(field.spread)),
                          growing.random.uniform());
    root.thickness = thickness.draw(growing.random);
    grow_root(growing, emergence(growing, face, zone, azimuth), azimuth, root, wander);
  }
}

}  // namespace rootstead
