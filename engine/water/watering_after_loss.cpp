// After root loss: the thirst stays, the store shrinks.
#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "engine/water/watering_case.hpp"

namespace rootstead {
namespace {

using namespace water;

const Citation kOurs{"rootstead", "docs/methods/water.md", Status::assumption};
const Citation kPractice{"trade-practice", "", Status::common_practice};

struct RootedGround {
  Range depth_m;
  Range kept;     // share of the roots
  Range area_m2;  // where roots remain
  bool depth_assumed = false;
};

// Nothing roots below rock, a pan or the water table.
double limited(double depth_m, const Soil& soil) {
  if (soil.rooting_depth) depth_m = std::min(depth_m, soil.rooting_depth->length().metres());
  if (soil.water_table) depth_m = std::min(depth_m, soil.water_table->length().metres());
  return std::max(depth_m, 0.05);
}

RootedGround ground_of(const WaterAfterLoss& loss, const WaterCase& c) {
  RootedGround ground;
  ground.depth_assumed = !loss.root_depth;
  const Range depth = loss.root_depth ? same(loss.root_depth->metres())
                                      : range_of(c.tables.parameter("water.root_depth_assumed"));
  ground.depth_m = {limited(depth.low, c.site.soil), limited(depth.best, c.site.soil),
                    limited(depth.high, c.site.soil)};
  const auto share = [](double v) { return std::clamp(v, 0.0, 1.0); };
  ground.kept = rest_of(
      {share(loss.share_lost.low), share(loss.share_lost.best), share(loss.share_lost.high)});
  ground.area_m2 = times(ground.kept, circle_area(loss.root_radius).square_metres());
  return ground;
}

WaterAmounts amounts_of(const Thirst& thirst, const Store& store, const RootedGround& ground,
                        const Tables& tables) {
  const Range efficiency = range_of(tables.parameter("water.application_efficiency"));
  WaterAmounts amounts;
  amounts.litres_per_week = over(times(thirst.litres_per_day, 7), efficiency);
  amounts.litres_per_event = over(store.allowed_litres, efficiency);
  amounts.days_between = over(store.allowed_litres, thirst.litres_per_day);
  if (ground.area_m2.low > 0)
    amounts.rain_mm_per_week = over(times(thirst.litres_per_day, 7), ground.area_m2);
  return amounts;
}

// "0.30 m to 0.90 m"
std::string depth_words(const WaterCase& c, const Range& metres) {
  const std::string low = c.text.length(Length::metres(metres.low)),
                    high = c.text.length(Length::metres(metres.high));
  return low == high ? low : low + " to " + high;
}

std::string rain_words(const WaterCase& c, const Range& mm) {
  return c.text.small_length(Length::millimetres(mm.best));
}

// What the crown draws on the whole days between two waterings: never more than the store holds,
// save where that is less than a day's.
double portion_of(const WaterAmounts& a) {
  return a.litres_per_week.best / 7 * std::max(1.0, std::floor(a.days_between.best));
}

// Does the ground hold so much that a round of watering would come weeks apart? Then the day is
// told by the rain and the soil, not by a round.
bool lasts_long(const WaterCase& c, const WaterAmounts& a) {
  return a.days_between.best > c.tables.parameter("water.longest_round").best;
}

std::string left_words(const RootedGround& ground) {
  return "The crown draws what it drew before, from roots of which " + percent(ground.kept.low, 0) +
         " to " + percent(ground.kept.high, 0) + " are left: ";
}

Prescription long_prescription(const WaterCase& c, const WaterAmounts& a,
                               const RootedGround& ground) {
  return prescription(
      c,
      "In dry weather tree " + c.tree.label() + " draws about " +
          c.text.water(a.litres_per_week.best) + " a week (" + water_words(c, a.litres_per_week) +
          ") and the ground where its roots remain holds that for more than " +
          fixed_number(c.tables.parameter("water.longest_round").best, 0) +
          " days: give it so much a week only after as long without rain, over that ground and "
          "not at the trunk.",
      left_words(ground) + "the store is smaller, and still lasts.", kOurs);
}

Prescription main_prescription(const WaterCase& c, const WaterAmounts& a,
                               const RootedGround& ground) {
  const bool daily = a.days_between.best < 2;
  const double portion = portion_of(a);
  Prescription one =
      prescription(c,
                   "In dry weather give tree " + c.tree.label() + " about " +
                       c.text.water(a.litres_per_week.best) + " a week (" +
                       water_words(c, a.litres_per_week) + "), in portions of about " +
                       c.text.water(portion) + " " + days_words(a.days_between.best) +
                       ", over the ground where roots remain and not at the trunk.",
                   left_words(ground) + "the store shrinks, not the thirst, so water comes " +
                       (daily ? "daily." : "more often in smaller portions."),
                   kOurs);
  return one;
}

void add_prescriptions(const WaterCase& c, const WaterAmounts& a, const RootedGround& ground,
                       WaterAdvice& advice) {
  if (lasts_long(c, a)) {
    advice.prescriptions.push_back(long_prescription(c, a, ground));
    return;
  }
  advice.prescriptions.push_back(main_prescription(c, a, ground));
  if (a.rain_mm_per_week)
    advice.prescriptions.push_back(prescription(c,
                                                "Leave out the watering of a week in which about " +
                                                    rain_words(c, *a.rain_mm_per_week) +
                                                    " of rain or more soaks in where roots remain.",
                                                "That fills the same store.", kOurs));
  if (a.days_between.best < 1) {
    advice.notes.push_back({NoteCode::water_not_held, c.tree.id,
                            "the roots that are left hold less than a dry day's demand: watering "
                            "alone will not prevent stress"});
    advice.prescriptions.push_back(prescription(
        c, "Water daily and have an arborist see " + c.tree.label() + " within the first dry week.",
        "What is left of the roots holds less than a dry day's demand.", kOurs));
  }
}

// What the trade says of grown trees, beside our figure; never of palms.
void add_practice(const WaterCase& c, WaterAdvice& advice) {
  if (c.monocot) {
    advice.notes.push_back({NoteCode::water_no_stem_rule, c.tree.id,
                            "gallons per inch of stem are not used: the stem of a palm does not "
                            "thicken and says nothing of its thirst"});
    return;
  }
  Length stem;
  for (const Stem& one : c.tree.stems) stem = std::max(stem, one.diameter());
  if (stem <= Length()) return;
  const auto litres = litres_per_stem_week(stem, c.tree.form, c.tables);
  if (!litres) return;
  const Parameter& rule = c.tables.parameter("water.gallons_per_inch_week");
  advice.figures.push_back(ranged_figure("water.practice-week", *litres, "L",
                                         "10 US gallons per inch of stem and week", rule.from,
                                         {{"D", "thickest stem", c.text.small_length(stem)}}));
}

void add_duration(const WaterCase& c, WaterAdvice& advice) {
  advice.prescriptions.push_back(prescription(
      c,
      "Go on through the dry weeks of at least two growing seasons, and then as the crown tells "
      "at the visits.",
      "New roots take years to find the ground that was lost.", kPractice));
}

}  // namespace

WaterAdvice watering_after_loss(const Tree& tree, const WaterAfterLoss& loss, const Site& site,
                                const Tables& tables) {
  const WaterCase c = case_of(tree, site, tables);
  WaterAdvice advice;
  advice.tree = tree.id;
  const RootedGround ground = ground_of(loss, c);
  const Store store =
      store_of(available_water(site.soil, Length::metres(ground.depth_m.best), tables),
               times(ground.area_m2, ground.depth_m), tables);
  if (ground.depth_assumed)
    advice.notes.push_back({NoteCode::water_ground_assumed, tree.id,
                            "most of its roots are taken to lie within " +
                                depth_words(c, ground.depth_m) + " of the surface"});
  const auto thirst = thirst_of(c, loss.month, loss.species, advice.notes);
  if (thirst) add_thirst_figures(*thirst, advice.figures);
  add_store_figures(store,
                    {{"A", "ground where roots remain", words_of(ground.area_m2, 1, "m2")},
                     {"z", "depth of the rooted ground", words_of(ground.depth_m, 2, "m")}},
                    tables, advice.figures);
  if (loss.share_lost.high < tables.parameter("verdict.loss_noticed").best) {
    advice.notes.push_back({NoteCode::water_not_needed, tree.id,
                            "its roots are about as they were: no watering beyond the usual"});
    return advice;
  }
  if (thirst && thirst->litres_per_day.low > 0) {
    advice.amounts = amounts_of(*thirst, store, ground, tables);
    add_amount_figures(*advice.amounts, thirst->status, tables, advice.figures);
    if (!lasts_long(c, *advice.amounts))
      advice.figures.push_back(ranged_figure(
          "water.portion", same(portion_of(*advice.amounts)), "L", "E / e x whole days between",
          {"rootstead", "docs/methods/water.md", weaker(thirst->status, Status::assumption)}, {}));
    add_prescriptions(c, *advice.amounts, ground, advice);
  }
  add_practice(c, advice);
  add_care(c, "the ground where roots remain", advice.prescriptions);
  add_duration(c, advice);
  return advice;
}

}  // namespace rootstead
