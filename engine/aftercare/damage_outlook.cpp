#include "engine/aftercare/damage_outlook.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "engine/aftercare/outlook_case.hpp"
#include "engine/base/text.hpp"
#include "engine/site/dates.hpp"
#include "engine/tables/traits.hpp"

namespace rootstead {
namespace {

using namespace aftercare;

constexpr double kDaysPerYear = 365.25;

// A work that is still to come by its date counts as of today.
std::optional<Range> years_since(const Work& work, std::chrono::sys_days today) {
  const auto span = days_of(work.date);
  if (!span) return std::nullopt;
  const auto years = [&](std::chrono::sys_days day) {
    return std::max(0.0, static_cast<double>((today - day).count()) / kDaysPerYear);
  };
  const double least = years(span->last), most = years(span->first);
  return Range{least, (least + most) / 2, most};
}

bool bears(const TreeAssessment& tree, const std::string& id) {
  for (const ZoneAssessment& one : tree.zones)
    for (const ZoneLoss::ByWork& by : one.loss.by_work)
      if (by.work == id) return true;
  if (tree.roots)
    for (const RootLoss::ByWork& by : tree.roots->by_work)
      if (by.work == id && by.alone.high > 0) return true;
  return tree.anchorage &&
         std::count(tree.anchorage->works.begin(), tree.anchorage->works.end(), id) > 0;
}

std::optional<Range> share_taken(const TreeAssessment& tree, const std::string& id) {
  if (!tree.roots) return std::nullopt;
  for (const RootLoss::ByWork& by : tree.roots->by_work)
    if (by.work == id) return by.alone;
  return Range{0, 0, 0};
}

bool is_drawn(const Work& work) {
  return !work.shape.empty() || !work.bore_pits.empty();
}

void add_damages(OutlookCase& c, std::chrono::sys_days today, DamageOutlook& outlook) {
  for (const Work& work : c.site.works) {
    if (work.state != WorkState::existing) continue;
    if (!is_drawn(work))
      outlook.notes.push_back(
          {NoteCode::damage_not_drawn, work.id,
           "it is not drawn, so what it took from " + c.tree.label() + " is not known; draw it"});
    if (!bears(c.damage, work.id)) continue;
    c.works.push_back(&work);
    const auto years = years_since(work, today);
    outlook.damages.push_back({work.id, years, share_taken(c.damage, work.id), work.seen});
    if (!years)
      outlook.notes.push_back({NoteCode::damage_date_unknown, work.id,
                               "no date is recorded, so how far its effects have shown cannot be "
                               "told; enter when it was done"});
    if (years && (!c.latest || years->best < c.latest->best)) c.latest = years;
  }
}

std::string years_words(const Range& years) {
  return fixed_number(years.low, 1) + " to " + fixed_number(years.high, 1) + " years";
}

void add_figures(const OutlookCase& c, DamageOutlook& outlook) {
  if (c.damage.roots)
    outlook.figures.push_back(ranged_figure("aftercare.roots-lost", c.damage.roots->all, "",
                                            "the existing works, taken as if they were new", kOurs,
                                            {}));
  if (!c.latest) return;
  const FigureInput since{"t", "time since the latest existing work", years_words(*c.latest)};
  outlook.figures.push_back(ranged_figure("aftercare.years-since", *c.latest, "years",
                                          "the project's date less the date of the work", kOurs,
                                          {}));
  if (c.monocot) return;  // their roots do not thicken, and new ones come from the trunk
  const Parameter& time = c.tables.parameter("aftercare.section_time");
  outlook.figures.push_back(ranged_figure(
      "aftercare.section-regrown", root_section_regrown(c.latest->best, c.tables), "",
      "1 - exp(-t / T); shown, never credited", time.from, {since, input_from(time, "T")}));
  outlook.figures.push_back(ranged_figure(
      "aftercare.root-regrowth", root_regrowth_m(c.latest->best, c.site.climate, c.tables), "m",
      "v t", c.tables.parameter("aftercare.root_growth_temperate").from, {since}));
}

}  // namespace

Range root_section_regrown(double years, const Tables& tables) {
  const Parameter& time = tables.parameter("aftercare.section_time");
  const auto share = [&](double t) { return 1 - std::exp(-years / t); };
  return {share(time.high), share(time.best), share(time.low)};
}

Range root_regrowth_m(double years, const Climate& climate, const Tables& tables) {
  const bool warm = climate.hardiness_zone &&
                    *climate.hardiness_zone >= tables.parameter("aftercare.warm_from_zone").best;
  const Parameter& speed =
      tables.parameter(warm ? "aftercare.root_growth_warm" : "aftercare.root_growth_temperate");
  return {speed.low * years, speed.best * years, speed.high * years};
}

DamageOutlook damage_outlook(const Tree& tree, const Site& site, const TreeAssessment& damage,
                             std::chrono::sys_days today, const Tables& tables) {
  assert(damage.tree == tree.id);
  DamageOutlook outlook;
  outlook.tree = tree.id;
  OutlookCase c{
      tree, site, damage, tables, AmountText{site.settings.units}, is_monocot(tree, tables),
      {},   {}};
  add_damages(c, today, outlook);
  if (c.works.empty()) {
    outlook.vitality.concern = outlook.stability.concern = Concern::none;
    return outlook;
  }
  add_figures(c, outlook);
  if (tree.condition == Condition::dead)
    outlook.vitality = {Concern::none,
                        {{"It is recorded as dead: nothing more is to be expected of it.", kOurs}}};
  else
    add_vitality(c, outlook);
  add_stability(c, outlook);
  add_actions(c, outlook);
  return outlook;
}

}  // namespace rootstead
