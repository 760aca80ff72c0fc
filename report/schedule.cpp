#include "engine/base/text.hpp"
#include "report/book.hpp"
#include "report/plan_drawing.hpp"

namespace rootstead {

using layout::Flow;
using layout::Row;

namespace {

std::string join_lines(std::initializer_list<std::string> parts, std::string_view separator) {
  std::vector<std::string> kept;
  for (const std::string& part : parts) {
    if (!part.empty()) kept.push_back(part);
  }
  return joined(kept, separator);
}

template <class Word>
std::string known(Word value) {
  return value == Word::unknown ? "" : std::string(to_text(value));
}

std::string crown_text(const Tree& tree) {
  if (!tree.crown) return "–";
  const auto& r = tree.crown->radius;
  std::string text;
  constexpr const char* kSides[] = {"N ", "E ", "S ", "W "};
  for (std::size_t i = 0; i < r.size(); ++i)
    text += (i == 0 ? "" : i == 2 ? "\n" : "  ") + std::string(kSides[i]) + entered(r[i]);
  if (tree.crown->base_height) text += "\nbase " + entered(tree.crown->base_height);
  return text;
}

std::string flare_text(const Tree& tree) {
  std::string flare = known(tree.flare.state);
  if (tree.flare.buried_by) flare += " by " + entered(tree.flare.buried_by);
  if (!flare.empty()) flare = "flare " + flare;
  std::string lean;
  if (tree.lean) {
    lean = "lean " + degrees(tree.lean->from_vertical) + " to " + degrees(tree.lean->towards);
  }
  std::string basal;
  if (tree.basal_diameter) basal = "base " + entered(tree.basal_diameter);
  const std::string text = join_lines({basal, flare, lean}, "\n");
  return text.empty() ? "–" : text;
}

std::string position_text(const Tree& tree) {
  if (!tree.position) return "no position";
  const Point& p = tree.position->at;
  std::string source = tree.position->source;
  if (tree.position->error) source += " ±" + entered(tree.position->error);
  return join_lines({fixed_number(p.x, 1) + "\n" + fixed_number(p.y, 1), source}, "\n");
}

std::string zone_text(const Book& book, const TreeAssessment& assessed) {
  std::string text;
  for (const Zone* zone : main_zones(assessed)) {
    if (!text.empty()) text += "\n";
    text += book.words.length(zone->radius) + mark(zone->figure.from.status) + ", " +
            book.words.area(zone->area);
    if (zone->capped) text += ", capped";
    if (zone->raised) text += ", raised";
    if (zone->redrawn) text += ", redrawn";
  }
  return text.empty() ? "no zone" : text;
}

Row schedule_row(const Book& book, const TreeAssessment& assessed, const Tree& tree) {
  const std::string form = known(tree.form);
  const std::string botanical = tree.botanical_name == name_of(tree) ? "" : tree.botanical_name;
  Row row;
  row.name = "schedule:" + tree.id;
  row.cells = {{tree.label(), layout::kTableBold, target_of(book, assessed)},
               {join_lines({name_of(tree), botanical, form}, "\n")},
               {stems_of(tree)},
               {entered(tree.height)},
               {crown_text(tree)},
               {join_lines({known(tree.stage), known(tree.condition)}, "\n")},
               {flare_text(tree)},
               {position_text(tree)},
               {join_lines({tree.ownership, tree.protection, tree.category}, "\n")},
               {zone_text(book, assessed)},
               {sentence_case(std::string(to_text(assessed.verdict.action))), layout::kTableBold},
               {join_lines({sentence_case(intent_words(tree)), tree.notes}, "\n")}};
  return row;
}

}  // namespace

void add_schedule(Book& book) {
  Flow flow = book.landscape();
  book.open_chapter(flow, "Tree schedule", "schedule");
  flow.paragraph(
      "Stems as they were entered, each with the height it was measured at where that was noted; "
      "everything derived is computed for each rule by itself. Root zones are those drawn on the "
      "plan: "
      "of the first rule with a clause for the tree, and the structural zone of the next where "
      "that has "
      "none. Eastings and northings in metres. Raised letters: ᵖ published, ᶜ common practice, ᵐ "
      "from "
      "memory, ᵃ our assumption.",
      layout::kSmallGrey);
  std::vector<Row> rows;
  for (const TreeAssessment& assessed : book.assessment().trees) {
    if (const Tree* tree = tree_of(book.plan, assessed))
      rows.push_back(schedule_row(book, assessed, *tree));
  }
  table(flow,
        {{"Tree", 1.2},
         {"Species and form", 3.2},
         {"Stems as entered", 3},
         {"Height", 1.2},
         {"Crown radii", 2.7},
         {"Stage, condition", 1.8},
         {"Base, flare, lean", 2.3},
         {"Position", 2.1},
         {"Owner, protection, category", 2.4},
         {"Root zone", 2.4},
         {"Verdict", 1.9},
         {"Notes", 2.8}},
        rows);
}

}  // namespace rootstead
