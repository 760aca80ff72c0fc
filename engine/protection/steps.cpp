#include "engine/protection/steps.hpp"

#include <cmath>

namespace rootstead {
namespace {

const Citation kTradePractice{"trade-practice", "", Status::common_practice};

Citation published(std::string source, std::string place) {
  return {std::move(source), std::move(place), Status::published};
}

class StepList {
 public:
  void add(std::string text, std::vector<std::string> attends, std::string record, Citation from) {
    put(std::move(text), false, std::move(attends), std::move(record), std::move(from));
  }
  void hold(std::string text, std::vector<std::string> attends, std::string record, Citation from) {
    put(std::move(text), true, std::move(attends), std::move(record), std::move(from));
  }
  std::vector<Step> take() && { return std::move(steps_); }

 private:
  void put(std::string text, bool hold, std::vector<std::string> attends, std::string record,
           Citation from) {
    const int number = static_cast<int>(steps_.size()) + 1;
    steps_.push_back(
        {number, std::move(text), hold, std::move(attends), std::move(record), std::move(from)});
  }
  std::vector<Step> steps_;
};

const char* const kArborist = "arborist";
const char* const kManager = "site manager";
const char* const kAuthority = "authority";
const char* const kCrew = "digging crew";

void before_any_machine(const ProtectionPlan& plan, StepList& steps) {
  steps.hold(
      "Meet on site before anything moves: walk the fence lines, name who may stop the work.",
      {kArborist, kManager, kCrew, kAuthority}, "minutes with the names of all present",
      published("as4970-practice-note", "meeting before construction, named attendees"));
  steps.add("Photograph every kept tree and record its condition as it is today.", {kArborist},
            "photographs and condition of each tree", kTradePractice);
  if (!plan.digs.empty() || !plan.root_cuts.empty() || !plan.bores.empty())
    steps.add("Have buried services located and marked before any digging, posts included.",
              {kManager}, "marks on the ground and on the plan",
              published("maryland-roads-715", "utilities marked before root pruning"));
  if (!plan.guards.empty())
    steps.add("Box the trunks that no fence holds off.", {kArborist}, "photographs",
              published("westminster-crossings", "guards where a fence is impossible"));
  if (!plan.fences.empty())
    steps.add("Set the fences, gates and signs where the plan shows them.", {kArborist, kManager},
              "fence as built, run by run", published("durham-udo", "8.3.2: as approved"));
  if (!plan.covers.empty())
    steps.add("Lay the ground protection before the first wheel, working from what is laid.",
              {kArborist, kManager}, "photographs of each area", kTradePractice);
  steps.hold(
      "See every fence, sign and cover in its place; no demolition, stripping or digging "
      "before that is written down.",
      {kArborist, kManager, kAuthority}, "certificate that the measures stand",
      published("as4970-practice-note", "certificate before disturbance"));
}

void digging(const ProtectionPlan& plan, StepList& steps) {
  if (!plan.root_cuts.empty()) {
    steps.hold("Mark the root-cut lines on the ground and have them approved.",
               {kArborist, kManager}, "marked lines measured from the stems",
               published("maryland-roads-715", "cut line marked and approved"));
    steps.hold(
        "Open the root-cut lines by hand or with air and cut roots cleanly before machines "
        "dig beyond them; keep people clear of the tree meanwhile.",
        {kArborist, kCrew}, "roots met and cut: size, depth, place",
        published("pleasanton-conditions", "arborist on site during any root pruning"));
  }
  if (!plan.digs.empty())
    steps.hold(
        "Dig the marked stretches by hand or with air, one after the other; ask before "
        "cutting any thick root.",
        {kArborist, kCrew}, "roots met and cut, stretch by stretch",
        published("connecticut-13b-17-45", "hand or air tools in the root zone"));
  if (!plan.bores.empty())
    steps.add("Open the bore pits where shown, and bore at the depth shown.", {kArborist, kCrew},
              "depth of the bore and roots met in the pits", kTradePractice);
  if (!plan.root_cuts.empty() || !plan.digs.empty())
    steps.add("Backfill the same day, or wrap and wet what stays open.", {kCrew},
              "time of opening and of backfilling",
              published("maryland-roads-715", "backfill at once; roots kept moist"));
  if (!plan.no_dig.empty())
    steps.hold("See the ground as it lies before the paving over roots is built on it.",
               {kArborist, kManager}, "levels before and after", kTradePractice);
}

}  // namespace

std::vector<Step> steps_of(const ProtectionPlan& plan) {
  StepList steps;
  before_any_machine(plan, steps);
  digging(plan, steps);
  if (!plan.fences.empty())
    steps.add(
        "Keep the fences upright to the end; tell the arborist before any is opened or "
        "moved.",
        {kManager}, "fence run by run at each visit",
        published("tigard-2019", "told before a fence is opened"));
  if (!plan.fences.empty() || !plan.covers.empty())
    steps.hold(
        "Take up covers and fences only when all digging is done, planting and irrigation "
        "trenches too.",
        {kArborist, kManager}, "certificate of completion",
        published("as4970-practice-note", "completion before release"));
  if (!plan.covers.empty())
    steps.add("Look at the soil beneath the covers and loosen what was pressed.", {kArborist},
              "soil beneath each cover", published("redwood-city-conditions", "soil after works"));
  return std::move(steps).take();
}

std::vector<Inspection> inspections_of(const ProtectionPlan& plan, const Tables& tables,
                                       std::optional<double> months) {
  std::vector<Inspection> visits;
  const Citation ours{"rootstead", "docs/methods/protection.md", Status::assumption};
  const auto add = [&](std::string trigger, std::string looks_at, double count) {
    if (count > 0) visits.push_back({std::move(trigger), std::move(looks_at), count, ours});
  };
  add("fences and covers in place", "every run, gate, sign and cover against the plan", 1);
  add("demolition or stripping begins", "fences hold; nothing stored or washed out inside", 1);
  add("each root-cut line", "roots met, clean cuts, people kept clear",
      static_cast<double>(plan.root_cuts.size()));
  add("each stretch dug by hand or air", "tools, roots kept, ends cut, moist and covered",
      static_cast<double>(plan.digs.size()));
  add("each bore", "pits where shown, depth held", static_cast<double>(plan.bores.size()));
  add("each paving over roots", "no digging, ground as it lay",
      static_cast<double>(plan.no_dig.size()));
  add("fences about to come down", "all digging done, landscape trenches too", 1);
  const Parameter& interval = tables.parameter("protection.visit_interval");
  visits.push_back(
      {"every month while works go on", "fences, covers, storage, the trees themselves",
       std::max(1.0, std::ceil(months.value_or(1) / interval.best - 1e-9)), interval.from});
  return visits;
}

}  // namespace rootstead
