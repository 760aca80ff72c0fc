// The method statement: what a crew does, numbered, each with its reason and what that rests on.
#include <algorithm>
#include <map>

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

// "STORM-DRAIN-2 (114, 130)", as much of it as the heading does not say.
std::string place_of(const AdvicePages& pages, const MethodGroup& group,
                     const std::vector<std::string>& trees, const Prescription& p) {
  const std::string labels = pages.labels(trees);
  if (group.about == MethodGroup::About::tree) return {};
  if (group.about != MethodGroup::About::works) return labels;
  return labels.empty() ? p.work : p.work + " (" + labels + ")";
}

// Places where the very same is done, then the words, then what differs elsewhere.
std::string text_of(const AdvicePages& pages, const MethodGroup& group, const MethodLine& line) {
  std::vector<std::string> places{place_of(pages, group, line.trees, line.prescription)};
  std::vector<std::string> others;
  for (const AlikeLine& one : line.alike) {
    std::string place = place_of(pages, group, one.trees, one.prescription);
    if (one.figures.empty()) {
      places.push_back(std::move(place));
    } else {
      others.push_back((place.empty() ? "" : place + ": ") + joined(one.figures, ", "));
    }
  }
  const std::string first = joined(places, "; ");
  std::string text = (first.empty() ? "" : first + ": ") + line.prescription.text;
  if (!others.empty()) text += "\nThe same with other figures: " + joined(others, "; ") + ".";
  return text;
}

std::string why_of(const MethodLine& line) {
  const Prescription& p = line.prescription;
  std::string why = p.reason + (p.reason.empty() ? "" : " ") + "(" + cited(p.from) + ")";
  std::vector<std::string> others;
  for (const AlikeLine& one : line.alike)
    if (!one.reason_figures.empty()) others.push_back(joined(one.reason_figures, ", "));
  if (!others.empty()) why += "\nIn their order: " + joined(others, "; ") + ".";
  return why;
}

// Each reason in full where it first stands; later lines name that one.
class Reasons {
 public:
  std::string of(const MethodLine& line) {
    const auto [first, is_new] = told_.emplace(why_of(line), line.number);
    return is_new ? first->first : "As " + first->second + ".";
  }

 private:
  std::map<std::string, std::string> told_;
};

Row line_row(const AdvicePages& pages, const MethodGroup& group, const MethodLine& line,
             Reasons& reasons) {
  Row row;
  row.name = "method:" + line.number;
  row.cells = {
      {line.number, kNumber}, {text_of(pages, group, line), kDo}, {reasons.of(line), kWhy}};
  return row;
}

std::vector<Row> rows_of(const AdvicePages& pages, const MethodGroup& group, Reasons& reasons) {
  std::vector<Row> rows;
  for (const MethodTopic& topic : group.topics) {
    Row head;
    head.opens_group = true;
    head.keeps_with_next = true;
    head.cells = {{sentence_case(topic.head), kTopic, {}, 3}};
    rows.push_back(std::move(head));
    for (const MethodLine& line : topic.lines)
      rows.push_back(line_row(pages, group, line, reasons));
  }
  return rows;
}

std::string heading_of(const Book& book, const MethodGroup& group) {
  switch (group.about) {
    case MethodGroup::About::site:
      return "The whole site";
    case MethodGroup::About::works:
      return "Several works alike";
    case MethodGroup::About::trees:
      return "Several trees alike";
    case MethodGroup::About::work: {
      const Work* work = book.site().work(group.id);
      const std::string text = work_name(book, group.id);
      if (work == nullptr) return text;
      return text + ": " + std::string(to_text(work->kind)) + ", " +
             std::string(to_text(work->state));
    }
    case MethodGroup::About::tree: {
      const Tree* tree = book.site().tree(group.id);
      return tree == nullptr ? group.id : tree->label() + " " + name_of(*tree);
    }
  }
  return {};
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
          "by work, then tree by tree. What is the same in several places stands once, with the "
          "figures of each. In small type why, and in brackets the source and how far it was read; "
          "\"As M2\" means the reason given there. Have all buried services located and marked "
          "before any digging. Keep "
          "people clear while roots are cut, and stop at once if a tree or the ground round its "
          "base moves. Roots are where they are: expose before cutting. Counts of roots and "
          "anchorage are ranges of a model (our assumption). Local law and licensed practice "
          "prevail.",
      layout::kSmallGrey);
  Reasons reasons;
  for (const MethodGroup& group : pages.groups) {
    const bool of_work = group.about == MethodGroup::About::work;
    flow.heading(2, heading_of(pages.book, group), of_work ? "method-" + group.id : std::string());
    if (of_work) {
      add_cuts(pages, flow, group.id);
      const std::string shared = lines_of_works_alike(pages.groups, group.id);
      if (!shared.empty()) flow.paragraph("Here too: " + shared + ".", layout::kSmall);
    }
    table(flow, {{"No.", 1}, {"What to do", 8.6}, {"Why, and what it rests on", 5.4}},
          rows_of(pages, group, reasons));
  }
}

}  // namespace rootstead
