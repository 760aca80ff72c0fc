// After a move: the ball is all there is to drink from.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/base/text.hpp"
#include "engine/water/watering_case.hpp"

namespace rootstead {
namespace {

using namespace water;

constexpr double kInch = 0.0254, kWeeksPerMonth = 365.25 / 12 / 7;

Error no_stem_rule(std::string_view subject) {
  return {Code::outside_rule_domain, std::string(subject),
          "gallons per inch of stem are no rule for palms and other monocots, whose stems do not "
          "thicken and say nothing of their thirst",
          "water by the ball and the crown instead"};
}

Result<Range> litres_per_inch(Length stem, GrowthForm form, std::string_view id,
                              const Tables& tables) {
  if (form == GrowthForm::palm || form == GrowthForm::other_monocot)
    return no_stem_rule("water by the inch");
  if (!(stem > Length()))
    return Error{Code::value_invalid, "water by the inch", "the stem has no thickness",
                 "enter its diameter, e.g. 75 mm"};
  const Range gallons = range_of(tables.parameter(id));
  return times(gallons, kLitresPerGallon * stem.metres() / kInch);
}

bool is_cool(const Climate& climate, const Tables& tables) {
  return climate.hardiness_zone &&
         *climate.hardiness_zone <= tables.parameter("water.cool_up_to_zone").best;
}

Length calliper_of(const Tree& tree) {
  Length thickest;
  for (const Stem& stem : tree.stems) thickest = std::max(thickest, stem.diameter());
  return thickest;
}

AvailableWater ball_soil(const WaterAfterMove& move, const WaterCase& c) {
  if (move.ball_texture != SoilTexture::unknown)
    return available_water(move.ball_texture, c.tables);
  return available_water(c.site.soil, move.ball_depth, c.tables);
}

double ball_cubic_metres(Length diameter, Length depth, double taper) {
  const double r = diameter.metres() / 2, b = taper * r;
  return std::numbers::pi * depth.metres() / 3 * (r * r + r * b + b * b);
}

Store ball_store(const WaterAfterMove& move, const WaterCase& c) {
  const double taper = c.monocot ? 1 : c.tables.parameter("water.ball_taper").best;
  return store_of(ball_soil(move, c),
                  same(ball_cubic_metres(move.ball_diameter, move.ball_depth, taper)), c.tables);
}

// The published schedule by calliper.
std::vector<WaterStage> stages_of(Length calliper, const Tables& tables) {
  const auto range = [&](std::string_view id) { return range_of(tables.parameter(id)); };
  if (calliper.metres() / kInch <= tables.parameter("water.small_calliper").best) {
    const Range daily = range("water.daily_weeks_small");
    const Range alternate = times(range("water.alternate_months_small"), kWeeksPerMonth);
    const Range both{daily.low + alternate.low, daily.best + alternate.best,
                     daily.high + alternate.high};
    return {{0, daily, 1}, {daily.best, both, 2}, {both.best, {}, 7}};
  }
  const Range alternate = times(range("water.alternate_months_large"), kWeeksPerMonth);
  return {{0, alternate, 2}, {alternate.best, {}, 7}};
}

std::string stage_words(const WaterStage& stage) {
  const std::string often = stage.days_between == 7   ? "once a week"
                            : stage.days_between == 2 ? "every other day"
                                                      : days_words(stage.days_between);
  if (!stage.weeks_to) return often + " until established";
  return often + " to week " + words_of(*stage.weeks_to, 0, "");
}

std::string schedule_words(const std::vector<WaterStage>& stages) {
  std::vector<std::string> parts;
  for (const WaterStage& stage : stages) parts.push_back(stage_words(stage));
  return joined(parts, ", then ");
}

void add_trunk_schedule(const WaterCase& c, Length calliper, WaterAdvice& advice) {
  const bool cool = is_cool(c.site.climate, c.tables);
  const Parameter& rule = c.tables.parameter(cool ? "water.gallons_per_calliper_inch_cool"
                                                  : "water.gallons_per_calliper_inch");
  const auto event = litres_per_calliper(calliper, c.tree.form, cool, c.tables);
  if (!event) return;
  advice.stages = stages_of(calliper, c.tables);
  const double days = advice.stages.front().days_between;
  advice.amounts = WaterAmounts{times(*event, 7 / days), *event, same(days), {}};
  advice.figures.push_back(ranged_figure(
      "water.event", *event, "L",
      (cool ? std::string("1 to 2") : std::string("2 to 3")) + " US gallons per inch of trunk",
      rule.from, {{"D", "trunk", c.text.small_length(calliper)}}));
  advice.prescriptions.push_back(prescription(
      c,
      "Give tree " + c.tree.label() + ": " + water_words(c, *event) +
          " a time onto the ball itself: " + schedule_words(advice.stages) + ".",
      "Its roots are in the ball alone until they have grown out of it; rain and sprinklers beside "
      "the ball do not reach them, and more at a time does not make up for too seldom.",
      rule.from));
}

void add_ball_schedule(const WaterCase& c, const Store& store, const std::optional<Thirst>& thirst,
                       WaterAdvice& advice) {
  const Parameter& months = c.tables.parameter("water.palm_establishment");
  const Range efficiency = range_of(c.tables.parameter("water.application_efficiency"));
  WaterStage stage{0, times(range_of(months), kWeeksPerMonth), 1};
  std::string often = "as soon as its upper side begins to dry";
  if (thirst && thirst->litres_per_day.low > 0) {
    WaterAmounts amounts;
    amounts.litres_per_event = over(store.allowed_litres, efficiency);
    amounts.days_between = over(store.allowed_litres, thirst->litres_per_day);
    amounts.litres_per_week = over(times(thirst->litres_per_day, 7), efficiency);
    stage.days_between = std::max(1.0, std::floor(amounts.days_between.best));
    often = days_words(amounts.days_between.best) + " in dry weather";
    add_amount_figures(amounts, thirst->status, c.tables, advice.figures);
    advice.amounts = amounts;
  }
  advice.stages = {stage};
  const Range event = over(store.allowed_litres, efficiency);
  advice.prescriptions.push_back(prescription(
      c,
      "Keep the ball of " + c.tree.label() + " and the ground round it moist but never soggy for " +
          words_of(range_of(months), 0, "months") + ": about " + c.text.water(event.best) +
          " a time onto the ball, " + often + ".",
      c.monocot ? "Its ball holds what it can drink until new roots have grown from the trunk; its "
                  "stem says nothing of its thirst."
                : "Its trunk is not recorded, so the ball decides.",
      months.from));
}

void add_ball_note(const WaterCase& c, const Store& store, const Thirst& thirst,
                   WaterAdvice& advice) {
  const Range days = over(store.allowed_litres, thirst.litres_per_day);
  advice.figures.push_back(ranged_figure("water.ball-lasts", days, "days", "W_a / E",
                                         {"rootstead", "docs/methods/water.md", Status::assumption},
                                         {}));
  if (days.best < 1)
    advice.notes.push_back({NoteCode::water_not_held, c.tree.id,
                            "its ball holds less than a dry day's demand of the crown: expect "
                            "stress in dry weather, and water before noon and again in the evening "
                            "on hot days"});
}

}  // namespace

Result<Range> litres_per_calliper(Length calliper, GrowthForm form, bool cool,
                                  const Tables& tables) {
  return litres_per_inch(
      calliper, form,
      cool ? "water.gallons_per_calliper_inch_cool" : "water.gallons_per_calliper_inch", tables);
}

Result<Range> litres_per_stem_week(Length stem, GrowthForm form, const Tables& tables) {
  return litres_per_inch(stem, form, "water.gallons_per_inch_week", tables);
}

double ball_water_litres(Length diameter, Length depth, double taper, double mm_per_m) {
  return ball_cubic_metres(diameter, depth, taper) * mm_per_m;
}

WaterAdvice watering_after_move(const Tree& tree, const WaterAfterMove& move, const Site& site,
                                const Tables& tables) {
  const WaterCase c = case_of(tree, site, tables);
  WaterAdvice advice;
  advice.tree = tree.id;
  const Store store = ball_store(move, c);
  const auto thirst = thirst_of(c, move.month, move.species, advice.notes);
  if (thirst) add_thirst_figures(*thirst, advice.figures);
  add_store_figures(store,
                    {{"d", "diameter of the ball", c.text.length(move.ball_diameter)},
                     {"h", "its depth", c.text.length(move.ball_depth)}},
                    tables, advice.figures);
  const Length calliper = calliper_of(tree);
  if (c.monocot)
    advice.notes.push_back({NoteCode::water_no_stem_rule, tree.id,
                            "gallons per inch of stem are not used: the stem of a palm does not "
                            "thicken and says nothing of its thirst"});
  if (c.monocot || calliper <= Length())
    add_ball_schedule(c, store, thirst, advice);
  else
    add_trunk_schedule(c, calliper, advice);
  if (thirst && thirst->litres_per_day.low > 0) add_ball_note(c, store, *thirst, advice);
  add_care(c, "the ball", advice.prescriptions);
  return advice;
}

}  // namespace rootstead
