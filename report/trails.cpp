#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>

#include "engine/base/text.hpp"
#include "report/book.hpp"
#include "report/plan_drawing.hpp"

namespace rootstead {

using layout::Flow;
using layout::Row;

namespace {

const layout::TextStyle kTrail = sized(layout::kTableText, 7.0);
const layout::TextStyle kValue = sized(layout::kTableBold, 7.0);

std::string input_text(const FigureInput& input) {
  return input.symbol + " = " + input.value;
}

// Figures made by one formula from one source, of whichever tree. What they share is told once:
// the formula, the source, the status, and the inputs that are the same for all of them.
struct Derivation {
  std::string formula, source;
  Status status = Status::published;
  std::vector<std::string> shared;  // inputs
  std::size_t uses = 0;
};

class Derivations {
 public:
  void take(const Figure& f) {
    const auto [at, is_new] = index_.emplace(key_of(f), all_.size());
    if (is_new) {
      std::string from = f.from.source;
      if (!f.from.place.empty()) from += ", " + f.from.place;
      all_.push_back({f.formula, std::move(from), f.from.status, {}, 0});
      for (const FigureInput& input : f.inputs) all_.back().shared.push_back(input_text(input));
    }
    Derivation& kind = all_[at->second];
    ++kind.uses;
    std::erase_if(kind.shared, [&](const std::string& known) {
      return std::none_of(f.inputs.begin(), f.inputs.end(),
                          [&](const FigureInput& input) { return input_text(input) == known; });
    });
  }
  std::size_t of(const Figure& f) const { return index_.at(key_of(f)); }
  const std::vector<Derivation>& all() const { return all_; }
  static std::string name(std::size_t i) { return std::to_string(i + 1); }

  bool shares(const Figure& f, const std::string& input) const {
    const auto& shared = all_[of(f)].shared;
    return std::find(shared.begin(), shared.end(), input) != shared.end();
  }

 private:
  static std::string key_of(const Figure& f) {
    return f.formula + "\n" + f.from.source + "\n" + f.from.place + "\n" +
           std::string(to_text(f.from.status));
  }
  std::map<std::string, std::size_t> index_;
  std::vector<Derivation> all_;
};

// Of one tree: inputs that were told for it already are not told again.
class Inputs {
 public:
  std::string own(const Derivations& kinds, const Figure& f) {
    const std::string about = f.name.substr(0, f.name.find('.'));
    if (about != about_) told_.clear();
    about_ = about;
    std::string text;
    bool known = false;
    for (const FigureInput& input : f.inputs) {
      const std::string one = input_text(input);
      if (kinds.shares(f, one)) continue;
      if (told_.insert(one).second)
        text += (text.empty() ? "" : ", ") + one;
      else
        known = true;
    }
    return known && !text.empty() ? text + ", others as above" : known ? "inputs as above" : text;
  }

