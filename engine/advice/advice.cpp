#include "engine/advice/advice.hpp"

#include <algorithm>
#include <cassert>
#include <unordered_set>

#include "engine/base/text.hpp"
#include "engine/site/dates.hpp"
#include "engine/site/diameter.hpp"

namespace rootstead {
namespace {

std::string setting(const Site& site, std::string_view key) {
  const auto found = site.settings.other.find(std::string(key));
  return found == site.settings.other.end() ? std::string() : found->second;
}

std::optional<std::chrono::sys_days> day_of(const std::string& text) {
  const auto days = days_of(text);
  return days ? std::optional(days->first) : std::nullopt;
}

std::vector<std::string> names_in(const std::string& list) {
  std::vector<std::string> names;
  for (const std::string& part : split(list, ','))
    if (!trimmed(part).empty()) names.emplace_back(trimmed(part));
  return names;
}

// The works of the site that are still to be done.
std::vector<const Work*> new_works(const Site& site) {
  std::vector<const Work*> works;
  for (const Work& work : site.works)
    if (work.state != WorkState::existing) works.push_back(&work);
  return works;
}

bool takes_ground(const std::string& work, const TreeAssessment& assessed) {
  return std::any_of(assessed.zones.begin(), assessed.zones.end(), [&](const auto& zone) {
    return std::any_of(zone.loss.by_work.begin(), zone.loss.by_work.end(),
                       [&](const auto& by) { return by.work == work && by.share > 0; });
  });
}

// A line that is clear of the trunk, outside every zone and likely to meet no thick root is no
// matter for this tree: to mark and to open it for its sake would help nobody.
bool is_worth_telling(const CutAdvice& cut, const TreeAssessment& assessed, const Tables& tables) {
  if (cut.nearness != CutAdvice::Nearness::clear || assessed.zones.empty()) return true;
  if (takes_ground(cut.work, assessed)) return true;
  return cut.expected && cut.expected->front().best >= tables.parameter("cutting.likely_root").best;
}

// What the plan builds on the ground as it lies cuts no roots of the trees it names.
bool is_built_on_top(const std::string& work, const std::string& tree, const Advice& advice) {
  if (!advice.protection) return false;
  const auto& areas = advice.protection->no_dig;
  return std::any_of(areas.begin(), areas.end(), [&](const NoDigArea& area) {
    return area.work == work &&
           std::find(area.trees.begin(), area.trees.end(), tree) != area.trees.end();
  });
}

class Adviser {
 public:
  Adviser(const Site& site, const Tables& tables, const Assessment& assessment,
          const AdviceOptions& options, CutStandard standard)
      : site_(site),
        tables_(tables),
        assessment_(assessment),
        options_(options),
        standard_(std::move(standard)),
        clearances_(bore_clearances(site, tables)) {}

  Result<Advice> advice() const {
    Advice advice;
    if (site_.existing_levels || site_.proposed_levels) add_levels(advice);
    ROOTSTEAD_TRY(advice.soil, soil_state(site_.soil, tables_, {}, units()));
    for (const Work* work : new_works(site_)) {
      if (work->kind == WorkKind::traffic)
        advice.traffic.push_back(traffic_advice(*work, site_.soil, tables_, units()));
      if (work->kind == WorkKind::fill)
        advice.fills.push_back(fill_advice(*work, site_.soil, tables_, units()));
    }
    if (auto plan = protection_plan(site_, tables_, assessment_, protection_options()); plan.ok())
      advice.protection = std::move(plan).value();
    const std::optional<Assessment> damage = assessed_damage();
    for (std::size_t i = 0; i < site_.trees.size(); ++i)
      advice.trees.push_back(of_tree(site_.trees[i], assessment_.trees[i],
                                     damage ? &damage->trees[i] : nullptr, advice));
    advice.monitoring = monitoring();
    advice.replacement = replacement_for(site_, tables_, assessment_,
                                         names_in(setting(site_, kReplacementRulesKey)));
    advice.checklist = submittal_checklist(site_, tables_, assessment_, options_.made);
    return advice;
  }

 private:
  UnitSystem units() const { return site_.settings.units; }

