// The two answers of a tree's page, side by side and never joined.
#include <algorithm>
#include <array>

#include "engine/base/text.hpp"
#include "engine/roots/palm_regrowth.hpp"
#include "report/bars.hpp"
#include "report/book.hpp"
#include "report/plan_drawing.hpp"

namespace rootstead {

using layout::Align;
using layout::aligned;
using layout::Flow;
using layout::kInk;
using layout::Pen;
using layout::Place;
using layout::Rect;
using layout::Role;
using layout::sized;
using layout::TextStyle;
using layout::Weight;
using layout::weighted;

namespace {

constexpr double kPanelGutter = 7;
const TextStyle kPanelNote = sized(layout::kSmall, 7.4);

struct Measure {
  std::string label, value;
  bool range = false;
  Range bounds;
  std::vector<double> limits;
  bool passed = false;
};

Measure measure_of(const Book& book, const ZoneAssessment& z) {
  Measure m;
  // On a palm's page it need not be said that its zone is that of palms.
  m.label = z.zone.name.substr(0, z.zone.name.find(" (")) + ", r " +
            book.words.length(z.zone.radius) + mark(z.zone.figure.from.status) + " · " +
            z.zone.rule;
  m.value = share(z.loss.share);
  m.bounds.best = z.loss.share;
  m.limits = share_limits(book, z);
  m.passed = std::any_of(z.limits.begin(), z.limits.end(),
                         [](const LimitResult& l) { return l.passed_over; });
  return m;
}

// One line of a panel: words over a bar, the value at the right. Returns the height taken.
double draw_measure(Pen& pen, Place at, double width, const Measure& m) {
  const TextStyle value = aligned(weighted(kPanelNote, Weight::bold), Align::right);
  const Rect right = pen.text({at.x + width, at.y}, m.value + (m.passed ? " ▲" : ""), value);
  const Rect label =
      pen.text(at, pen.shortened(m.label, kPanelNote, right.x - at.x - 2), kPanelNote, "measure");
  const Rect bar{at.x, label.bottom() + 0.6, width, kBarHeight};
  if (m.range)
    draw_range_bar(pen, bar, m.bounds, m.limits);
  else
    draw_share_bar(pen, bar, m.bounds.best, m.limits);
  return bar.bottom() + 1.5 - at.y;
}

std::vector<Measure> vitality_measures(const Book& book, const TreeAssessment& tree) {
  std::vector<Measure> all;
  for (const ZoneAssessment& z : tree.zones) {
    if (z.zone.purpose != ZonePurpose::stability) all.push_back(measure_of(book, z));
  }
  if (tree.roots) {
    const Status status =
        tree.estimate ? weakest(tree.estimate->figures, Status::assumption) : Status::assumption;
    all.push_back({"Absorbing roots lost, an estimate" + mark(status),
                   share_of(tree.roots->all),
                   true,
                   tree.roots->all,
                   {},
                   false});
  }
  return all;
}

std::vector<Measure> stability_measures(const Book& book, const TreeAssessment& tree) {
  std::vector<Measure> all;
  for (const ZoneAssessment& z : tree.zones) {
    if (z.zone.purpose == ZonePurpose::stability) all.push_back(measure_of(book, z));
  }
  if (tree.anchorage) {
    all.push_back({"Anchorage kept, weakest wind" + mark(tree.anchorage->figure.from.status),
                   share_of(tree.anchorage->kept),
                   true,
                   tree.anchorage->kept,
                   {},
                   false});
  }
  return all;
}

double panel_head(Pen& pen, Place at, double width, const std::string& title, Concern concern) {
  pen.line(at, {at.x + width, at.y}, {0.5, kInk});
  const Rect head = pen.text({at.x, at.y + 1.4}, title, layout::kHeading3, "panel");
  const std::string word =
      concern == Concern::none ? "no concern" : "concern: " + std::string(to_text(concern));
  const Rect text =
      pen.text({at.x + width, at.y + 1.8}, word, aligned(kPanelNote, Align::right), "concern-word");
  draw_concern(pen, {text.x - 9.5, at.y + 2.1}, concern);
  return head.bottom() + 1.6 - at.y;
}

std::string cut_sentence(const Book& book, const AnchorageKept& kept) {
  std::string text;
  if (kept.nearest_cut)
    text += "Nearest cut " + book.words.length(*kept.nearest_cut) + " from the trunk face. ";
  if (!kept.works.empty()) {
    text += "Weakest with wind from " + degrees(kept.worst_from) +
            " (line on the circle; the full "
            "circle is as before). ";
  }
  if (kept.outside_tests) text += "Outside the range that was tested. ";
  return text;
}

// "3 to 8", "up to 2", "0"
std::string number_range(const Range& range) {
  const std::string low = fixed_number(range.low, 0), high = fixed_number(range.high, 0);
  if (low == "0") return high == "0" ? "0" : "up to " + high;
  return low == high ? low : low + " to " + high;
}

// The work that is likely to meet most thick roots.
const RootsMet* heaviest_met(const TreeAssessment& tree) {
  const RootsMet* heaviest = nullptr;
  for (const RootsMet& met : tree.roots_met)
    if (!met.pieces.empty() && (!heaviest || met.expected[0].best > heaviest->expected[0].best))
      heaviest = &met;
  return heaviest;
}

// "W10 is likely to meet up to 2 roots of 25 mm, 0 of 50 mm ...", or that it meets hardly any.
std::string met_sentence(const RootsMet& met, const std::array<const char*, 3>& thick,
                         double unlikely) {
  if (met.chance[0].best < unlikely)
    return met.work + " is unlikely to meet a root of " + thick[0] + " or more. ";
  if (fixed_number(met.expected[0].high, 0) == "0")
    return met.work + " is not likely to meet a root of " + thick[0] + " or more: the chance is " +
           percent(met.chance[0].best, 0) + ". ";
  return met.work + " is likely to meet " + number_range(met.expected[0]) +
         (fixed_number(met.expected[0].high, 0) == "1" ? " root of " : " roots of ") + thick[0] +
         ", " + number_range(met.expected[1]) + " of " + thick[1] + ", " +
         number_range(met.expected[2]) + " of " + thick[2] +
         " and more; chance of any: " + percent(met.chance[0].best, 0) + ", " +
         percent(met.chance[1].best, 0) + ", " + percent(met.chance[2].best, 0) + ". ";
}

// What stands behind the range, and what would narrow it.
std::string roots_sentence(const Book& book, const TreeAssessment& tree) {
  std::string text;
  const double unlikely = book.plan.tables->parameter("verdict.root_unlikely").best;
  const bool us = book.words.us();
  const std::array<const char*, 3> thick =
      us ? std::array{"1 in", "2 in", "4 in"} : std::array{"25 mm", "50 mm", "100 mm"};
  if (const RootsMet* met = heaviest_met(tree)) text += met_sentence(*met, thick, unlikely);
  if (tree.roots && tree.roots->before_evidence)
    text += "Before what was found on site: " + share_of(*tree.roots->before_evidence) + ". ";
  if (tree.roots && !tree.roots->influences.empty())
    text += "Most of the range comes from " + tree.roots->influences.front().meaning + " (" +
            percent(tree.roots->influences.front().share, 0) +
            " of the spread); to narrow it: " + tree.roots->influences.front().narrowed_by + ". ";
  if (tree.roots && tree.roots->next_pit)
    text += "Best next pit: " + book.words.length(tree.roots->next_pit->from_stem) +
            " from the stem at " + degrees(tree.roots->next_pit->bearing) + ". ";
  const Tree* surveyed = tree_of(book.plan, tree);
  if (surveyed && surveyed->is_monocot() && tree.affected())
    text += in_words(
        palm_regrowth(book.plan.tables->species_of(surveyed->botanical_name), *book.plan.tables));
  return text;
}

double vitality_foot(const Book& book, Pen& pen, Place at, double width,
                     const TreeAssessment& tree) {
  const std::string text = roots_sentence(book, tree);
  if (text.empty()) return 0;
  return pen.block(at, width - 2, text, layout::kSmallGrey, "roots-note").h + 1;
}

double stability_foot(const Book& book, Pen& pen, Place at, double width,
                      const TreeAssessment& tree) {
  if (!tree.anchorage) return 0;
  constexpr double kRose = 7;
  const AnchorageKept& kept = *tree.anchorage;
  draw_rose(pen, {at.x + width - kRose - 1, at.y + kRose + 1}, kRose, kept);
  const Rect text = pen.block(at, width - 2 * kRose - 5, cut_sentence(book, kept),
                              layout::kSmallGrey, "anchorage-note");
  return std::max(text.h, 2 * kRose + 2.5);
}

}  // namespace

void add_panels(Book& book, Flow& flow, const TreeAssessment& tree) {
  const auto vitality = vitality_measures(book, tree);
  const auto stability = stability_measures(book, tree);
  const double width = (flow.format().text_width() - kPanelGutter) / 2;
  Pen pen = flow.pen();
  const Place left = flow.cursor(), right{left.x + width + kPanelGutter, left.y};
  double left_end = 0, right_end = 0;
  pen.tagged(Role::figure, [&] {
    left_end = panel_head(pen, left, width, "Vitality", tree.verdict.vitality);
    for (const Measure& m : vitality)
      left_end += draw_measure(pen, {left.x, left.y + left_end}, width, m);
    left_end += vitality_foot(book, pen, {left.x, left.y + left_end}, width, tree);
  });
  pen.tagged(Role::figure, [&] {
    right_end = panel_head(pen, right, width, "Stability", tree.verdict.stability);
    for (const Measure& m : stability)
      right_end += draw_measure(pen, {right.x, right.y + right_end}, width, m);
    right_end += stability_foot(book, pen, {right.x, right.y + right_end}, width, tree);
  });
  flow.space(std::max(left_end, right_end) + 2.5);
}

}  // namespace rootstead
