#include "engine/water/watering_case.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/base/text.hpp"
#include "engine/tables/traits.hpp"

namespace rootstead::water {
namespace {

const Citation kOurs{"rootstead", "docs/methods/water.md", Status::assumption};
const Citation kPractice{"trade-practice", "", Status::common_practice};

Range area_of(const Filled<Length>& radius) {
  const auto circle = [](double r) { return std::numbers::pi * r * r; };
  const double best = radius.value.metres();
  const Range r = radius.figure.range.value_or(same(best));
  return {circle(r.low), circle(best), circle(r.high)};
}

bool is_heavy(const Soil& soil) {
  return soil.drainage == Drainage::poor || soil.compacted || soil.texture == SoilTexture::clay ||
         soil.texture == SoilTexture::silt;
}

}  // namespace

WaterCase case_of(const Tree& tree, const Site& site, const Tables& tables) {
  return {tree, site, tables, AmountText{site.settings.units}, is_monocot(tree, tables)};
}

std::optional<Thirst> thirst_of(const WaterCase& c, std::optional<int> month, SpeciesWater species,
                                std::vector<Note>& notes) {
  const auto radius = crown_radius_of(c.tree, c.tables);
  if (!radius) {
    notes.push_back({NoteCode::water_crown_missing, c.tree.id,
                     "its crown is not recorded, so what it draws cannot be worked out; measure "
                     "the crown radii"});
    return std::nullopt;
  }
  if (radius->note) notes.push_back(*radius->note);
  Thirst thirst;
  thirst.crown_m2 = area_of(*radius);
  thirst.reference = reference_demand(c.site.climate, month, c.tables);
  thirst.coefficient = landscape_coefficient(species, c.tables);
  thirst.litres_per_day =
      times(times(thirst.reference.mm_per_day, thirst.coefficient.product), thirst.crown_m2);
  thirst.status = weaker(thirst.reference.from.status,
                         weaker(thirst.coefficient.from.status, radius->figure.from.status));
  if (thirst.reference.assumed)
    notes.push_back({NoteCode::water_demand_assumed, c.tree.id,
                     "no climate is named: " + words_of(thirst.reference.mm_per_day, 0, "mm") +
                         " a day is assumed for dry weather in the growing season; enter the "
                         "reference evapotranspiration of the months"});
  return thirst;
}

Store store_of(const AvailableWater& soil, const Range& cubic_metres, const Tables& tables) {
  Store store{soil, times(soil.mm_per_m, cubic_metres), {}};
  store.allowed_litres = times(store.litres, range_of(tables.parameter("water.depletion_allowed")));
  return store;
}

void add_thirst_figures(const Thirst& thirst, std::vector<Figure>& figures) {
  const LandscapeCoefficient& k = thirst.coefficient;
  figures.push_back(ranged_figure("water.reference", thirst.reference.mm_per_day, "mm/day",
                                  "ET_o of " + thirst.reference.what, thirst.reference.from, {}));
  figures.push_back(ranged_figure("water.coefficient", k.product, "", "K_L = k_s k_d k_mc", k.from,
                                  {{"k_s", "species", words_of(k.species, 2, "")},
                                   {"k_d", "density", words_of(k.density, 2, "")},
                                   {"k_mc", "microclimate", words_of(k.microclimate, 2, "")}}));
  figures.push_back(ranged_figure(
      "water.demand", thirst.litres_per_day, "L/day", "E = ET_o K_L A",
      {"costello-2000", "landscape coefficient over the crown's projection", thirst.status},
      {{"ET_o", "reference evapotranspiration", words_of(thirst.reference.mm_per_day, 1, "mm/day")},
       {"K_L", "landscape coefficient", words_of(k.product, 2, "")},
       {"A", "ground under the crown", words_of(thirst.crown_m2, 1, "m2")}}));
}

void add_store_figures(const Store& store, std::vector<FigureInput> inputs, const Tables& tables,
                       std::vector<Figure>& figures) {
  const Parameter& allowed = tables.parameter("water.depletion_allowed");
  figures.push_back(ranged_figure("water.available", store.soil.mm_per_m, "mm/m",
                                  "by texture: " + store.soil.texture, store.soil.from, {}));
  inputs.insert(inputs.begin(),
                {"AW", "available water", words_of(store.soil.mm_per_m, 0, "mm/m")});
  figures.push_back(ranged_figure("water.reservoir", store.litres, "L", "W = AW V", kOurs, inputs));
  figures.push_back(ranged_figure("water.reservoir-allowed", store.allowed_litres, "L", "W_a = m W",
                                  kOurs, {input_from(allowed, "m")}));
}

void add_amount_figures(const WaterAmounts& amounts, Status status, const Tables& tables,
                        std::vector<Figure>& figures) {
  const Citation from{"rootstead", "docs/methods/water.md", weaker(status, Status::assumption)};
  const std::vector<FigureInput> losses{
      input_from(tables.parameter("water.application_efficiency"), "e")};
  figures.push_back(
      ranged_figure("water.week", amounts.litres_per_week, "L", "7 E / e", from, losses));
  figures.push_back(
      ranged_figure("water.event", amounts.litres_per_event, "L", "W_a / e", from, losses));
  figures.push_back(
      ranged_figure("water.interval", amounts.days_between, "days", "W_a / E", from, {}));
  if (amounts.rain_mm_per_week)
    figures.push_back(ranged_figure("water.rain", *amounts.rain_mm_per_week, "mm",
                                    "7 E over the ground where roots remain", from, {}));
}

std::string words_of(const Range& range, int decimals, std::string_view unit) {
  std::string text = fixed_number(range.best, decimals);
  if (range.low < range.high)
    text = fixed_number(range.low, decimals) + " to " + fixed_number(range.high, decimals);
  return unit.empty() ? text : text + " " + std::string(unit);
}

std::string water_words(const WaterCase& c, const Range& litres) {
  return c.text.water(litres.low) + " to " + c.text.water(litres.high);
}

std::string days_words(double days) {
  const double whole = std::max(1.0, std::floor(days));
  return whole < 2 ? "every day" : "every " + fixed_number(whole, 0) + " days";
}

Prescription prescription(const WaterCase& c, std::string text, std::string reason, Citation from) {
  Prescription one;
  one.topic = "irrigation";
  one.tree = c.tree.id;
  one.text = std::move(text);
  one.reason = std::move(reason);
  one.from = std::move(from);
  return one;
}

void add_care(const WaterCase& c, std::string_view ground, std::vector<Prescription>& all) {
  const Length look = Length::millimetres(c.tables.parameter("water.look_depth").best);
  all.push_back(prescription(
      c,
      "Before each watering feel the soil of " + std::string(ground) + " at a depth of " +
          c.text.small_length(look) + ", and leave it alone where it is still moist.",
      "Roots short of air die as surely as roots short of water.", kPractice));
  if (is_heavy(c.site.soil))
    all.push_back(prescription(
        c,
        "Do not drown " + c.tree.label() +
            ": where water stands in a test hole an hour after watering, stop and see to the "
            "drainage first.",
        "The ground here drains slowly or is dense; a fixed timetable would fill its pores.",
        kPractice));
  const Parameter& mulch = c.tables.parameter("water.mulch");
  all.push_back(prescription(c,
                             "Cover the ground over the roots with " +
                                 c.text.small_length(Length::millimetres(mulch.best)) +
                                 " of coarse mulch, thinner on a ball, and keep it off the bark.",
                             "It slows drying and keeps wheels and mowers away.", mulch.from));
}

}  // namespace rootstead::water
