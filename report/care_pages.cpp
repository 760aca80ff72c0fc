// What comes after: visits, replacement and guarantees, and what authorities ask for.
#include <algorithm>
#include <map>
#include <set>

#include "engine/base/text.hpp"
#include "engine/site/dates.hpp"
#include "report/advice_pages.hpp"

namespace rootstead {

using layout::Flow;
using layout::kInk;
using layout::Pen;
using layout::Place;
using layout::Rect;
using layout::Row;

namespace {

const layout::TextStyle kNote = layout::kSmallGrey;
const layout::TextStyle kTiny = sized(layout::kTableText, layout::kSmallestType);

// ---- monitoring ---------------------------------------------------------------------------------

std::string lines_of(const std::vector<std::string>& items) {
  std::vector<std::string> lines;
  for (const std::string& item : items) lines.push_back("– " + item);
  return joined(lines, "\n");
}

std::string iso(std::chrono::sys_days day) {
  const std::chrono::year_month_day date(day);
  const auto two = [](unsigned n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return std::to_string(int(date.year())) + "-" + two(unsigned(date.month())) + "-" +
         two(unsigned(date.day()));
}

std::string when_of(const Visit& visit) {
  std::string text = visit.day ? iso(*visit.day) : "when called";
  if (!visit.event.empty()) text += "\n" + visit.event;
  return text;
}

// Trees and why each is seen: a reason is told the first time it is one.
using ReasonsTold = std::set<std::pair<std::string, std::string>>;

// Trees with the same reason stand together.
std::string trees_of(const AdvicePages& pages, const Visit& visit, ReasonsTold& told) {
  std::vector<std::pair<std::string, std::vector<std::string>>> by_reason;
  for (const TreeVisit& tree : visit.trees) {
    const bool is_new = told.emplace(tree.tree, tree.reason).second;
    const std::string reason = is_new || tree.reason.empty() ? tree.reason : "as told before";
    const auto same = std::find_if(by_reason.begin(), by_reason.end(),
                                   [&](const auto& known) { return known.first == reason; });
    if (same == by_reason.end())
      by_reason.push_back({reason, {tree.tree}});
    else
      same->second.push_back(tree.tree);
  }
  std::vector<std::string> lines;
  for (const auto& [reason, trees] : by_reason)
    lines.push_back(pages.labels(trees) + (reason.empty() ? "" : ": " + reason));
  return joined(lines, "\n");
}

std::string every_tree_of(const Visit& visit) {
  std::string key;
  for (const TreeVisit& tree : visit.trees) key += tree.tree + "\n" + tree.reason + "\n";
  return key;
}

// What one visit looks at and acts on is often that of another: it is said once, and named again.
struct SaidOnce {
  std::map<std::string, std::string> where;
  std::string text(const std::string& words, const std::string& at) {
    return text(words, words, at);
  }
  // `key`: what must be the same for the words to stand for it.
  std::string text(const std::string& key, const std::string& words, const std::string& at) {
    if (words.empty()) return "–";
    const auto [known, is_new] = where.try_emplace(key, at);
    return is_new ? words : "as at " + known->second;
  }
};

}  // namespace

void add_monitoring(AdvicePages& pages) {
  if (!pages.advice().monitoring || pages.advice().monitoring->visits.empty()) return;
  const MonitoringPlan& plan = *pages.advice().monitoring;
  Flow& flow = pages.open("Monitoring plan", "monitoring");
  flow.paragraph(
      "Visits called by an event have no day of their own: whoever runs the works calls them. A "
      "look is no assessment of risk; where something is found, a qualified arborist decides.",
      kNote);
  SaidOnce looks, acts, trees, sources;
  ReasonsTold told;
  std::vector<Row> rows;
  for (std::size_t i = 0; i < plan.visits.size(); ++i) {
    const Visit& visit = plan.visits[i];
    const std::string number = "V" + std::to_string(i + 1);
    rows.push_back(
        {{{number, layout::kTableBold},
          {visit.title + "\n" + when_of(visit)},
          {trees.text(every_tree_of(visit), trees_of(pages, visit, told), number), kTiny},
          {looks.text(lines_of(visit.look_at), number), kTiny},
          {acts.text(lines_of(visit.act_if), number), kTiny},
          {sources.text(cited(visit.from), number), kTiny}},
         true,
         false,
         "visit:" + visit.id});
  }
  table(flow,
        {{"No.", 0.7},
         {"Visit and when", 2.7},
         {"Trees", 3},
         {"Look at, and write down", 3.4},
         {"Act if", 3.4},
         {"Source; status", 1.8}},
        rows);
  if (!plan.notes.empty()) flow.paragraph(note_texts(plan.notes), kNote);
}

// ---- replacement --------------------------------------------------------------------------------

namespace {

std::string money(double amount, const std::string& currency) {
  return currency + " " + with_thousands(amount, 0);
}

std::string money_of(const MoneyRange& range) {
  if (range.low == range.high) return money(range.low, range.currency);
  return money(range.low, range.currency) + " to " + with_thousands(range.high, 0);
}

std::string owed_words(const AdvicePages& pages, const std::optional<Length>& diameter,
                       const std::optional<double>& trees, const std::optional<Money>& fee) {
  std::vector<std::string> parts;
  if (diameter) parts.push_back(pages.book.words.stem(*diameter, 1) + " of stem");
  if (trees) parts.push_back(shortest_number(*trees) + (*trees == 1 ? " tree" : " trees"));
  if (fee) parts.push_back("or " + money(fee->amount, fee->currency));
  return parts.empty() ? "nothing" : joined(parts, ", ");
}

std::string total_words(const AdvicePages& pages, const OwedTotal& total) {
  if (total.trees == 0) return "no tree";
  std::string text = total.complete() ? "" : "at least ";
  text += owed_words(pages, total.diameter_owed, total.trees_owed, total.fee);
  if (total.allowed)
    text += "; free of it " + pages.book.words.stem(total.free) + " of " +
            pages.book.words.stem(total.removed);
  if (!total.complete()) text += "; without " + pages.labels(total.left_out);
  return text;
}

bool owed_for_all(const OwedTotal& total) {
  return total.diameter_owed || total.trees_owed || total.fee;
}

std::string tree_words(const AdvicePages& pages, const RuleReplacement& rule,
                       const std::string& tree) {
  for (const TreeOwed& owed : rule.trees) {
    if (owed.tree != tree) continue;
    if (owed.refused) return "no answer: " + owed.refused->message;
    if (!owed.diameter_owed && !owed.trees_owed && !owed.fee)  // the rule counts them together
      return owed_for_all(rule.wanted) || owed_for_all(rule.with_advised) ? "in the sum below"
                                                                          : "nothing";
    std::string text = owed_words(pages, owed.diameter_owed, owed.trees_owed, owed.fee);
    if (!owed.figures.empty()) text += mark(weakest(owed.figures, Status::published));
    return text;
  }
  return "–";
}

std::string guarantee_words(const RuleReplacement& rule) {
  if (!rule.guarantee) return "none";
  const GuaranteeAdvice& g = *rule.guarantee;
  std::vector<std::string> lines{g.amount ? money_of(*g.amount) : "enter first: " + g.needs};
  for (const ReleaseStage& stage : g.stages) {
    std::string line = stage.share ? share(*stage.share) : "released";
    if (stage.months) line += " after " + fixed_number(*stage.months, 0) + " months";
    if (!stage.condition.empty()) line += ", " + stage.condition;
    if (stage.amount) line += " (" + money_of(*stage.amount) + ")";
    lines.push_back(line);
  }
  lines.push_back("(" + cited(g.from) + ")");
  return joined(lines, "\n");
}

// One column a rule, as many as can be read side by side.
constexpr std::size_t kRulesAbreast = 4;

template <class Words>
Row row_of(const std::string& name, const std::vector<const RuleReplacement*>& rules,
           const Words& words, bool bold = false) {
  Row row;
  row.cells = {{name, layout::kTableBold}};
  for (const RuleReplacement* rule : rules)
    row.cells.push_back({words(*rule), bold ? layout::kTableBold : layout::kTableText});
  return row;
}

void add_rules(AdvicePages& pages, Flow& flow, const std::vector<const RuleReplacement*>& rules) {
  const ReplacementAdvice& advice = pages.advice().replacement;
  std::vector<layout::Column> columns{{"", 1.6}};
  for (const RuleReplacement* rule : rules) columns.push_back({rule->title, 3});
  std::vector<Row> rows;
  const auto add_trees = [&](const std::vector<std::string>& ids, const char* why) {
    for (const std::string& id : ids)
      rows.push_back(row_of(pages.label(id) + " (" + why + ")", rules,
                            [&](const RuleReplacement& r) { return tree_words(pages, r, id); }));
  };
  add_trees(advice.wanted, "wanted gone");
  add_trees(advice.advised, "advised only");
  rows.push_back(row_of(
      "Owed for those wanted gone", rules,
      [&](const RuleReplacement& r) { return total_words(pages, r.wanted); }, true));
  rows.back().opens_group = true;
  rows.push_back(row_of(
      "And with those advised", rules,
      [&](const RuleReplacement& r) { return total_words(pages, r.with_advised); }, true));
  rows.push_back(row_of("Held as a guarantee", rules,
                        [&](const RuleReplacement& r) { return guarantee_words(r); }));
  table(flow, columns, rows);
}

}  // namespace

void add_replacement(AdvicePages& pages) {
  const ReplacementAdvice& advice = pages.advice().replacement;
  if (advice.rules.empty() && advice.not_applied.empty()) return;
  Flow& flow = pages.open("Replacement and guarantee", "replacement");
  flow.paragraph(
      "What each chosen rule asks for the trees that go. Rules stand side by side and are never "
      "averaged; local law prevails. Money is the rule's own, in its own currency. " +
          joined(advice.cautions, " "),
      kNote);
  std::vector<const RuleReplacement*> rules;
  for (const RuleReplacement& rule : advice.rules) {
    rules.push_back(&rule);
    if (rules.size() < kRulesAbreast) continue;
    add_rules(pages, flow, rules);
    rules.clear();
  }
  if (!rules.empty()) add_rules(pages, flow, rules);
  std::vector<std::string> odd;
  for (const RuleReplacement& rule : advice.rules) {
    for (const TableAnomaly& anomaly : rule.anomalies)
      odd.push_back("▲ " + rule.title + ": " + anomaly.sentence());
    if (!rule.notes.empty()) odd.push_back(rule.title + ": " + note_texts(rule.notes));
  }
  for (const Error& unknown : advice.not_applied) odd.push_back(unknown.sentence());
  if (!odd.empty()) flow.bullets(odd, layout::kSmall);
}

// ---- the submittal checklist --------------------------------------------------------------------

namespace {

constexpr double kBox = 2.5;

// Told apart without colour: a full box, a box with a stroke across, an open heavy box, a ring.
void draw_state(Pen& pen, Place at, SubmittalState state) {
  const Rect box{at.x, at.y, kBox, kBox};
  switch (state) {
    case SubmittalState::present:
      pen.rect(box, {0.25, kInk}, layout::kInkFill, "state:present");
      return;
    case SubmittalState::not_applicable:
      pen.rect(box, {0.18, layout::kQuiet}, layout::kWhiteFill, "state:not-applicable");
      pen.line({box.x, box.bottom()}, {box.right(), box.y}, {0.18, kInk}, "state:not-applicable");
      return;
    case SubmittalState::missing:
      pen.rect(box, {0.6, kInk}, layout::kWhiteFill, "state:missing");
      return;
    case SubmittalState::yours:
      pen.disc(box.centre(), kBox / 2, {0.3, kInk}, layout::kWhiteFill, "state:yours");
      return;
  }
}

Row checklist_row(const AdvicePages& pages, const SubmittalLine& line) {
  std::string text = line.text;
  if (!line.subjects.empty()) {
    std::vector<std::string> labels;
    for (const std::string& id : line.subjects) labels.push_back(pages.label(id));
    text += " (" + joined(labels, ", ") + ")";
  }
  Row row;
  row.name = "checklist:" + line.id;
  const SubmittalState state = line.state;
  row.cells = {{line.id, weighted(kTiny, layout::Weight::bold)},
               {line.item + mark(line.status), kTiny},
               {"",
                kTiny,
                {},
                1,
                [state](Pen& pen, const Rect& box) {
                  draw_state(pen, {box.x, box.y}, state);
                },
                kBox},
               {std::string(to_text(line.state)),
                weighted(kTiny, state == SubmittalState::missing ? layout::Weight::bold
                                                                 : layout::Weight::regular)},
               {text, kTiny}};
  return row;
}

std::string count_words(const std::vector<SubmittalLine>& lines) {
  std::map<SubmittalState, std::size_t> counts;
  for (const SubmittalLine& line : lines) ++counts[line.state];
  std::vector<std::string> parts;
  for (const auto& [state, count] : counts)
    parts.push_back(std::to_string(count) + " " + std::string(to_text(state)));
  return std::to_string(lines.size()) + " lines: " + joined(parts, ", ") + ".";
}

}  // namespace

void add_checklist(AdvicePages& pages) {
  const std::vector<SubmittalLine>& lines = pages.advice().checklist;
  if (lines.empty()) return;
  Flow& flow = pages.open("Submittal checklist", "checklist");
  flow.paragraph(count_words(lines) +
                     " What authorities ask for, and whether this project has it. Full box: "
                     "present, by a check of the data or because the output was made. Heavy open "
                     "box: missing. Box with a stroke: does not apply. Ring: only a person can "
                     "answer. No authority asks for all of it; the one in charge decides. " +
                     legend_of_marks(),
                 kNote);
  std::vector<Row> rows;
  std::string group;
  for (const SubmittalLine& line : lines) {
    if (line.group != group) {
      group = line.group;
      Row head;
      head.opens_group = head.keeps_with_next = true;
      head.cells = {{sentence_case(group), layout::kTableBold, {}, 5}};
      rows.push_back(std::move(head));
    }
    rows.push_back(checklist_row(pages, line));
  }
  table(flow,
        {{"Id", 0.8}, {"Asked for", 5.2}, {"", 0.55}, {"State", 1.7}, {"Why, or what to enter", 6}},
        rows);
}

}  // namespace rootstead
