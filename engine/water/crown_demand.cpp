#include "engine/water/crown_demand.hpp"

#include <algorithm>
#include <array>
#include <cassert>

#include "engine/water/range_arithmetic.hpp"

namespace rootstead {
namespace {

using water::range_of;

constexpr std::array<const char*, 12> kMonths = {"January",   "February", "March",    "April",
                                                 "May",       "June",     "July",     "August",
                                                 "September", "October",  "November", "December"};

std::string_view key_of(SpeciesWater species) {
  switch (species) {
    case SpeciesWater::low:
      return "low";
    case SpeciesWater::moderate:
      return "moderate";
    case SpeciesWater::high:
      return "high";
    case SpeciesWater::unknown:
      break;
  }
  return "unknown";
}

std::size_t thirstiest(const std::vector<double>& months) {
  return static_cast<std::size_t>(std::max_element(months.begin(), months.end()) - months.begin());
}

}  // namespace

LandscapeCoefficient landscape_coefficient(SpeciesWater species, const Tables& tables) {
  const Parameter& s = tables.parameter("water.species_factor." + std::string(key_of(species)));
  const Parameter& d = tables.parameter("water.density_factor");
  const Parameter& m = tables.parameter("water.microclimate_factor");
  LandscapeCoefficient k{range_of(s), range_of(d), range_of(m), {}, {}};
  k.product = water::times(water::times(k.species, k.density), k.microclimate);
  k.from = {"costello-2000", "K_L = k_s k_d k_mc",
            weaker(s.from.status, weaker(d.from.status, m.from.status))};
  return k;
}

ReferenceDemand reference_demand(const Climate& climate, std::optional<int> month,
                                 const Tables& tables) {
  const std::vector<double>& known = climate.evapotranspiration;
  if (known.size() != kMonths.size()) {
    const Parameter& assumed = tables.parameter("water.reference_assumed");
    return {range_of(assumed), true, "a dry day in the growing season, assumed", assumed.from};
  }
  assert(!month || (*month >= 1 && *month <= 12));
  const std::size_t which = month ? static_cast<std::size_t>(*month - 1) : thirstiest(known);
  const std::string source = climate.source.empty() ? "as stated" : climate.source;
  return {water::same(known[which]),
          false,
          std::string(kMonths[which]) + " (" + source + ")",
          {"survey", source, Status::published}};
}

Range crown_demand_litres(const ReferenceDemand& reference, const LandscapeCoefficient& landscape,
                          Area crown) {
  return water::times(water::times(reference.mm_per_day, landscape.product), crown.square_metres());
}

double lindsey_bassuk_litres(Area crown, double leaf_area_index, double pan_mm) {
  constexpr double kShareOfPan = 0.20;
  return crown.square_metres() * leaf_area_index * pan_mm * kShareOfPan;
}

}  // namespace rootstead
