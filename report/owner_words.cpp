#include "report/owner_words.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "report/book.hpp"
#include "report/one_page.hpp"
#include "report/plan_drawing.hpp"
#include "report/wording.hpp"

namespace rootstead {
namespace {

constexpr double kLitresPerGallon = 3.785411784;  // US

// What the owner wants goes before what the assessment found.
std::string outcome_of(const Tree& tree, const Verdict& verdict) {
  if (tree.intent == Intent::remove) return "removed";
  if (tree.intent == Intent::move) return "moved";
  switch (verdict.action) {
    case Action::keep:
      return "stays";
    case Action::keep_with_measures:
      return "stays, with care";
    case Action::assess_further:
      return "to be looked at further";
    case Action::transplant:
      return "moved, if you agree";
    case Action::remove:
      return "may have to go: ask first";
    case Action::undecided:
      return "not decided: facts missing";
  }
  return "not decided: facts missing";
}

// What the concern rests on: the roots that are lost, or only a rule that asks for more room.
std::string health_of(Concern concern, const std::optional<RootLoss>& roots, const Tables& tables) {
  const bool few = roots && roots->all.best < tables.parameter("verdict.few_roots_lost").best;
  switch (concern) {
    case Concern::none:
      return "no concern found";
    case Concern::small:
      return "little concern";
    case Concern::material:
      return few ? "rules ask for care" : "loses roots: needs help";
    case Concern::large:
      return few ? "too near, by the rules" : "loses many roots: may decline";
    case Concern::unknown:
      return "not known yet";
  }
  return "not known yet";
}

std::string hold_of(Concern concern) {
  switch (concern) {
    case Concern::none:
      return "no concern found";
    case Concern::small:
      return "little concern";
    case Concern::material:
      return "weaker: must be checked";
    case Concern::large:
      return "much weaker: check first";
    case Concern::unknown:
      return "not known yet";
  }
  return "not known yet";
}

bool goes(const Tree& tree, const Verdict& verdict) {
  return tree.intent == Intent::remove || tree.intent == Intent::move ||
         (tree.intent == Intent::undecided && verdict.action == Action::transplant);
}

// Of a figure by its trail; where that is not kept, no better mark is due than the weakest.
Status status_of(const TransplantAdvice& move, std::string_view name) {
  for (const Figure& figure : move.figures)
    if (figure.name == name) return figure.from.status;
  return Status::assumption;
}

OwnerLine line_of(const Plan& plan, const TreeAssessment& assessed, const Tree& tree) {
  OwnerLine line{tree.id, tree.label() + " " + name_of(tree), outcome_of(tree, assessed.verdict),
                 health_of(assessed.verdict.vitality, assessed.roots, *plan.tables),
                 hold_of(assessed.verdict.stability)};
  if (tree.intent == Intent::remove) {
    line.health = line.hold = "–";
  } else if (goes(tree, assessed.verdict)) {
    const TreeAdvice* advice = advice_of(plan, tree.id);
    line.health = "most roots stay behind";
    if (advice != nullptr && advice->move && advice->move->roots_moved)
      line.health = "takes about " + percent(advice->move->roots_moved->best, 0) +
                    mark(status_of(*advice->move, "transplant.roots-in-ball")) + " of its roots";
    line.hold = "to be checked until rooted";
  }
  return line;
}

std::string day_text(std::chrono::sys_days day) {
  static constexpr const char* kMonths[] = {"January",   "February", "March",    "April",
                                            "May",       "June",     "July",     "August",
                                            "September", "October",  "November", "December"};
  const std::chrono::year_month_day date(day);
  return std::to_string(unsigned(date.day())) + " " + kMonths[unsigned(date.month()) - 1] + " " +
         std::to_string(int(date.year()));
}

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return count == 1 ? "one " + one : std::to_string(count) + " " + many;
}

std::vector<std::string> to_move(const Plan& plan) {
  std::vector<std::string> ids;
  for (const TreeAdvice& tree : plan.advice->trees)
    if (tree.move || tree.no_move) ids.push_back(tree.tree);
  return ids;
}

const Visit* first_visit(const Plan& plan, VisitKind kind) {
  if (!plan.advice->monitoring) return nullptr;
  for (const Visit& visit : plan.advice->monitoring->visits)
    if (visit.kind == kind) return &visit;
  return nullptr;
}

std::size_t count_visits(const Plan& plan, VisitKind kind) {
  if (!plan.advice->monitoring) return 0;
  const auto& visits = plan.advice->monitoring->visits;
  return std::size_t(std::count_if(visits.begin(), visits.end(),
                                   [&](const Visit& visit) { return visit.kind == kind; }));
}

// Two figures: the estimate bears no more.
double rounded(double value) {
  if (value <= 0) return 0;
  const double step = std::pow(10, std::floor(std::log10(value)) - 1);
  return std::round(value / step) * step;
}

std::string water_words(const Plan& plan, double litres) {
  const bool metric = plan.site->settings.units == UnitSystem::metric;
  const double shown = rounded(metric ? litres : litres / kLitresPerGallon);
  return with_thousands(shown, shown < 10 ? 1 : 0);
}

// The rounds of the report and the method statement: ground that holds weeks of water takes it at
// once, ground that holds a day's wants it daily.
std::string rounds(const Plan& plan, const TreeAdvice& advice, const std::string& unit) {
  const double longest = plan.tables->parameter("water.longest_round").best;
  const double days = std::floor(advice.water->amounts->days_between.best);
  if (days > longest) return ", after " + fixed_number(longest, 0) + " days without rain";
  const auto& figures = advice.water->figures;
  const auto portion = std::find_if(figures.begin(), figures.end(),
                                    [](const Figure& f) { return f.name == "water.portion"; });
  if (portion == figures.end()) return "";
  const std::string every = days < 2 ? "day" : fixed_number(days, 0) + " days";
  return ", given as about " + water_words(plan, portion->value) + unit + " every " + every;
}

std::string watering(const Plan& plan, const TreeAdvice& advice) {
  const bool metric = plan.site->settings.units == UnitSystem::metric;
  const std::string unit = metric ? " litres" : " gallons";
  const Range& week = advice.water->amounts->litres_per_week;
  // The weekly figure is of our model; where its trail is not kept, no better mark is due.
  Status status = Status::assumption;
  for (const Figure& figure : advice.water->figures)
    if (figure.name == "water.week") status = figure.from.status;
  return trees_named(plan, {advice.tree}, 1) + ": about " + water_words(plan, week.best) + unit +
         " a week (" + water_words(plan, week.low) + " to " + water_words(plan, week.high) + ")" +
         mark(status) + rounds(plan, advice, unit);
}

std::vector<const TreeAdvice*> watered(const Plan& plan) {
  std::vector<const TreeAdvice*> trees;
  for (const TreeAdvice& tree : plan.advice->trees)
    if (tree.water && tree.water->amounts) trees.push_back(&tree);
  std::stable_sort(trees.begin(), trees.end(), [](const TreeAdvice* a, const TreeAdvice* b) {
    return a->water->amounts->litres_per_week.best > b->water->amounts->litres_per_week.best;
  });
  return trees;
}

std::string mulch_words(const Plan& plan) {
  const AmountText text{plan.site->settings.units};
  const auto span = [&](const char* id) {
    const Parameter& p = plan.tables->parameter(id);
    return std::pair{text.small_length(Length::metres(p.low)),
                     text.small_length(Length::metres(p.high))};
  };
  const auto [low, high] = span("protection.mulch_depth");
  const Parameter& clear = plan.tables->parameter("protection.mulch_clear_of_stem");
  return "Keep wood chips " + low.substr(0, low.find(' ')) + " to " + high +
         mark(plan.tables->parameter("protection.mulch_depth").from.status) +
         " deep over the roots, and " + text.small_length(Length::metres(clear.best)) +
         mark(clear.from.status) + " away from the trunk.";
}

}  // namespace

