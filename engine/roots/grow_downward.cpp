// Roots that go down: taproot, obliques of the heart type, sinkers.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/geom/measure.hpp"
#include "engine/roots/root_grower.hpp"

namespace rootstead {
namespace {

constexpr double kStep = 0.15;                // m
constexpr double kWander = 0.15;              // radians per step, of an oblique root
constexpr double kTapStart = 0.05;            // m: the collar
constexpr double kTapLeft = 0.1;              // of the thickness at half the depth
constexpr double kUnevenness = 0.35;          // ln sd of the areas of obliques
constexpr double kTaperPerDiameter = 1.2;     // m of way per m of stem, plus
constexpr double kTaperAtLeast = 0.2;         // m
constexpr double kInsideFace = 0.8;           // of the trunk's radius
constexpr std::size_t kObliquesOfPlates = 2;  // of trees that hardly go down

bool taproot_grows(Growing& growing, RootArchitecture architecture) {
  const Soil& soil = growing.site.soil;
  const bool compacted = soil.compacted || soil.drainage == Drainage::poor;
  const double chance =
      growing.best(compacted ? "architecture.tap_chance_compacted" : "architecture.tap_chance");
  return growing.random.uniform() < chance && architecture == RootArchitecture::tap;
}

double thickness_of(double area) {
  return std::sqrt(4 * area / std::numbers::pi);
}

void grow_taproot(Growing& growing, double area) {
  const double bottom = std::min(growing.best("architecture.tap_depth"), growing.law.depth.limit);
  Descent tap;
  tap.from = {growing.stem.x, growing.stem.y, kTapStart};
  tap.slope = std::numbers::pi / 2;
  tap.thickness = thickness_of(area);
  tap.taper = bottom / 2 / -std::log(kTapLeft);
  tap.bottom = bottom;
  tap.kind = RootKind::tap;
  descend(growing, tap);
}

void grow_obliques(Growing& growing, std::size_t count, double area) {
  std::vector<double> parts;
  double sum = 0;
  for (std::size_t i = 0; i < count; ++i)
    sum += parts.emplace_back(growing.random.lognormal(1, kUnevenness));
  const auto azimuths = azimuths_round(kEvenSectors, count, growing.random);
  for (std::size_t i = 0; i < count; ++i) {
    const Point at = offset(growing.stem, Angle::radians(azimuths[i]),
                            Length::metres(kInsideFace * growing.law.face));
    Descent root;
    root.from = {at.x, at.y, growing.drawn("architecture.flare_depth")};
    root.azimuth = azimuths[i];
    root.slope = Angle::degrees(growing.drawn("architecture.oblique_slope")).radians();
    root.thickness = thickness_of(area * parts[i] / sum);
    root.taper = kTaperAtLeast + kTaperPerDiameter * growing.law.diameter;
    root.bottom = growing.law.depth.limit;
    root.kind = RootKind::oblique;
    descend(growing, root);
  }
}

}  // namespace

void descend(Growing& growing, const Descent& root) {
  RootPiece piece;
  piece.to = root.from;
  piece.thickness_to = root.thickness;
  piece.parent = root.parent;
  piece.order = root.order;
  piece.kind = root.kind;
  double azimuth = root.azimuth;
  const double level = std::cos(root.slope) * kStep, down = std::sin(root.slope) * kStep;
  const double left = std::exp(-kStep / root.taper);
  while (piece.to.z < root.bottom && piece.thickness_to > growing.thinnest) {
    piece.from = piece.to;
    piece.thickness_from = piece.thickness_to;
    const Point from{piece.from.x, piece.from.y};
    const Point aim{from.x + level * std::sin(azimuth), from.y + level * std::cos(azimuth)};
    const Point to = level > 1e-9 ? growing.walls.way(from, aim, piece.from.z) : from;
    piece.to = {to.x, to.y, std::min(root.bottom, piece.from.z + down)};
    piece.thickness_to = std::max(growing.thinnest, piece.thickness_from * left);
    piece.parent = growing.add(piece);
    azimuth += growing.random.normal(0, kWander);
  }
}

void grow_downward(Growing& growing, RootArchitecture architecture, double share) {
  const double area = share * growing.law.cross_section(0);
  if (taproot_grows(growing, architecture)) return grow_taproot(growing, area);
  const auto drawn = std::lround(growing.drawn("architecture.obliques"));
  const bool plate = architecture == RootArchitecture::plate;
  grow_obliques(growing, plate ? kObliquesOfPlates : static_cast<std::size_t>(drawn), area);
}

}  // namespace rootstead
