// The method statement: what a crew does, numbered, each with its reason and what that rests on.
#include <algorithm>

#include "engine/base/text.hpp"
#include "report/advice_pages.hpp"
#include "report/plan_drawing.hpp"

namespace rootstead {

using layout::Flow;
using layout::Row;
using layout::sized;

namespace {

const layout::TextStyle kDo = sized(layout::kTableText, 8.2);
const layout::TextStyle kWhy = coloured(sized(layout::kTableText, 6.6), layout::kGrey);
const layout::TextStyle kNumber = sized(layout::kTableBold, 8.2);
const layout::TextStyle kTopic = coloured(sized(layout::kTableBold, 7.4), layout::kAccent);

std::string why_of(const Prescription& p) {
  return p.reason + (p.reason.empty() ? "" : " ") + "(" + cited(p.from) + ")";
}

Row line_row(const AdvicePages& pages, const MethodGroup& group, const MethodLine& line) {
  std::string text = line.prescription.text;
  if (!line.trees.empty() && group.tree.empty())
    text = pages.labels(line.trees) + ": " + text;
  Row row;
  row.name = "method:" + line.number;
  row.cells = {{line.number, kNumber}, {text, kDo}, {why_of(line.prescription), kWhy}};
  return row;
}

std::vector<Row> rows_of(const AdvicePages& pages, const MethodGroup& group) {
  std::vector<Row> rows;
  for (const MethodTopic& topic : group.topics) {
    Row head;
    head.opens_group = true;
    head.keeps_with_next = true;
    head.cells = {{sentence_case(topic.head), kTopic, {}, 3}};
    rows.push_back(std::move(head));
    for (const MethodLine& line : topic.lines) rows.push_back(line_row(pages, group, line));
  }
  return rows;
}

std::string heading_of(const Book& book, const MethodGroup& group) {
  if (!group.work.empty()) {
    const Work* work = book.site().work(group.work);
    std::string text = work_name(book, group.work);
    if (work == nullptr) return text;
    return text + ": " + std::string(to_text(work->kind)) + ", " +
           std::string(to_text(work->state));
  }
  if (group.alike) return "Several trees alike";
  if (group.tree.empty()) return "The whole site";
  const Tree* tree = book.site().tree(group.tree);
  return tree == nullptr ? group.tree : tree->label() + " " + name_of(*tree);
}

// "3 to 8 / 1 to 3 / up to 1"
std::string roots_expected(const CutAdvice& cut) {
  if (!cut.expected) return "no model";
  std::vector<std::string> parts;
  for (const Range& r : *cut.expected) parts.push_back(number_span(r, 0));
  return joined(parts, " / ");
}

std::string nearest_of(const AmountText& amounts, const CutAdvice& cut) {
  if (!cut.nearest) return "not known";
  std::string text = amounts.length(*cut.nearest);
  if (cut.nearest_diameters) text += " (" + fixed_number(*cut.nearest_diameters, 1) + " D)";
  return text;
}

std::string allowed_of(const AmountText& amounts, const CutDistance& distance) {
  if (!distance.least) return "–";
  std::string text = amounts.length(*distance.least);
  if (distance.preferred) text += " / " + amounts.length(*distance.preferred);
  return text;
}

Row cut_row(const AdvicePages& pages, const CutAdvice& cut) {
  const AmountText amounts = pages.amounts();
  std::string depth = amounts.length(cut.depth);
  if (cut.depth_assumed) depth += mark(Status::assumption);
  if (cut.hand_depth) depth += ", by hand to " + amounts.length(*cut.hand_depth);
  Row row;
  row.name = "cut:" + cut.tree + ":" + cut.work;
  row.cells = {{pages.label(cut.tree), layout::kTableBold},
               {nearest_of(amounts, cut)},
               {allowed_of(amounts, cut.distance)},
               {sentence_case(std::string(to_text(cut.nearness)))},
               {depth},
               {roots_expected(cut)},
               {cut.anchorage_kept ? share_of(*cut.anchorage_kept) : "–"}};
  return row;
}

void add_cuts(AdvicePages& pages, Flow& flow, const std::string& work) {
  std::vector<Row> rows;
  std::vector<std::string> present;
  for (const TreeAdvice& tree : pages.advice().trees) {
    for (const CutAdvice& cut : tree.cuts) {
      if (cut.work != work) continue;
      rows.push_back(cut_row(pages, cut));
      for (const std::string& who : cut.present)
        if (std::find(present.begin(), present.end(), who) == present.end()) present.push_back(who);
    }
  }
  if (rows.empty()) return;
  const bool us = pages.book.words.us();
  table(flow,
        {{"Roots cut of", 1.3},
         {"Nearest to the trunk", 1.8},
         {"Least / preferred", 2},
         {"So it is", 1.9},
         {"Depth of the cut", 2.2},
         {us ? "Roots of 1 / 2 / 4 in and more" : "Roots of 25 / 50 / 100 mm and more", 2.4},
         {"Anchorage kept, all works", 1.7}},
        rows);
  if (!present.empty())
    flow.paragraph("Who must be present: " + joined(present, "; ") + ".", layout::kSmall);
}

std::size_t lines_in(const std::vector<MethodGroup>& groups) {
  std::size_t count = 0;
  for (const MethodGroup& group : groups)
    for (const MethodTopic& topic : group.topics) count += topic.lines.size();
  return count;
}

}  // namespace

void add_method_statement(AdvicePages& pages) {
  if (pages.groups.empty()) return;
  Flow& flow = pages.open("Method statement", "method-statement");
  flow.paragraph(
      std::to_string(lines_in(pages.groups)) +
          " things to do, each once and each with its number: first on the whole site, then work "
          "by work, then tree by tree. In small type why, and in brackets the source and how far "
          "it was read. Have all buried services located and marked before any digging. Keep "
          "people clear while roots are cut, and stop at once if a tree or the ground round its "
          "base moves. Roots are where they are: expose before cutting. Counts of roots and "
          "anchorage are ranges of a model (our assumption). Local law and licensed practice "
          "prevail.",
      layout::kSmallGrey);
  for (const MethodGroup& group : pages.groups) {
    flow.heading(2, heading_of(pages.book, group),
                 group.work.empty() ? std::string() : "method-" + group.work);
    if (!group.work.empty()) add_cuts(pages, flow, group.work);
    table(flow, {{"No.", 1}, {"What to do", 8.6}, {"Why, and what it rests on", 5.4}},
          rows_of(pages, group));
  }
}

}  // namespace rootstead
