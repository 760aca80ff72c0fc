#include <algorithm>
#include <array>

#include "engine/base/text.hpp"
#include "report/bars.hpp"
#include "report/book.hpp"
#include "report/plan_drawing.hpp"
#include "report/sheet_parts.hpp"

namespace rootstead {

using layout::Cell;
using layout::coloured;
using layout::Flow;
using layout::Hatch;
using layout::kGrey;
using layout::kInk;
using layout::kSmall;
using layout::Pen;
using layout::Place;
using layout::Rect;
using layout::Role;
using layout::Row;
using layout::sized;
using layout::TextStyle;
using layout::Weight;

namespace {

constexpr std::array kActions{Action::keep,           Action::keep_with_measures,
                              Action::assess_further, Action::transplant,
                              Action::remove,         Action::undecided};
constexpr std::size_t kTopTrees = 6, kTopCautions = 3;

void add_title(Book& book, Flow& flow) {
  const ProjectSettings& s = book.site().settings;
  const double width = flow.format().text_width();
  Pen pen = flow.pen();
  const Place top = flow.cursor();
  pen.target("cover", {0, 0});
  pen.bookmark(1, "Summary", "cover");
  pen.rect({top.x, top.y, 16, 1.1}, layout::kNoStroke, layout::kAccentFill, "accent");
  pen.tagged(Role::paragraph, [&] {
    pen.text({top.x, top.y + 4}, "Trees and the ground beneath them: what the works would do",
             layout::kOverline);
  });
  flow.space(10.5);
  const std::string title = s.title.empty() ? "Untitled project" : s.title;
  const double size = pen.measure(title, layout::kTitle, width).h > 26 ? 20 : 27;
  Rect box{};
  pen.tagged(Role::heading1,
             [&] { box = pen.block(flow.cursor(), width, title, sized(layout::kTitle, size)); });
  flow.space(box.h + 1.5);
  if (!s.address.empty()) flow.paragraph(s.address, coloured(sized(layout::kBody, 11), kGrey));
  if (s.demo) {
    flow.space(1);
    const Rect band = flow.take(9);
    flow.pen().tagged(Role::paragraph, [&] {
      Pen p = flow.pen();
      draw_demo_band(p, {band.x, band.y}, band.w);
    });
  }
  flow.space(3);
}

void add_facts(Book& book, Flow& flow) {
  const ProjectSettings& s = book.site().settings;
  std::string rules;
  for (const std::string& id : s.rules) rules += (rules.empty() ? "" : "; ") + rule_name(book, id);
  const std::string by = s.author + (s.credentials.empty() ? "" : "\n" + s.credentials);
  std::string status = s.status.empty() ? "not stated" : s.status;
  if (!s.revision.empty()) status += "\nRevision " + s.revision;
  const std::array<std::pair<const char*, std::string>, 6> facts{
      {{"Prepared for", s.client},
       {"Prepared by", by},
       {"Date", s.date},
       {"Rules applied, the first governs the drawings", rules},
       {"Status", status},
       {"Grid",
        book.site().system.name.empty() ? book.site().system.code : book.site().system.name}}};
  const double column = flow.format().text_width() / 3;
  for (std::size_t row = 0; row < facts.size(); row += 3) {
    double height = 0;
    Pen pen = flow.pen();
    for (std::size_t i = row; i < row + 3; ++i) {
      const double x = flow.cursor().x + double(i - row) * column, w = column - 5;
      const std::string value = facts[i].second.empty() ? "not stated" : facts[i].second;
      pen.tagged(Role::paragraph, [&] {
        const Rect label = pen.block({x, flow.cursor().y}, w, facts[i].first,
                                     sized(layout::kSmallGrey, layout::kSmallestType));
        const Rect text = pen.block({x, label.bottom() + 0.4}, w, value, sized(layout::kBody, 8.6));
        height = std::max(height, text.bottom() - label.y);
      });
    }
    flow.space(height + 3.5);
  }
}

// One strip of the page's width, shared out by tree counts, in the order of the counts above it.
void draw_strip(Pen& pen, const Rect& box, const std::array<std::size_t, 6>& counts,
                std::size_t all) {
  constexpr std::array kPatterns{Hatch::none,    Hatch::dots,  Hatch::rising,
                                 Hatch::squares, Hatch::solid, Hatch::dashes};
  double x = box.x;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    const double w = all == 0 ? 0 : box.w * double(counts[i]) / double(all);
    if (w <= 0) continue;
    pen.rect({x, box.y, w, box.h}, {0.2, kInk}, {kPatterns[i], kInk, 1.05, 0.16}, "strip");
    x += w;
  }
}

void draw_swatch(Pen& pen, const Rect& box, std::size_t action) {
  std::array<std::size_t, 6> one{};
  one[action] = 1;
  draw_strip(pen, box, one, 1);
}

void add_counts(Book& book, Flow& flow) {
  std::array<std::size_t, 6> counts{};
  std::size_t affected = 0;
  for (const TreeAssessment& tree : book.assessment().trees) {
    const auto at = std::find(kActions.begin(), kActions.end(), tree.verdict.action);
    ++counts[std::size_t(at - kActions.begin())];
    affected += tree.affected();
  }
  const std::size_t all = book.assessment().trees.size();
  flow.heading(2, std::to_string(all) + (all == 1 ? " tree, " : " trees, ") +
                      std::to_string(affected) + " reached by the " +
                      std::to_string(book.site().works.size()) + " works");
  const Rect strip = flow.take(5);
  Pen pen = flow.pen();
  pen.tagged(Role::figure, [&] { draw_strip(pen, strip, counts, all); });
  flow.space(2.5);
  const Rect box = flow.take(17);
  const double column = box.w / double(kActions.size());
  for (std::size_t i = 0; i < kActions.size(); ++i) {
    const double x = box.x + double(i) * column;
    const TextStyle number{.points = 19,
                           .weight = Weight::light,
                           .tabular = true,
                           .display = true,
                           .colour = counts[i] == 0 ? layout::kQuiet : kInk};
    pen.tagged(Role::paragraph, [&] {
      const Rect n = pen.text({x, box.y}, std::to_string(counts[i]), number, "count");
      draw_swatch(pen, {x, n.bottom() + 1, 3, 3}, i);
      pen.block({x + 4, n.bottom() + 0.9}, column - 5,
                sentence_case(std::string(to_text(kActions[i]))),
                coloured(sized(kSmall, 7.2), counts[i] == 0 ? kGrey : kInk));
    });
  }
}

// Of the graver answer, so that the reason is one for the concern beside it.
std::string main_reason(const Verdict& verdict) {
  const auto about = verdict.stability > verdict.vitality && verdict.stability != Concern::unknown
                         ? Reason::About::stability
                         : Reason::About::vitality;
  for (const Reason& reason : verdict.reasons)
    if (reason.about == about || reason.about == Reason::About::tree) return reason.text;
  if (!verdict.reasons.empty()) return verdict.reasons.front().text;
  return verdict.missing.empty() ? "" : "Missing: " + verdict.missing.front();
}

// The verdict is of the works as drawn; what is meant may be another thing, and the protection plan
// follows what is meant.
void add_intents(Book& book, Flow& flow) {
  std::vector<std::string> gone, moved;
  for (const Tree& tree : book.site().trees) {
    if (tree.intent == Intent::remove) gone.push_back(tree.label());
    if (tree.intent == Intent::move) moved.push_back(tree.label());
  }
  if (gone.empty() && moved.empty()) return;
  std::vector<std::string> parts;
  if (!gone.empty()) parts.push_back("removed: " + joined(gone, ", "));
  if (!moved.empty()) parts.push_back("moved: " + joined(moved, ", "));
  flow.paragraph("Meant by the client, whatever the verdict, to be " + joined(parts, "; ") +
                     ". The protection plan and what is to be done follow that.",
                 sized(layout::kBody, 8.4));
}

Cell concern_cell(Concern concern) {
  Cell cell{std::string("\u2003\u2003\u2003") + std::string(to_text(concern))};
  cell.draw = [concern](Pen& pen, const Rect& box) {
    draw_concern(pen, {box.x, box.y + 0.5}, concern, 1.9);
  };
  return cell;
}

void add_top_trees(Book& book, Flow& flow, std::size_t most) {
  const auto trees = most_important(book.plan, most);
  if (trees.empty()) return;
  flow.heading(2, "Look at these first");
  std::vector<Row> rows;
  for (const TreeAssessment* assessed : trees) {
    const Tree* tree = tree_of(book.plan, *assessed);
    if (tree == nullptr) continue;
    const Verdict& v = assessed->verdict;
    Row row;
    row.cells = {{tree->label(), layout::kTableBold, target_of(book, *assessed)},
                 {name_of(*tree)},
                 {sentence_case(std::string(to_text(v.action))), layout::kTableBold},
                 concern_cell(v.vitality),
                 concern_cell(v.stability),
                 {main_reason(v)}};
    rows.push_back(std::move(row));
  }
  table(flow,
        {{"Tree", 0.8},
         {"Species", 2},
         {"Verdict", 1.7},
         {"Concern, vitality", 1.8},
         {"Concern, stability", 1.8},
         {"First reason", 5.6}},
        rows);
}

void add_first_cautions(Book& book, Flow& flow) {
  const auto& all = book.assessment().cautions;
  if (all.empty()) return;
  flow.heading(2, "Before anyone digs");
  flow.bullets({all.begin(), all.begin() + std::ptrdiff_t(std::min(kTopCautions, all.size()))},
               sized(layout::kBody, 8.4));
  book.cover_link = flow.take(4);
}

}  // namespace

// The summary is one page: as many trees as leave room for the cautions.
void add_cover(Book& book) {
  for (std::size_t trees = kTopTrees + 1; trees-- > 0;) {
    book.pages.clear();
    Flow flow = book.portrait();
    add_title(book, flow);
    add_facts(book, flow);
    add_counts(book, flow);
    add_intents(book, flow);
    add_top_trees(book, flow, trees);
    add_first_cautions(book, flow);
    if (book.pages.size() == 1) return;
  }
}

}  // namespace rootstead