 private:
  std::string about_;  // "bs5837-2012" of "bs5837-2012.root-protection-area.radius"
  std::set<std::string> told_;
};

// "48.45 kg (26.97 to 87.03)" of "48.45 kg (26.97 kg to 87.03 kg)".
std::string unit_once(std::string text) {
  const std::size_t range = text.find(" (");
  if (range == std::string::npos || text.back() != ')') return text;
  const std::size_t number = std::min(text.find_first_not_of("-0123456789.,"), range);
  const std::string unit = text.substr(number, range - number);
  if (unit.empty()) return text;
  for (std::size_t at = range; (at = text.find(unit, at)) != std::string::npos;) {
    const char next = text[at + unit.size()];
    if (next == ')' || next == ' ')
      text.erase(at, unit.size());
    else
      at += unit.size();
  }
  return text;
}

using Cells = std::vector<layout::Cell>;

Cells cells_of(const Book& book, const Derivations& kinds, const Figure& f, Inputs& inputs) {
  return {{f.name, kTrail},
          {unit_once(book.words.figure(f)), kValue},
          {inputs.own(kinds, f), kTrail},
          {Derivations::name(kinds.of(f)) + mark(f.from.status), kTrail}};
}

constexpr double kTight = 0.35;                        // mm
constexpr std::size_t kInputs = 2, kLongInputs = 130;  // the cell, letters

// Two figures a row, the second half of a tree's beside the first. A long list of inputs stands in
// a row of its own below, so that its neighbours need not wait for it.
std::vector<Row> in_two_columns(const std::vector<Cells>& figures) {
  const std::size_t half = (figures.size() + 1) / 2;
  std::vector<Row> rows;
  for (std::size_t i = 0; i < half; ++i) {
    Row pair;
    std::vector<Row> below;
    pair.name = "trail";
    pair.pad = kTight;
    for (const std::size_t at : {i, half + i}) {
      if (at >= figures.size()) continue;
      Cells cells = figures[at];
      if (cells[kInputs].text.size() > kLongInputs) {
        Row row;
        row.name = "trail";
        row.pad = kTight;
        row.cells = {cells[0], {std::exchange(cells[kInputs].text, "below"), kTrail, {}, 8}};
        below.push_back(std::move(row));
      }
      if (at != i) pair.cells.push_back({""});
      pair.cells.insert(pair.cells.end(), cells.begin(), cells.end());
    }
    pair.keeps_with_next = !below.empty();
    rows.push_back(std::move(pair));
    for (Row& row : below) rows.push_back(std::move(row));
  }
  return rows;
}

void add_derivations(Flow& flow, const Derivations& kinds) {
  std::vector<Row> rows;
  for (std::size_t i = 0; i < kinds.all().size(); ++i) {
    const Derivation& one = kinds.all()[i];
    std::string how = one.formula;
    if (!one.shared.empty()) how += (how.empty() ? "" : "; ") + joined(one.shared, ", ");
    Row row;
    row.pad = kTight;
    row.name = "derivation:" + Derivations::name(i);
    row.cells = {{Derivations::name(i), kValue},
                 {how, kTrail},
                 {one.source, kTrail},
                 {mark(one.status) + " " + std::string(to_text(one.status)), kTrail}};
    rows.push_back(std::move(row));
  }
  table(flow,
        {{"No.", 0.8}, {"Formula, and inputs alike for all", 9}, {"Source", 4}, {"Status", 2}},
        rows);
}

// What a page shows. A figure that is nil and certain adds nothing; areas on the way to a share,
// and the shares of single works, have the trail of the joint figure. `why` answers for all of
// them.
bool worth_printing(const Figure& f) {
  if (f.value == 0 && !f.range) return false;
  if (f.name.ends_with("-area") && !f.name.ends_with("zone-area")) return false;
  constexpr std::array kOfOneWork{"affected-share.", "existing-share.", "absorbing-loss."};
  return std::none_of(kOfOneWork.begin(), kOfOneWork.end(),
                      [&](const char* part) { return f.name.find(part) != std::string::npos; });
}

}  // namespace

void add_trails(Book& book) {
  Flow flow = book.landscape();
  book.open_chapter(flow, "Where the figures come from", "trails");
  flow.paragraph(
      "Value, formula, inputs, source and status of the figures of every tree reached by the "
      "works. Formula, source and status stand once, numbered, with the inputs that are "
      "the same for all trees; then tree by tree the values, the inputs of its own and the number "
      "of the formula. Left out are figures that are exactly nil, areas on the way to a share, and "
      "single works, which have the trail of the joint figure; the command `why` gives those too. "
      "Inputs stand as they were computed, in metres; an input of the same rule or model that was "
      "told for the tree already is not told again. " +
          legend_of_marks(),
      layout::kSmallGrey);
  Derivations kinds;
  for (const TreeAssessment& assessed : book.assessment().trees) {
    if (!assessed.affected()) continue;
    for (const Figure& figure : figures_of(assessed))
      if (worth_printing(figure)) kinds.take(figure);
  }
  add_derivations(flow, kinds);
  std::vector<Row> rows;
  for (const TreeAssessment& assessed : book.assessment().trees) {
    const Tree* tree = tree_of(book.plan, assessed);
    if (tree == nullptr || !assessed.affected()) continue;
    Row head;
    head.opens_group = true;
    head.heads_group = true;
    head.keeps_with_next = true;
    head.cells = {{tree->label() + "  " + name_of(*tree), sized(layout::kTableBold, 8.4),
                   target_of(book, assessed), 9}};
    rows.push_back(std::move(head));
    Inputs inputs;
    std::vector<Cells> figures;
    for (const Figure& figure : figures_of(assessed))
      if (worth_printing(figure)) figures.push_back(cells_of(book, kinds, figure, inputs));
    for (Row& row : in_two_columns(figures)) rows.push_back(std::move(row));
  }
  const std::vector<layout::Column> half{
      {"Figure", 5.2}, {"Value", 3.3}, {"Inputs of its own", 4.4}, {"No.", 0.9}};
  std::vector<layout::Column> columns = half;
  columns.push_back({"", 0.3});
  columns.insert(columns.end(), half.begin(), half.end());
  table(flow, columns, rows);
}

}  // namespace rootstead