std::vector<OwnerLine> owner_lines(const Plan& plan) {
  std::vector<OwnerLine> lines;
  const auto add = [&](const TreeAssessment& assessed) {
    const Tree* tree = tree_of(plan, assessed);
    if (tree != nullptr) lines.push_back(line_of(plan, assessed, *tree));
  };
  const auto first = most_important(plan, plan.assessment->trees.size());
  for (const TreeAssessment* tree : first) add(*tree);
  for (const bool affected : {true, false}) {
    for (const TreeAssessment& tree : plan.assessment->trees) {
      if (tree.affected() == affected &&
          std::find(first.begin(), first.end(), &tree) == first.end())
        add(tree);
    }
  }
  return lines;
}

OwnerSteps owner_steps(const Plan& plan) {
  OwnerSteps steps;
  const auto& protection = plan.advice->protection;
  const std::string who = arborist_named(plan);
  if (protection && !protection->fences.empty())
    steps.before.push_back("Fences go up (" + std::to_string(protection->fences.size()) +
                           " on the plan). No machine comes before they stand.");
  if (const auto moving = to_move(plan); !moving.empty())
    steps.before.push_back("To be moved, in the right season: " + trees_named(plan, moving, 3) +
                           ".");
  const Visit* before = first_visit(plan, VisitKind::before_works);
  steps.before.push_back(
      sentence_case(who) + " looks at every tree and takes photographs" +
      (before != nullptr && before->day ? ", by " + day_text(*before->day) : "") + ".");
  steps.before.push_back("Permits, neighbours and buried cables and pipes are asked about.");

  if (protection && !protection->digs.empty())
    steps.during.push_back("Near the trees is dug by hand or with air, in " +
                           counted(protection->digs.size(), "place", "places") + ".");
  if (const std::size_t holds = count_visits(plan, VisitKind::hold_point); holds > 0)
    steps.during.push_back("Work waits for " + who + " " +
                           (holds == 1 ? "once" : "at " + std::to_string(holds) + " points") +
                           " before roots are reached.");
  steps.during.push_back("People keep clear while roots are cut. The fences stay to the end.");

  const Visit* end = first_visit(plan, VisitKind::end_of_works);
  steps.after.push_back(
      std::string("The trees are looked at again when the works end") +
      (end != nullptr && end->day ? " (planned " + day_text(*end->day) + ")" : "") + ".");
  if (const std::size_t visits = count_visits(plan, VisitKind::afterwards); visits > 0)
    steps.after.push_back(counted(visits, "visit follows", "visits follow") +
                          " in the years after; roots once cut can fail late.");
  steps.after.push_back("Water and wood chips go on.");
  return steps;
}

