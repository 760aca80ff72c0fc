#include "serve/tree_sheet.hpp"

#include "engine/advice/told_figure.hpp"
#include "engine/base/text.hpp"
#include "serve/measured.hpp"
#include "serve/remedies.hpp"

namespace rootstead::serve {
namespace {

using io::Json;

std::string share_text(const Range& share) {
  return percent(share.best, 0) + " (" + percent(share.low, 0) + " to " + percent(share.high, 0) +
         ")";
}

std::string length_text(const Range& metres, const AmountText& amounts) {
  const auto text = [&](double value) { return amounts.length(Length::metres(value)); };
  return text(metres.best) + " (" + text(metres.low) + " to " + text(metres.high) + ")";
}

void add_zones(const TreeAssessment& tree, const Tables& tables, const AmountText& amounts,
               Json& lines) {
  std::string rule;
  for (const ZoneAssessment& assessed : tree.zones) {
    const Zone& zone = assessed.zone;
    const ZoneRule* known = tables.rule(zone.rule);
    const std::string title = known == nullptr ? zone.rule : known->title;
    if (zone.rule != rule && zone.diameter > Length())
      lines.push_back(named("Diameter by " + title, amounts.length(zone.diameter)));
    rule = zone.rule;
    lines.push_back(named(zone.name + " by " + title, "radius " + amounts.length(zone.radius) +
                                                          ", area " + amounts.area(zone.area) +
                                                          " (" + cited(zone.figure.from) + ")"));
  }
  for (const Error& error : tree.rules_not_applied)
    lines.push_back(named("Rule without an answer", error.sentence()));
}

Json derived(const TreeAssessment& tree, const Tables& tables, const AmountText& amounts) {
  Json lines = Json::array();
  add_zones(tree, tables, amounts, lines);
  if (!tree.estimate) return lines;
  const RootEstimate& roots = *tree.estimate;
  const std::string ours = "; " + std::string(to_text(Status::assumption));
  lines.push_back(named("Extent of the roots", length_text(roots.extent_m, amounts) + ours));
  lines.push_back(
      named("Absorbing roots in the uppermost " + amounts.small_length(Length::millimetres(150)),
            share_text(roots.share_in_top_150mm) + ours));
  lines.push_back(
      named("Absorbing roots under the crown", share_text(roots.share_under_crown) + ours));
  if (!roots.hindrances.empty())
    lines.push_back(named("Roots turned aside by", joined(roots.hindrances, ", ")));
  return lines;
}

std::string pit_text(const NextPit& pit, const AmountText& amounts) {
  return "A pit " + amounts.length(pit.side) + " square and " + amounts.length(pit.depth) +
         " deep, " + amounts.length(pit.from_stem) + " from the stem at " +
         fixed_number(pit.bearing.degrees(), 0) +
         " degrees from grid north, is expected to leave " + percent(pit.spread_left, 0) +
         " of the spread of the loss.";
}

Json narrows(const TreeAssessment& tree, const AmountText& amounts) {
  Json lines = Json::array();
  if (!tree.roots) return lines;
  if (tree.roots->next_pit)
    lines.push_back(named("Next pit", pit_text(*tree.roots->next_pit, amounts)));
  for (const Influence& influence : tree.roots->influences) {
    if (influence.narrowed_by.empty()) continue;
    lines.push_back(named(influence.meaning, percent(influence.share, 0) +
                                                 " of the spread goes back to it; to narrow it: " +
                                                 influence.narrowed_by + "."));
  }
  return lines;
}

// Fences and their like are of the whole site: they are told by the protection plan.
Json advice_lines(const TreeAssessment& tree, const Advice& advice) {
  Json lines = Json::array();
  for (const std::string& measure : tree.verdict.measures)
    lines.push_back(named("measure", measure));
  for (const Prescription& one : advice.prescriptions()) {
    const bool of_it =
        one.tree == tree.tree || (one.tree.empty() && !one.work.empty() && reaches(tree, one.work));
    if (!of_it) continue;
    const std::string reason = one.reason.empty() ? "" : " " + one.reason;
    lines.push_back(named(one.topic, one.text + reason + " [" + cited(one.from) + "]"));
  }
  return lines;
}

// Where a bore goes down and comes up depends on all trees along it.
void take_bores_from(const Site& whole, const Tree& tree, const Tables& tables, Advice& advice) {
  for (TreeAdvice& one : advice.trees)
    for (BoreAdvice& bore : one.bores)
      if (const Work* work = whole.work(bore.work)) bore = bore_advice(tree, *work, whole, tables);
}

Json figures(const TreeAssessment& tree, const Advice& advice, const Tables& tables) {
  Json list = Json::array();
  for (const ToldFigure& told : figures_told(tree, advice)) {
    Json figure = io::to_json(told, tables);
    figure["name"] = told.figure.name;
    list.push_back(std::move(figure));
  }
  return list;
}

}  // namespace

Result<Json> tree_sheet(const Snapshot& snapshot, const std::string& id) {
  ROOTSTEAD_TRY(const Tree* tree, snapshot.tree(id));
  const Tables& tables = snapshot.tables;
  Site alone = snapshot.site;
  alone.trees = {*tree};  // one tree alone gives the same bits as among others
  AssessOptions how;
  how.simulation = snapshot.assessment.simulation;
  ROOTSTEAD_TRY(const Assessment assessment, assess(alone, tables, how));
  AdviceOptions options;
  options.simulation = how.simulation;
  ROOTSTEAD_TRY(Advice advice, advise(alone, tables, assessment, options));
  const TreeAssessment& assessed = assessment.trees.front();
  const AmountText amounts{alone.settings.units};
  Json sheet = {{"version", snapshot.version},
                {"id", tree->id},
                {"label", tree->label()},
                {"measured", measured_of(*tree)},
                {"derived", derived(assessed, tables, amounts)},
                {"figures", figures(assessed, advice, tables)},
                {"narrows", narrows(assessed, amounts)},
                {"remedies", remedies_for(alone, assessed, tables, how.simulation)}};
  advice.protection.reset();
  take_bores_from(snapshot.site, *tree, tables, advice);
  sheet["advice"] = advice_lines(assessed, advice);
  return sheet;
}

}  // namespace rootstead::serve
