#include <algorithm>
#include <array>
#include <set>

#include "report/book.hpp"
#include "report/plan_drawing.hpp"

namespace rootstead {

using layout::Flow;
using layout::Row;

namespace {

const layout::TextStyle kTrail = sized(layout::kTableText, 6.6);

// Figures of one rule or model share most of their inputs: each is told where it is first used.
class Trail {
 public:
  std::string inputs_of(const Figure& f) {
    begin(f);
    std::string inputs;
    bool known = false;
    for (const FigureInput& input : f.inputs) {
      const std::string text = input.symbol + " = " + input.value;
      if (!told_.insert(text).second) {
        known = true;
      } else {
        inputs += (inputs.empty() ? "" : ", ") + text;
      }
    }
    if (known) inputs += inputs.empty() ? "inputs as above" : ", others as above";
    return inputs;
  }

 private:
  // "bs5837-2012" of "bs5837-2012.root-protection-area.radius".
  void begin(const Figure& f) {
    const std::string about = f.name.substr(0, f.name.find('.'));
    if (about != about_) told_.clear();
    about_ = about;
  }
  std::string about_;
  std::set<std::string> told_;
};

Row figure_row(const Book& book, const Figure& f, Trail& trail) {
  std::string how = f.formula;
  const std::string inputs = trail.inputs_of(f);
  if (!inputs.empty()) how += (how.empty() ? "" : "; ") + inputs;
  std::string from = f.from.source;
  if (!f.from.place.empty()) from += ", " + f.from.place;
  Row row;
  row.cells = {{f.name, kTrail},
               {book.words.figure(f), weighted(kTrail, layout::Weight::bold)},
               {how, kTrail},
               {from, kTrail},
               {mark(f.from.status) + " " + std::string(to_text(f.from.status)), kTrail}};
  return row;
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
      "works. "
      "Left out are figures that are exactly nil, areas on the way to a share, and single works, "
      "which "
      "have the trail of the joint figure; the command `why` gives those too. Inputs stand as they "
      "were computed, in metres; an input of the same rule or model that was told for the tree "
      "already is not told again. " +
          legend_of_marks(),
      layout::kSmallGrey);
  std::vector<Row> rows;
  for (const TreeAssessment& assessed : book.assessment().trees) {
    const Tree* tree = tree_of(book.plan, assessed);
    if (tree == nullptr || !assessed.affected()) continue;
    Row head;
    head.opens_group = true;
    head.keeps_with_next = true;
    head.cells = {{tree->label() + "  " + name_of(*tree), sized(layout::kTableBold, 8.4),
                   target_of(book, assessed), 5}};
    rows.push_back(std::move(head));
    Trail trail;
    for (const Figure& figure : figures_of(assessed)) {
      if (worth_printing(figure)) rows.push_back(figure_row(book, figure, trail));
    }
  }
  table(flow,
        {{"Figure", 4.0},
         {"Value", 2.7},
         {"Formula and inputs", 6.6},
         {"Source", 3.3},
         {"Status", 2.0}},
        rows);
}

}  // namespace rootstead