  ProtectionOptions protection_options() const {
    ProtectionOptions options;
    options.units = units();
    options.months = months_of_works();
    return options;
  }

  // Whole months in which the works go on, as the monitoring plan counts its visits.
  std::optional<double> months_of_works() const {
    const auto begin = day_of(setting(site_, kWorksBeginKey));
    const auto end = day_of(setting(site_, kWorksEndKey));
    if (!begin || !end || *end <= *begin) return std::nullopt;
    const std::chrono::year_month_day from(*begin), to(*end - std::chrono::days(1));
    const auto months = (to.year() / to.month() - from.year() / from.month()).count();
    return double(months - (to.day() < from.day() ? 1 : 0));
  }

  void add_levels(Advice& advice) const {
    auto levels = level_changes(site_, tables_);
    if (levels.ok())
      advice.levels = std::move(levels).value();
    else
      advice.no_levels = levels.error();
  }

  // Only where there is earlier work; a site whose assessment failed would not have come here.
  std::optional<Assessment> assessed_damage() const {
    const bool any = std::any_of(site_.works.begin(), site_.works.end(), [](const Work& work) {
      return work.state == WorkState::existing;
    });
    if (!any || !today()) return std::nullopt;
    AssessOptions how;
    how.simulation = options_.simulation;
    auto damage = assess_damage(site_, tables_, how);
    return damage.ok() ? std::optional(std::move(damage).value()) : std::nullopt;
  }

  std::optional<std::chrono::sys_days> today() const { return day_of(site_.settings.date); }

  std::optional<MonitoringPlan> monitoring() const {
    auto begin = day_of(setting(site_, kWorksBeginKey));
    if (!begin) begin = today();
    if (!begin) return std::nullopt;
    MonitoringOptions options{*begin, day_of(setting(site_, kWorksEndKey)), 5};
    if (options.works_end && *options.works_end < *begin) options.works_end.reset();
    if (const auto years = number_from(setting(site_, kYearsOfCareKey)))
      options.years = static_cast<int>(std::clamp(*years, 1.0, 5.0));
    return monitoring_plan(site_, assessment_, options, tables_);
  }

  // `site`: what is advised for the whole site, its plan of protection among it.
  TreeAdvice of_tree(const Tree& tree, const TreeAssessment& assessed, const TreeAssessment* damage,
                     const Advice& site) const {
    TreeAdvice advice;
    advice.tree = tree.id;
    advice.root_crown = root_crown_advice(tree, site_, tables_);
    if (moves(tree, assessed))
      add_move(tree, advice);
    else if (tree.intent != Intent::remove)
      add_cuts_and_water(tree, assessed, site, advice);
    if (damage != nullptr) {
      DamageOutlook outlook = damage_outlook(tree, site_, *damage, *today(), tables_);
      if (advice.water) leave_out_watering(outlook);
      if (tree.intent == Intent::remove) outlook.now.clear();
      if (!advice.water && tree.intent != Intent::remove && outlook.water && outlook.water->amounts)
        advice.water = outlook.water;
      if (!outlook.damages.empty()) advice.damage = std::move(outlook);
    }
    return advice;
  }

  // One tree, one way of watering: that of the works to come, which leave the smaller store. What
  // is drawn a week is the same.
  static void leave_out_watering(DamageOutlook& outlook) {
    std::erase_if(outlook.now, [](const Prescription& one) { return one.topic == "irrigation"; });
  }

  static bool moves(const Tree& tree, const TreeAssessment& assessed) {
    return tree.intent == Intent::move ||
           (tree.intent == Intent::undecided && assessed.verdict.action == Action::transplant);
  }

  void add_move(const Tree& tree, TreeAdvice& advice) const {
    auto move = transplant_advice(tree, site_, tables_, options_.simulation);
    if (!move.ok()) {
      advice.no_move = move.error();
      return;
    }
    advice.move = std::move(move).value();
    if (!advice.move->ball) return;
    const auto middle = [](const Range& metres) { return Length::metres(metres.best); };
    WaterAfterMove how;
    how.ball_diameter = middle(advice.move->ball->diameter_m);
    how.ball_depth = middle(advice.move->ball->depth_m);
    WaterAdvice water = watering_after_move(tree, how, site_, tables_);
    add_watering(*advice.move, water.prescriptions);
    advice.water = std::move(water);
  }

