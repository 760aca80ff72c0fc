// Who looks at which tree, when, for what, and what makes them act: by event first (before works,
// at each hold point, at the end), then by interval, for one to five years.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "engine/assess/assess.hpp"
#include "engine/base/prescription.hpp"

namespace rootstead {

struct MonitoringOptions {
  std::chrono::sys_days works_begin;
  std::optional<std::chrono::sys_days> works_end;  // else a stated assumption after the beginning
  int years = 5;                                   // after the works, 1 to 5
};

enum class VisitKind { before_works, hold_point, during_works, end_of_works, afterwards };

struct TreeVisit {
  std::string tree;    // id
  std::string reason;  // why this tree at this visit
};

struct Visit {
  std::string id;  // stable: "before-works", "hold-W3", "after-12-months"
  VisitKind kind = VisitKind::before_works;
  std::string title;
  std::optional<std::chrono::sys_days> day;  // none: called by the event itself
  std::string event;                         // "before W3 digs within a zone"; empty: by interval
  std::string work;                          // id; empty: of no one work
  std::vector<TreeVisit> trees;
  std::vector<std::string> look_at;  // what to look at, and write down
  std::vector<std::string> act_if;   // thresholds that trigger action, each with the action
  Citation from;                     // of the event or interval
};

struct MonitoringPlan {
  std::vector<Visit> visits;  // dated ones by day; the hold points before the interval visits
  std::vector<Figure> figures;
  std::vector<Prescription> prescriptions;  // topic "monitoring"
  std::vector<Note> notes;
};

// Trees that no work reaches are looked at before and after the works only. Requires: years 1 to 5,
// works_end not before works_begin, an assessment of this site.
MonitoringPlan monitoring_plan(const Site& site, const Assessment& assessment,
                               const MonitoringOptions& options, const Tables& tables);

std::string_view to_text(VisitKind kind);

}  // namespace rootstead
