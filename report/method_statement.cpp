// The method statement: what a crew does, numbered, each with its reason and what that rests on.
#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <string_view>

#include "engine/base/text.hpp"
#include "report/advice_pages.hpp"
#include "report/plan_drawing.hpp"

namespace rootstead {

using layout::Flow;
using layout::Row;
using layout::sized;

namespace {

const layout::TextStyle kDo = sized(layout::kTableText, 7.8);
const layout::TextStyle kWhy = coloured(sized(layout::kTableText, 7.0), layout::kGrey);
const layout::TextStyle kAlike = sized(layout::kTableText, 7.2);
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

// Long lists of works and trees recur from line to line: each gets a name and is told once.
class Places {
 public:
  std::string of(const std::string& list) {
    if (list.size() <= kShort) return list;
    const auto [known, is_new] = names_.emplace(list, Places::name(names_.size()));
    if (is_new) lists_.push_back(list);
    return "At places " + known->second;
  }
  const std::vector<std::string>& lists() const { return lists_; }
  std::size_t count() const { return lists_.size(); }
  static std::string name(std::size_t i) { return "L" + std::to_string(i + 1); }

 private:
  static constexpr std::size_t kShort = 48;
  std::map<std::string, std::string> names_;
  std::vector<std::string> lists_;
};

// Places where the very same is done, then the words.
std::string text_of(const AdvicePages& pages, const MethodGroup& group, const MethodLine& line,
                    Places& places) {
  std::vector<std::string> at{place_of(pages, group, line.trees, line.prescription)};
  for (const AlikeLine& one : line.alike)
    if (one.figures.empty()) at.push_back(place_of(pages, group, one.trees, one.prescription));
  const std::string where = places.of(joined(at, "; "));
  return (where.empty() ? "" : where + ": ") + line.prescription.text;
}

std::optional<double> amount_in(const Prescription& p, std::string_view name) {
  for (const Figure& figure : p.figures)
    if (figure.name == "protection." + std::string(name)) return figure.value;
  return {};
}

// A word that is not torn at the end of a line.
std::string unbroken(std::string text) {
  for (std::size_t at = 0; (at = text.find(' ', at)) != std::string::npos;)
    text.replace(at, 1, "\u00A0");
  return text;
}

// "F1 19.03 m to 97.11 m" of a stretch, else its figures in their order.
std::string figures_of(const AlikeLine& one) {
  const auto& f = one.figures;
  const bool run = amount_in(one.prescription, "stretch") || amount_in(one.prescription, "dig");
  if (!run || f.size() != 3) return joined(f, ", ");
  return unbroken(f[0] + " " + f[1] + " to " + f[2]);
}

// "40 stretches, 1,204.10 m in all": what is measured along or over the ground.
std::string total_of(const AmountText& amounts, const MethodLine& line) {
  for (const char* name : {"stretch", "dig", "root-cut", "cover", "no-dig"}) {
    const auto first = amount_in(line.prescription, name);
    if (!first) continue;
    double sum = *first;
    for (const AlikeLine& one : line.alike) sum += amount_in(one.prescription, name).value_or(0);
    const bool area = std::string_view(name) == "cover" || std::string_view(name) == "no-dig";
    return std::to_string(line.alike.size() + 1) + " in all, together " +
           (area ? amounts.area(Area::square_metres(sum)) : amounts.length(Length::metres(sum))) +
           ".";
  }
  return {};
}

constexpr double kWithHeading = 48;  // mm: a heading never stands alone at the foot of a page
constexpr std::size_t kFine = 24;    // columns beside the number, so that lists can stand in 2 to 4
constexpr std::size_t kDoFine = 14;

// A place where the same is done with other figures. A sentence that names its tree need not name
// it again among them.
struct Other {
  std::string place;
  std::vector<std::string> figures, why;
  std::string run;  // "D11 6.54 m to 6.93 m", where it is a stretch
};

Other other_of(const AdvicePages& pages, const MethodGroup& group, const AlikeLine& one) {
  Other other{
      place_of(pages, group, one.trees, one.prescription), one.figures, one.reason_figures, {}};
  if (one.figures.size() == 3) {
    std::string run = figures_of(one);
    if (run != joined(one.figures, ", ")) other.run = std::move(run);
  }
  std::erase(other.figures, other.place);
  std::erase(other.why, other.place);
  return other;
}

// "116: 1,288 L, 7,543 L (why: 83 %, 94 %)", or the place alone.
std::string words_of(const Other& other) {
  std::string text = other.run.empty() ? joined(other.figures, ", ") : other.run;
  if (!other.why.empty())
    text += (text.empty() ? "" : " ") + std::string("(why: ") + joined(other.why, ", ") + ")";
  if (other.place.empty()) return text;
  return text.empty() ? other.place : other.place + ": " + text;
}

constexpr std::size_t kManyFigures = 4, kMostFigures = 7;  // of one place
constexpr std::size_t kNarrow = 11, kNarrowSpan = 3;       // letters that fit, fine columns

// Many figures stand below one another, each kind in its own column, a place a row, the sentence's
// own first; no rows where they do not fit.
std::vector<Row> as_table(const std::vector<Other>& all, const std::string& name) {
  const std::size_t many = all.front().figures.size(), whys = all.front().why.size();
  if (many < kManyFigures || many + whys > kMostFigures) return {};
  std::vector<Row> rows;
  for (const Other& one : all) {
    if (one.figures.size() != many || one.why.size() != whys) return {};
    std::vector<std::string> texts{one.place};
    texts.insert(texts.end(), one.figures.begin(), one.figures.end());
    texts.insert(texts.end(), one.why.begin(), one.why.end());
    Row row;
    row.name = name;
    row.pad = 0.1;
    row.cells = {{""}};
    for (std::string& text : texts) {
      if (text.size() > kNarrow) return {};
      row.cells.push_back({std::move(text), kAlike, {}, kNarrowSpan});
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

// In as many columns as the longest of them allows; a few, or long ones, run on in one.
std::vector<layout::Cell> in_columns(const std::vector<std::string>& others) {
  constexpr std::size_t kShort = 9;  // letters
  constexpr std::array<std::pair<std::size_t, std::size_t>, 3> kLongest{
      {{27, 4}, {37, 3}, {56, 2}}};
  std::size_t longest = 0;
  for (const std::string& one : others) longest = std::max(longest, one.size());
  for (const auto& [letters, columns] : kLongest) {
    if (longest < kShort || longest > letters || others.size() < columns) continue;
    const std::size_t lines = (others.size() + columns - 1) / columns;
    std::vector<layout::Cell> cells;
    for (std::size_t from = 0; from < others.size(); from += lines) {
      const auto first = others.begin() + static_cast<std::ptrdiff_t>(from);
      const auto last =
          others.begin() + static_cast<std::ptrdiff_t>(std::min(from + lines, others.size()));
      cells.push_back({joined({first, last}, "\n"), kAlike, {}, kFine / columns});
    }
    return cells;
  }
  return {{joined(others, longest < kShort ? ", " : "; ") + ".", kAlike, {}, kFine}};
}

// What differs elsewhere; empty where nothing does.
std::vector<Row> others_of(const AdvicePages& pages, const MethodGroup& group,
                           const MethodLine& line) {
  std::vector<Other> all{
      other_of(pages, group, {line.trees, line.prescription, line.figures, line.reason_figures})};
  std::vector<std::string> others;
  bool only_places = true;
  for (const AlikeLine& one : line.alike) {
    if (one.figures.empty()) continue;
    all.push_back(other_of(pages, group, one));
    others.push_back(words_of(all.back()));
    only_places = only_places && others.back() == all.back().place;
  }
  if (others.empty()) return {};
  std::vector<Row> rows = as_table(all, "method:" + line.number);
  const bool is_table = !rows.empty();
  const std::string total = total_of(pages.amounts(), line);
  Row head;
  head.name = "method:" + line.number;
  head.cells = {{""},
                {(only_places ? std::string("The same for:")
                  : is_table  ? "The same with other figures, in the order of the sentence" +
                                   std::string(all.front().why.empty() ? "" : " and its reason") +
                                   ", which come first:"
                             : std::string("The same with other figures:")) +
                     (total.empty() ? "" : " " + total),
                 kAlike,
                 {},
                 kFine}};
  head.keeps_with_next = true;
  if (is_table) {
    rows.insert(rows.begin(), std::move(head));
    return rows;
  }
  Row list;
  list.name = head.name;
  list.cells = in_columns(others);
  if (list.cells.size() == 1) {
    head.cells.back().text += " " + list.cells.front().text;
    head.keeps_with_next = false;
    return {head};
  }
  list.cells.insert(list.cells.begin(), {""});
  return {head, list};
}

std::string why_of(const MethodLine& line) {
  const Prescription& p = line.prescription;
  std::string why = p.reason + (p.reason.empty() ? "" : " ") + "(" + cited(p.from) + ")";
  std::vector<std::string> others;
  for (const AlikeLine& one : line.alike)
    if (one.figures.empty() && !one.reason_figures.empty())
      others.push_back(joined(one.reason_figures, ", "));
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

struct Told {
  Reasons reasons;
  Places places;
};

void add_line(const AdvicePages& pages, const MethodGroup& group, const MethodLine& line,
              Told& told, std::vector<Row>& rows) {
  Row row;
  row.name = "method:" + line.number;
  row.cells = {{line.number, kNumber},
               {text_of(pages, group, line, told.places), kDo, {}, kDoFine},
               {told.reasons.of(line), kWhy, {}, kFine - kDoFine}};
  std::vector<Row> others = others_of(pages, group, line);
  row.keeps_with_next = !others.empty();
  rows.push_back(std::move(row));
  for (Row& one : others) rows.push_back(std::move(one));
}

std::vector<Row> rows_of(const AdvicePages& pages, const MethodGroup& group, Told& told) {
  std::vector<Row> rows;
  for (const MethodTopic& topic : group.topics) {
    Row head;
    head.opens_group = true;
    head.keeps_with_next = true;
    head.cells = {{sentence_case(topic.head), kTopic, {}, 1 + kFine}};
    rows.push_back(std::move(head));
    for (const MethodLine& line : topic.lines) add_line(pages, group, line, told, rows);
  }
  return rows;
}

std::vector<layout::Column> method_columns() {
  std::vector<layout::Column> columns(1 + kFine);
  columns[0] = {"No.", 1.72};
  columns[1] = {"What to do", 1, layout::Align::left, kDoFine};
  columns[1 + kDoFine] = {"Why, and what it rests on", 1, layout::Align::left, kFine - kDoFine};
  return columns;
}

// The lists that got their name in this group, before it.
void add_places(Flow& flow, const Places& places, std::size_t from) {
  std::vector<Row> rows;
  for (std::size_t i = from; i < places.count(); ++i) {
    Row row;
    row.name = "places:" + Places::name(i);
    row.cells = {{Places::name(i), kNumber}, {places.lists()[i], layout::kTableText}};
    rows.push_back(std::move(row));
  }
  if (!rows.empty()) table(flow, {{"Places", 1}, {"Works, with the trees met there", 14}}, rows);
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
        {{"Roots cut of", 0.9},
         {"Nearest to the trunk", 2.2},
         {"Least / preferred", 2.1},
         {"So it is", 2.5},
         {"Depth of the cut", 1.9},
         {us ? "Roots of 1 / 2 / 4 in and more" : "Roots of 25 / 50 / 100 mm and more", 2.4},
         {"Anchorage kept, all works", 2.1}},
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
          "\"As M2\" means the reason given there, \"places L1\" the list of that name. Have all "
          "buried services located and marked "
          "before any digging. Keep "
          "people clear while roots are cut, and stop at once if a tree or the ground round its "
          "base moves. Roots are where they are: expose before cutting. Counts of roots and "
          "anchorage are ranges of a model (our assumption). Local law and licensed practice "
          "prevail.",
      layout::kSmallGrey);
  Told told;
  for (const MethodGroup& group : pages.groups) {
    flow.need(kWithHeading);
    const bool of_work = group.about == MethodGroup::About::work;
    flow.heading(2, heading_of(pages.book, group), of_work ? "method-" + group.id : std::string());
    if (of_work) {
      add_cuts(pages, flow, group.id);
      const std::string shared = lines_of_works_alike(pages.groups, group.id);
      if (!shared.empty()) flow.paragraph("Here too: " + shared + ".", layout::kSmall);
    }
    const std::size_t known = told.places.count();
    const std::vector<Row> rows = rows_of(pages, group, told);
    add_places(flow, told.places, known);
    table(flow, method_columns(), rows);
  }
}

}  // namespace rootstead
