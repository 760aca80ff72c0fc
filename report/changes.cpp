// What changed since the last issue: things, answers of trees before and after, limits.
#include <algorithm>

#include "engine/base/text.hpp"
#include "report/bars.hpp"
#include "report/book.hpp"

namespace rootstead {

using layout::Cell;
using layout::Flow;
using layout::Pen;
using layout::Rect;
using layout::Row;
using layout::sized;

namespace {

using Measure = LimitDefinition::Measure;

const std::string kNotKnown = "not known";

std::string label_of(const Book& book, const std::string& tree) {
  const Tree* surveyed = book.site().tree(tree);
  return surveyed == nullptr ? tree : surveyed->label();
}

std::string species_of(const Book& book, const std::string& tree) {
  const Tree* surveyed = book.site().tree(tree);
  return surveyed == nullptr ? "not in this state" : name_of(*surveyed);
}

// Of a work that came: what it is.
std::string made_as(const Book& book, const std::string& id) {
  const Work* work = book.site().work(id);
  if (work == nullptr) return "–";
  std::string text(to_text(work->kind));
  if (work->width) text += ", " + book.words.length(work->width->length(), 2) + " wide";
  if (work->depth) text += ", " + book.words.length(work->depth->length(), 2) + " deep";
  return text;
}

std::string difference_of(const Book& book, const ThingChange& thing) {
  std::vector<std::string> lines;
  if (thing.moved)
    lines.push_back("lies elsewhere, by up to " + book.words.length(*thing.moved, 2));
  for (const FieldChange& field : thing.fields) {
    const auto shown = [](const std::string& text) { return text.empty() ? "–" : text; };
    lines.push_back(field.field + ": " + shown(field.before) + " → " + shown(field.after));
  }
  if (lines.empty() && thing.sort == ChangedSort::work) return made_as(book, thing.id);
  return lines.empty() ? "–" : joined(lines, "\n");
}

std::string name_with_id(const ThingChange& thing) {
  return thing.name == thing.id ? thing.id : thing.name + " (" + thing.id + ")";
}

void add_things(Book& book, Flow& flow, const std::vector<ThingChange>& things) {
  flow.heading(2, "Added, removed, changed: " + std::to_string(things.size()));
  if (things.empty()) {
    flow.paragraph("Nothing on the plan or in the survey differs.");
    return;
  }
  std::vector<Row> rows;
  for (const ThingChange& thing : things)
    rows.push_back({{{sentence_case(std::string(to_text(thing.sort)))},
                     {name_with_id(thing), layout::kTableBold},
                     {std::string(to_text(thing.how))},
                     {difference_of(book, thing)}}});
  table(flow, {{"What", 1}, {"Name", 3}, {"How", 1}, {"Difference: before → now", 7}}, rows);
}

constexpr double kBarGap = 0.7, kBarLabel = 9;

// Two bars, the earlier above the present one.
Cell bars_cell(const AnswerChange& answer) {
  Cell cell;
  cell.height = 2 * kBarHeight + kBarGap + 1;
  cell.draw = [answer](Pen& pen, const Rect& box) {
    double y = box.y + 0.4;
    for (const auto& [range, word] :
         {std::pair(answer.before, "before"), std::pair(answer.after, "now")}) {
      pen.text({box.x, y - 0.5}, word, sized(layout::kSmallGrey, layout::kSmallestType));
      const Rect bar{box.x + kBarLabel, y, box.w - kBarLabel, kBarHeight};
      if (range) draw_range_bar(pen, bar, *range);
      y += kBarHeight + kBarGap;
    }
  };
  return cell;
}

std::string told(const AnswerChange& answer) {
  const auto read = [](const std::optional<Range>& range) {
    return range ? share_of(*range) : kNotKnown;
  };
  return read(answer.before) + "\n" + read(answer.after);
}

// A mark besides the word, so that the eye finds what is worse.
std::string told(Trend trend) {
  switch (trend) {
    case Trend::better:
      return "△ better";
    case Trend::worse:
      return "▼ worse";
    case Trend::same:
      return "= same";
    case Trend::unknown:
      return "cannot be compared";
  }
  return "";
}

std::string told(const std::optional<Action>& before, const std::optional<Action>& after) {
  const auto read = [](const std::optional<Action>& action) {
    return action ? std::string(to_text(*action)) : std::string("not there");
  };
  return before == after ? read(after) : read(before) + "\n→ " + read(after);
}

Row tree_row(const Book& book, const TreeChange& change) {
  const bool worse = change.health.trend == Trend::worse || change.stability.trend == Trend::worse;
  Row row;
  row.cells = {{label_of(book, change.tree), worse ? layout::kTableBold : layout::kTableText},
               {species_of(book, change.tree)},
               bars_cell(change.health),
               {told(change.health)},
               {told(change.health.trend), layout::kTableBold},
               bars_cell(change.stability),
               {told(change.stability)},
               {told(change.stability.trend), layout::kTableBold},
               {told(change.before, change.after)}};
  return row;
}

std::size_t count_of(const Comparison& changes, Trend trend, AnswerChange TreeChange::*answer) {
  return static_cast<std::size_t>(
      std::count_if(changes.trees.begin(), changes.trees.end(),
                    [&](const TreeChange& tree) { return (tree.*answer).trend == trend; }));
}

std::string counts_of(const Comparison& changes, AnswerChange TreeChange::*answer) {
  return std::to_string(count_of(changes, Trend::worse, answer)) + " worse, " +
         std::to_string(count_of(changes, Trend::better, answer)) + " better";
}

void add_trees(Book& book, Flow& flow, const Comparison& changes) {
  flow.heading(2, "Trees whose answers changed: " + std::to_string(changes.trees.size()));
  flow.paragraph("Health: " + counts_of(changes, &TreeChange::health) +
                 ". Stability: " + counts_of(changes, &TreeChange::stability) +
                 ". The same in both: " + std::to_string(changes.trees_same) + " other trees.");
  flow.paragraph(trend_rule(), layout::kSmallGrey);
  if (changes.trees.empty()) return;
  std::vector<Row> rows;
  for (const TreeChange& tree : changes.trees) rows.push_back(tree_row(book, tree));
  table(flow,
        {{"Tree", 0.8},
         {"Species", 1.8},
         {"Health: fine roots lost" + mark(Status::assumption), 2.6, layout::Align::left, 3},
         {"", 1.6},
         {"", 1.2},
         {"Stability: anchorage kept" + mark(Status::assumption), 2.6, layout::Align::left, 3},
         {"", 1.6},
         {"", 1.2},
         {"Verdict", 2.2}},
        rows);
}

const LimitDefinition* definition_of(const Book& book, const LimitChange& change) {
  const ZoneRule* rule = book.plan.tables->rule(change.rule);
  if (rule == nullptr) return nullptr;
  const auto found =
      std::find_if(rule->limits.begin(), rule->limits.end(),
                   [&](const LimitDefinition& one) { return one.id == change.limit; });
  return found == rule->limits.end() ? nullptr : &*found;
}

std::string value_text(const Book& book, const LimitDefinition* limit,
                       const std::optional<double>& value) {
  if (!value) return "not asked";
  const Measure measure = limit == nullptr ? Measure::any_entry : limit->measure;
  switch (measure) {
    case Measure::any_entry:
    case Measure::area_share:
    case Measure::unsurfaced_share:
    case Measure::trench_side:
      return share(*value);
    case Measure::nearest_distance:
    case Measure::level_change:
      return book.words.length(Length::metres(*value), 2);
    case Measure::nearest_approach:
      break;
  }
  return fixed_number(*value, 2) + " of the radius";
}

void add_limits(Book& book, Flow& flow, const std::vector<LimitChange>& limits) {
  flow.heading(2, "Limits passed in one of the two states only: " + std::to_string(limits.size()));
  if (limits.empty()) {
    flow.paragraph("Every limit that is passed now was passed before, and the other way round.");
    return;
  }
  std::vector<Row> rows;
  for (const LimitChange& change : limits) {
    const LimitDefinition* limit = definition_of(book, change);
    const std::string status = limit == nullptr ? "" : mark(limit->from.status);
    rows.push_back({{{label_of(book, change.tree), layout::kTableBold},
                     {change.newly_passed ? "▲ newly passed" : "passed no longer",
                      change.newly_passed ? layout::kTableBold : layout::kTableText},
                     {change.limit + status + ", " + zone_name(book, change.rule, change.zone)},
                     {value_text(book, limit, change.before)},
                     {value_text(book, limit, change.after)},
                     {change.triggers.empty() ? "–" : change.triggers}}});
  }
  table(flow,
        {{"Tree", 0.8},
         {"Since then", 1.5},
         {"Limit", 4},
         {"Before", 1},
         {"Now", 1},
         {"What it asks", 4}},
        rows);
}

bool tells_changes(const Book& book) {
  return book.history != nullptr && book.history->changes.has_value();
}

}  // namespace

void add_changes(Book& book) {
  if (!tells_changes(book)) return;
  const RevisionHistory& history = *book.history;
  const Comparison& changes = *history.changes;
  Flow flow = book.landscape();
  book.open_chapter(flow, "What changed since revision " + history.since, "changes");
  const std::string now = history.issued
                              ? "revision " + history.mark()
                              : std::string("the project as it is now, which is not issued");
  flow.paragraph("Revision " + history.since + " is compared with " + now +
                 ". What came, went or changed is clouded on the plan sheet.");
  if (!history.notes.empty()) flow.bullets(history.notes, layout::kSmall);
  add_things(book, flow, changes.things);
  add_trees(book, flow, changes);
  add_limits(book, flow, changes.limits);
}

}  // namespace rootstead