  void add_cuts_and_water(const Tree& tree, const TreeAssessment& assessed, const Advice& site,
                          TreeAdvice& advice) const {
    const AnchorageKept* kept = assessed.anchorage ? &*assessed.anchorage : nullptr;
    const auto& clearance = clearances_.of_tree[static_cast<std::size_t>(&tree - &site_.trees[0])];
    for (const Work* work : new_works(site_)) {
      // Of a tree without a place the plan says what is missing; no line can be opened for it.
      if (work->digs() && tree.position && may_cut(tree, *work, assessed.roots_met, tables_) &&
          !is_built_on_top(work->id, tree.id, site)) {
        CutAdvice cut =
            cut_advice(tree, *work, assessed.roots_met, kept, site_, tables_, standard_);
        if (cut.cuts && is_worth_telling(cut, assessed, tables_))
          advice.cuts.push_back(std::move(cut));
      }
      if (clearance && comes_within(*clearance, tree, *work))
        advice.bores.push_back(bore_advice(tree, *work, site_, clearances_, tables_));
    }
    const double noticed = tables_.parameter("verdict.loss_noticed").best;
    if (tree.condition == Condition::dead) return;
    if (!assessed.roots || assessed.roots->all.high < noticed) return;
    WaterAfterLoss loss;
    loss.share_lost = assessed.roots->all;
    if (assessed.estimate) loss.root_radius = Length::metres(assessed.estimate->extent_m.best);
    advice.water = watering_after_loss(tree, loss, site_, tables_);
  }

  const Site& site_;
  const Tables& tables_;
  const Assessment& assessment_;
  const AdviceOptions& options_;
  CutStandard standard_;
  BoreClearances clearances_;
};

// Every sentence once for a tree and a work, in order of first appearance.
class EachOnce {
 public:
  void add(const std::vector<Prescription>& more) {
    for (const Prescription& one : more)
      if (known_.insert(one.tree + '\n' + one.work + '\n' + one.text).second) all_.push_back(one);
  }
  std::vector<Prescription> all() && { return std::move(all_); }

 private:
  std::unordered_set<std::string> known_;
  std::vector<Prescription> all_;
};

}  // namespace

std::vector<Prescription> Advice::prescriptions() const {
  EachOnce all;
  if (levels) all.add(levels->prescriptions);
  all.add(soil.prescriptions);
  for (const TreeAdvice& tree : trees)
    if (tree.move) all.add(tree.move->prescriptions());
  if (protection) all.add(protection->prescriptions);
  for (const TrafficAdvice& one : traffic) all.add(one.prescriptions);
  for (const FillAdvice& one : fills) all.add(one.prescriptions);
  for (const TreeAdvice& tree : trees) {
    for (const CutAdvice& cut : tree.cuts) all.add(cut.prescriptions);
    for (const BoreAdvice& bore : tree.bores) all.add(bore.prescriptions);
    all.add(tree.root_crown.prescriptions);
    if (tree.damage) all.add(tree.damage->now);
    if (tree.water) all.add(tree.water->prescriptions);
  }
  if (monitoring) all.add(monitoring->prescriptions);
  all.add(replacement.prescriptions);
  return std::move(all).all();
}

Result<Site> with_level_works(Site site, const Tables& tables) {
  if (!site.existing_levels || !site.proposed_levels) return site;
  ROOTSTEAD_TRY(std::vector<Work> works, level_works(site, tables));
  for (Work& work : works)
    if (site.work(work.id) == nullptr) site.works.push_back(std::move(work));
  return site;
}

Result<Advice> advise(const Site& site, const Tables& tables, const Assessment& assessment,
                      const AdviceOptions& options) {
  assert(assessment.trees.size() == site.trees.size());
  const std::string chosen = setting(site, kCutStandardKey);
  CutStandard standard = default_cut_standard(tables, site.settings.units);
  if (!chosen.empty()) {
    ROOTSTEAD_TRY(standard, cut_standard(tables, chosen));
  }
  return Adviser(site, tables, assessment, options, std::move(standard)).advice();
}

}  // namespace rootstead
