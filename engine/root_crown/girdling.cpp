#include "engine/root_crown/girdling.hpp"

#include <algorithm>
#include <array>
#include <cassert>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr double kCentimetresPerMetre = 100;
// Genera of the study: maple, hackberry, ash and linden.
constexpr std::array<std::string_view, 4> kStudied = {"Acer", "Celtis", "Fraxinus", "Tilia"};

Range share(const Range& depth, double per_centimetre) {
  const auto at = [&](double metres) {
    return std::min(1.0, metres * kCentimetresPerMetre * per_centimetre);
  };
  return {at(depth.low), at(depth.best), at(depth.high)};
}

std::string centimetres(const Range& depth) {
  const auto text = [](double metres) { return fixed_number(metres * kCentimetresPerMetre, 1); };
  if (depth.low == depth.high) return text(depth.best) + " cm";
  return text(depth.best) + " cm (" + text(depth.low) + " to " + text(depth.high) + " cm)";
}

Figure figure(const std::string& what, const Range& share, const Range& depth,
              const Parameter& row) {
  Figure figure;
  figure.name = "root-crown.girdling." + what;
  figure.value = share.best;
  if (share.low != share.high) figure.range = share;
  figure.inputs = {{"t", "soil above the first main roots", centimetres(depth)},
                   input_from(row, "a")};
  figure.formula = "a t, at most the whole circumference";
  figure.from = row.from;
  return figure;
}

}  // namespace

bool prone_to_girdling(std::string_view botanical_name) {
  return std::any_of(kStudied.begin(), kStudied.end(),
                     [&](std::string_view genus) { return same_taxon(botanical_name, genus); });
}

GirdlingRisk girdling_risk(const Range& depth, std::string_view botanical_name,
                           const Tables& tables) {
  assert(depth.low >= 0);
  const Parameter& encircled = tables.parameter("root_crown.encircled_per_cm");
  const Parameter& girdled = tables.parameter("root_crown.girdled_per_cm");
  GirdlingRisk risk;
  risk.encircled = share(depth, encircled.best);
  risk.girdled = share(depth, girdled.best);
  risk.beyond_trees = !prone_to_girdling(botanical_name);
  risk.beyond_depth = depth.high * kCentimetresPerMetre * encircled.best > 1;
  risk.figures = {figure("encircled", risk.encircled, depth, encircled),
                  figure("girdled", risk.girdled, depth, girdled)};
  return risk;
}

}  // namespace rootstead
