#include "engine/aftercare/monitoring.hpp"

#include <algorithm>
#include <cassert>
#include <map>

#include "engine/aftercare/monitoring_case.hpp"
#include "engine/base/text.hpp"
#include "engine/base/words.hpp"
#include "engine/losses/losses.hpp"
#include "engine/site/dates.hpp"

namespace rootstead {
namespace {

using namespace aftercare;
using Day = std::chrono::sys_days;

constexpr Words<VisitKind, 5> kVisitKinds = {{
    {VisitKind::before_works, "before the works"},
    {VisitKind::hold_point, "hold point"},
    {VisitKind::during_works, "during the works"},
    {VisitKind::end_of_works, "end of the works"},
    {VisitKind::afterwards, "after the works"},
}};

const Citation kOurMonitoring{"rootstead", "docs/methods/aftercare.md", Status::assumption};

Visit visit_of(std::string id, VisitKind kind, std::string title, std::optional<Day> day,
               Citation from) {
  Visit visit;
  visit.id = std::move(id);
  visit.kind = kind;
  visit.title = std::move(title);
  visit.day = day;
  visit.from = std::move(from);
  return visit;
}

// Does the work reach the tree, by any zone or by its roots?
bool reaches(const MonitoringCase& c, const TreeAssessment& tree, const std::string& work) {
  const auto in_zones = new_works_in_zones(tree);
  if (std::find(in_zones.begin(), in_zones.end(), work) != in_zones.end()) return true;
  if (!tree.roots) return false;
  const double noticed = c.best("verdict.loss_noticed");
  return std::any_of(tree.roots->by_work.begin(), tree.roots->by_work.end(),
                     [&](const auto& by) { return by.work == work && by.alone.high >= noticed; });
}

std::string name_of(const Work& work) {
  return work.name.empty() ? work.id : work.id + " (" + work.name + ")";
}

// ---- by event -----------------------------------------------------------------------------------

void add_before(const MonitoringCase& c, const std::vector<Watch>& watches, MonitoringPlan& plan) {
  Visit visit = visit_of("before-works", VisitKind::before_works, "Before the works begin",
                         c.options.works_begin,
                         {"as4970-practice", "certificate before disturbance", Status::published});
  visit.event = "before anything else on site begins";
  for (const Watch& watch : watches)
    visit.trees.push_back({watch.tree->id, "record of its state before the works"});
  add_looks(c, nullptr, visit);
  plan.visits.push_back(std::move(visit));
}

std::optional<Day> planned_day(const MonitoringCase& c, const Work& work) {
  const auto span = days_of(work.date);
  if (!span || span->first < c.options.works_begin || span->first > c.works_end)
    return std::nullopt;
  return span->first;
}

void add_hold_points(const MonitoringCase& c, MonitoringPlan& plan) {
  for (const Work& work : c.site.works) {
    if (!is_new(work)) continue;
    Visit visit = visit_of("hold-" + work.id, VisitKind::hold_point, "Hold point: " + name_of(work),
                           planned_day(c, work),
                           {"tigard-2019", "the arborist is told first", Status::published});
    visit.work = work.id;
    visit.event = std::string("before ") + name_of(work) +
                  (severs(work) ? " digs within a zone" : " covers or presses ground in a zone");
    for (const TreeAssessment& tree : c.assessment.trees) {
      const Tree* record = c.site.tree(tree.tree);
      if (record == nullptr || record->intent == Intent::remove) continue;
      if (reaches(c, tree, work.id))
        visit.trees.push_back({tree.tree, name_of(work) + " reaches its zone or roots"});
    }
    if (visit.trees.empty()) continue;
    if (!visit.day)
      plan.notes.push_back(
          {NoteCode::hold_point_undated, work.id,
           "the hold point of a work has no day: it is called when the work is about to "
           "begin"});
    add_looks(c, &work, visit);
    plan.visits.push_back(std::move(visit));
  }
}

void add_end(const MonitoringCase& c, const std::vector<Watch>& watches, MonitoringPlan& plan) {
  Visit visit = visit_of("end-of-works", VisitKind::end_of_works, "End of the works", c.works_end,
                         {"as4970-practice", "certificate of completion", Status::published});
  visit.event = "when everything but the fences has left the site";
  for (const Watch& watch : watches)
    visit.trees.push_back({watch.tree->id, "record of its state after the works"});
  add_looks(c, nullptr, visit);
  plan.visits.push_back(std::move(visit));
}

// ---- by interval --------------------------------------------------------------------------------

void add_during(const MonitoringCase& c, MonitoringPlan& plan) {
  const Parameter& interval = c.tables.parameter("aftercare.works_interval");
  std::vector<TreeVisit> trees;
  for (const TreeAssessment& tree : c.assessment.trees) {
    const Tree* record = c.site.tree(tree.tree);
    if (record == nullptr || record->intent == Intent::remove || !tree.affected()) continue;
    trees.push_back({tree.tree, "works reach its zone or roots"});
  }
  if (trees.empty()) return;
  const int step = std::max(1, static_cast<int>(interval.best));
  for (int month = step;; month += step) {
    const Day day = months_later(c.options.works_begin, month);
    if (day >= c.works_end) return;
    Visit visit = visit_of("works-month-" + std::to_string(month), VisitKind::during_works,
                           "During the works, month " + std::to_string(month), day, interval.from);
    visit.trees = trees;
    add_looks(c, nullptr, visit);
    plan.visits.push_back(std::move(visit));
  }
}

// Months after the end of the works at which a tree of this concern is seen.
std::vector<int> months_of(const MonitoringCase& c, Concern concern) {
  const std::string key(to_text(concern == Concern::unknown ? Concern::material : concern));
  const int first = static_cast<int>(c.best("aftercare.first_visit." + key));
  const int step = std::max(1, static_cast<int>(c.best("aftercare.interval." + key)));
  const int years = std::min(static_cast<int>(c.best("aftercare.years." + key)), c.options.years);
  std::vector<int> months{first};
  for (int month = step; month <= 12 * years; month += step)
    if (month > first) months.push_back(month);
  return months;
}

void add_afterwards(const MonitoringCase& c, const std::vector<Watch>& watches,
                    MonitoringPlan& plan) {
  std::map<int, Visit> by_month;
  for (const Watch& watch : watches) {
    for (const int month : months_of(c, watch.concern)) {
      Visit& visit = by_month[month];
      if (visit.id.empty())
        visit = visit_of("after-" + std::to_string(month) + "-months", VisitKind::afterwards,
                         std::to_string(month) + " months after the works",
                         months_later(c.works_end, month),
                         c.tables.parameter("aftercare.interval.material").from);
      visit.trees.push_back({watch.tree->id, watch.reason});
    }
  }
  for (auto& [month, visit] : by_month) {
    add_looks(c, nullptr, visit);
    plan.visits.push_back(std::move(visit));
  }
}

void add_after_storms(const MonitoringCase& c, const std::vector<Watch>& watches,
                      MonitoringPlan& plan) {
  Visit visit =
      visit_of("after-storm", VisitKind::afterwards, "After each storm, first year", {},
               {"minnesota-aftercare", "after major storms; of new trees", Status::published});
  visit.event = "the day after each storm in the first year after the works";
  for (const Watch& watch : watches) {
    const TreeAssessment* tree = nullptr;
    for (const TreeAssessment& one : c.assessment.trees)
      if (one.tree == watch.tree->id) tree = &one;
    const bool moved = watch.tree->intent == Intent::move;
    const bool weaker = tree != nullptr && tree->verdict.stability >= Concern::material;
    if (moved) visit.trees.push_back({watch.tree->id, "moved: its ball may rock"});
    if (!moved && weaker)
      visit.trees.push_back({watch.tree->id, "stability: roots that hold it are cut or not known"});
  }
  if (visit.trees.empty()) return;
  add_looks(c, nullptr, visit);
  plan.visits.push_back(std::move(visit));
}

// ---- the whole ----------------------------------------------------------------------------------

void sort_by_day(std::vector<Visit>& visits) {
  const auto dated = std::stable_partition(visits.begin(), visits.end(), [](const Visit& visit) {
    return visit.kind == VisitKind::before_works || !visit.day;
  });
  std::stable_sort(dated, visits.end(),
                   [](const Visit& a, const Visit& b) { return *a.day < *b.day; });
}

void add_prescriptions(const MonitoringCase& c, MonitoringPlan& plan) {
  const auto prescribe = [&](std::string text, std::string reason, Citation from) {
    Prescription one;
    one.topic = "monitoring";
    one.text = std::move(text);
    one.reason = std::move(reason);
    one.from = std::move(from);
    plan.prescriptions.push_back(std::move(one));
  };
  const Parameter& notice = c.tables.parameter("aftercare.notice_days");
  prescribe(
      "Begin nothing on site before the arborist has certified in writing that fences and "
      "ground protection stand as drawn.",
      "What is put up after the first machine comes too late.",
      {"as4970-practice", "certificate before disturbance", Status::published});
  prescribe("Tell the arborist " + fixed_number(notice.best, 0) +
                " working days before each hold point, and wait there until released.",
            "Roots are lost in an hour and missed for years.", notice.from);
  prescribe(
      "Write a dated record of every visit: who was there, what was seen, which roots were "
      "met, what was told to whom and what is due.",
      "Damage shows when those who did it have left.",
      {"tigard-2019", "monitoring record", Status::published});
}

void add_figures(const MonitoringCase& c, MonitoringPlan& plan) {
  for (const char* id :
       {"aftercare.works_interval", "aftercare.years.none", "aftercare.years.small",
        "aftercare.years.material", "aftercare.years.large", "aftercare.crown_loss_act"}) {
    const Parameter& parameter = c.tables.parameter(id);
    Figure figure;
    figure.name = id;
    figure.value = parameter.best;
    figure.unit = parameter.unit;
    figure.range = Range{parameter.low, parameter.best, parameter.high};
    figure.formula = parameter.meaning;
    figure.from = parameter.from;
    plan.figures.push_back(std::move(figure));
  }
}

}  // namespace

std::string_view to_text(VisitKind kind) {
  return word_for(kVisitKinds, kind);
}

MonitoringPlan monitoring_plan(const Site& site, const Assessment& assessment,
                               const MonitoringOptions& options, const Tables& tables) {
  assert(options.years >= 1 && options.years <= 5);
  assert(!options.works_end || *options.works_end >= options.works_begin);
  const Parameter& length = tables.parameter("aftercare.works_length");
  const Day assumed_end = options.works_begin + std::chrono::days(static_cast<int>(length.best));
  const MonitoringCase c{site,
                         assessment,
                         options,
                         tables,
                         AmountText{site.settings.units},
                         options.works_end.value_or(assumed_end)};
  MonitoringPlan plan;
  if (!options.works_end)
    plan.notes.push_back({NoteCode::works_end_assumed, "monitoring",
                          "the end of the works is not known: " + fixed_number(length.best, 0) +
                              " days are assumed; enter it and make the plan again"});
  const std::vector<Watch> watches = watches_of(c);
  if (watches.empty()) return plan;
  add_before(c, watches, plan);
  add_hold_points(c, plan);
  add_during(c, plan);
  add_end(c, watches, plan);
  add_afterwards(c, watches, plan);
  add_after_storms(c, watches, plan);
  sort_by_day(plan.visits);
  add_prescriptions(c, plan);
  add_figures(c, plan);
  return plan;
}

}  // namespace rootstead
