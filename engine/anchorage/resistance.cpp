#include "engine/anchorage/resistance.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace rootstead {
namespace {

constexpr double kNewtonsPerKilonewton = 1000;
constexpr double kGravity = 9.81;                        // m/s2
constexpr double kCurveRise = 2.4, kCurveBend = 2.0;     // of mobilised_at
constexpr double kShallowClass = 0.4, kDeepClass = 0.8;  // m, depth classes of Nicoll et al. 2006

bool below(const std::optional<EnteredLength>& depth, double metres) {
  return depth && depth->length().metres() < metres;
}

}  // namespace

double anchorage_strength(double strength, Length diameter, Length height) {
  return strength * kNewtonsPerKilonewton * diameter.metres() * diameter.metres() * height.metres();
}

const AnchorageResistance& anchorage_resistance_of(std::string_view botanical_name,
                                                   const Tables& tables) {
  const AnchorageResistance* all = nullptr;
  const AnchorageResistance* genus = nullptr;
  for (const AnchorageResistance& row : tables.anchorage_resistances) {
    if (row.botanical_name == "all") all = &row;
    if (!same_taxon(botanical_name, row.botanical_name) && !same_taxon(botanical_name, row.synonym))
      continue;
    if (row.botanical_name.find(' ') != std::string::npos) return row;
    genus = &row;
  }
  assert(all != nullptr && "anchorage_resistance.csv has no row for all trees");
  return genus ? *genus : *all;
}

GroundHold ground_hold(const Soil& soil, const Tables& tables) {
  GroundHold hold;
  if (soil.drainage == Drainage::poor)
    hold.factor *= tables.parameter("anchorage.hold_poorly_drained").best;
  if (below(soil.rooting_depth, kShallowClass))
    hold.factor *= tables.parameter("anchorage.hold_shallow").best;
  else if (soil.rooting_depth && soil.rooting_depth->length().metres() >= kDeepClass)
    hold.factor *= tables.parameter("anchorage.hold_deep").best;
  hold.saturated = tables.parameter("anchorage.hold_saturated").best;
  hold.wet = soil.drainage == Drainage::poor ||
             below(soil.water_table, tables.parameter("anchorage.high_water").best);
  return hold;
}

double mobilised_at(Angle tilt) {
  const double degrees = std::max(0.0, tilt.degrees());
  return std::min(1.0, kCurveRise * degrees / (1 + kCurveBend * degrees));
}

double lean_moment(Length diameter, Length height, Angle from_vertical, const Tables& tables) {
  const auto best = [&](std::string_view id) { return tables.parameter(id).best; };
  const double stem_volume = best("anchorage.stem_form_factor") * std::numbers::pi / 4 *
                             diameter.metres() * diameter.metres() * height.metres();
  const double mass = stem_volume * best("anchorage.green_density") *
                      (1 + best("anchorage.branch_mass_per_stem_mass"));
  const double reach =
      std::tan(from_vertical.radians()) * best("anchorage.mass_centre_height") * height.metres();
  return mass * kGravity * reach;
}

}  // namespace rootstead
