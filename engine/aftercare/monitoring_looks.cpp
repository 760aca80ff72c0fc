// What to look at, what makes people act, and which trees are worth the way.
#include <algorithm>

#include "engine/aftercare/monitoring_case.hpp"
#include "engine/base/text.hpp"
#include "engine/losses/losses.hpp"
#include "engine/tables/traits.hpp"

namespace rootstead::aftercare {
namespace {

using Sentences = std::vector<std::string>;

std::string root_size(const MonitoringCase& c) {
  const Parameter& size = c.tables.parameter("verdict.root_to_ask_about");
  return c.text.small_length(Length::millimetres(size.best));
}

void look_before(Sentences& look, Sentences& act) {
  look = {"crown, trunk and base of every tree, with photographs from fixed points",
          "fences, ground protection and signs, run by run, against the plan",
          "that the crew knows the hold points and whom to call"};
  act = {"a fence or ground protection is missing or not where it is drawn: no work begins"};
}

void look_at_dig(const MonitoringCase& c, Sentences& look, Sentences& act) {
  look = {"the line and depth of the dig against the plan, from station to station",
          "every root met: diameter, depth, distance, cut, torn or kept",
          "how cut ends were treated, and when the dig was filled again"};
  act = {"a root of " + root_size(c) +
             " or more is met: digging stops there until the arborist "
             "has decided",
         "a root is torn: it is cut clean and covered the same day",
         "the dig leaves its line towards a tree, or a machine digs where hands should: it stops",
         "more roots are met than the plan speaks of: the trees are assessed again"};
}

void look_at_covering(Sentences& look, Sentences& act) {
  look = {"the ground before it is covered: wet or dry, rutted, how high the flare stands free",
          "protection laid before the first wheel; kind and thickness of what is brought"};
  act = {"the ground is wet or ruts: nothing drives on it",
         "soil or stone lies against a trunk: it is taken away by hand the same day"};
}

void look_during(const MonitoringCase& c, Sentences& look, Sentences& act) {
  look = {"fences run by run: in place, moved, down, sign missing",
          "ground protection, spoil, storage, washout and wheels inside the zones",
          "digs since the last visit and the roots met; soil moisture; the crowns"};
  act = {"a fence is moved or down: work near it stops and it is put back the same day",
         "ground inside a zone was driven on, dug or filled without release: the arborist is told "
         "at once and the trees are assessed again",
         "a root of " + root_size(c) + " or more was cut without release: the same"};
}

void look_at_end(Sentences& look, Sentences& act) {
  look = {"crown, trunk and base of every tree, from the same fixed points as before",
          "level of the ground at every flare, pressed ground, spoil and rubbish left",
          "what was really dug and which roots were cut, for the record as built",
          "that fences go last, and no trench for lamps or watering comes after them"};
  act = {
      "works went further than planned: the trees are assessed again before the site is handed "
      "over",
      "ground over roots is pressed: it is loosened with air and mulched before the fences go"};
}

void look_afterwards(const MonitoringCase& c, const Visit& visit, Sentences& look, Sentences& act) {
  look = {
      "crown against the photographs: size and colour of leaves, growth of the year, dead twigs",
      "base: cracks in the ground, a lifted root plate, lean, fungi, soft bark, a buried flare",
      "soil moisture under the mulch, mulch against the bark, new digs or wheels"};
  act = {"about " + percent(c.best("aftercare.crown_loss_act"), 0) +
             " of a crown is thin or dead, or clearly more than at the visit before: an arborist "
             "looks within the month",
         "cracks, a lifted plate, a new lean or fungi at the base: people are kept away and a "
         "person qualified in stability is called the same day",
         "the soil is dry a hand deep in the growing season: watering begins again",
         "the soil is wet to the touch for weeks: watering stops and the drainage is looked at"};
  if (any_palm(c, visit)) {
    look.push_back("palms: the newest leaf, and the number of green leaves");
    act.push_back(
        "palms: the newest leaf wilts or pulls out, or green leaves grow fewer from visit "
        "to visit: an arborist who knows palms looks within the week");
  }
}

bool passes(const Watch& watch) {
  return watch.tree != nullptr && watch.tree->intent != Intent::remove;
}

std::string concern_words(Concern concern) {
  return concern == Concern::none ? "no concern" : std::string(to_text(concern)) + " concern";
}

std::string reason_of(const Tree& tree, const Verdict& verdict, bool affected) {
  if (tree.intent == Intent::move) return "moved: until established";
  if (!affected) return "no work reaches it; seen once so that later change can be told";
  return "vitality: " + concern_words(verdict.vitality) +
         "; stability: " + concern_words(verdict.stability);
}

// Unknown counts as material: it asks for looking, not for alarm.
Concern asking(Concern concern) {
  return concern == Concern::unknown ? Concern::material : concern;
}

}  // namespace

std::chrono::sys_days months_later(std::chrono::sys_days day, int months) {
  const std::chrono::year_month_day date(day);
  const auto month = date.year() / date.month() + std::chrono::months(months);
  const std::chrono::year_month_day same = month / date.day();
  return same.ok() ? std::chrono::sys_days(same) : std::chrono::sys_days(month / std::chrono::last);
}

bool any_palm(const MonitoringCase& c, const Visit& visit) {
  return std::any_of(visit.trees.begin(), visit.trees.end(), [&](const TreeVisit& one) {
    const Tree* tree = c.site.tree(one.tree);
    return tree != nullptr && is_monocot(*tree, c.tables);
  });
}

void add_looks(const MonitoringCase& c, const Work* work, Visit& visit) {
  switch (visit.kind) {
    case VisitKind::before_works:
      return look_before(visit.look_at, visit.act_if);
    case VisitKind::hold_point:
      if (work != nullptr && severs(*work)) return look_at_dig(c, visit.look_at, visit.act_if);
      return look_at_covering(visit.look_at, visit.act_if);
    case VisitKind::during_works:
      return look_during(c, visit.look_at, visit.act_if);
    case VisitKind::end_of_works:
      return look_at_end(visit.look_at, visit.act_if);
    case VisitKind::afterwards:
      return look_afterwards(c, visit, visit.look_at, visit.act_if);
  }
}

std::vector<Watch> watches_of(const MonitoringCase& c) {
  std::vector<Watch> watches;
  for (const TreeAssessment& tree : c.assessment.trees) {
    Watch watch;
    watch.tree = c.site.tree(tree.tree);
    if (!passes(watch)) continue;
    const Verdict& verdict = tree.verdict;
    const bool affected = tree.affected();
    watch.concern =
        affected ? std::max(asking(verdict.vitality), asking(verdict.stability)) : Concern::none;
    if (watch.tree->intent == Intent::move) watch.concern = Concern::large;
    watch.reason = reason_of(*watch.tree, verdict, affected);
    watches.push_back(std::move(watch));
  }
  return watches;
}

}  // namespace rootstead::aftercare