std::vector<std::string> owner_duties(const Plan& plan, std::size_t most_waterings) {
  std::vector<std::string> duties;
  const auto trees = watered(plan);
  if (trees.empty()) {
    duties.push_back("Water in long dry weather; no more is asked for by this plan.");
  } else {
    std::string text = "In dry weather water over the roots, not at the trunk. ";
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < trees.size() && i < most_waterings; ++i)
      parts.push_back(watering(plan, *trees[i]));
    text += joined(parts, "; ") + ".";
    if (trees.size() > most_waterings)
      text += " And " + std::to_string(trees.size() - most_waterings) + " more in the report.";
    duties.push_back(text + " Our estimate: less where the soil is still damp a hand deep.");
  }
  duties.push_back("Do not park, pile or store anything under the crowns, not even for a day.");
  duties.push_back(mulch_words(plan));
  duties.push_back("Let nobody dig for lamps, pipes or planting there later without asking.");
  return duties;
}

std::vector<std::string> warning_signs(const Plan& plan) {
  std::vector<std::string> signs = {
      "At once, and keep away: a new lean, cracks or lifting ground at the base, mushrooms there.",
      "Within days: leaves wilt, turn or drop out of season, or the top grows thin.",
      "Work inside a fence, a machine on the roots, a torn root, soil against a trunk."};
  for (const Tree& tree : plan.site->trees) {
    if (tree.form != GrowthForm::palm) continue;
    signs.push_back("Palms: the newest leaf wilts or pulls out.");
    break;
  }
  return signs;
}

}  // namespace rootstead
