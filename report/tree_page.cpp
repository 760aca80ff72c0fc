#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "report/bars.hpp"
#include "report/book.hpp"
#include "report/plan_drawing.hpp"
#include "report/section.hpp"
#include "report/sheet_parts.hpp"

namespace rootstead {

using layout::Align;
using layout::aligned;
using layout::coloured;
using layout::Flow;
using layout::kAccent;
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
using layout::weighted;

namespace {

constexpr double kGutter = 7;
constexpr double kDetail = 80;  // mm, the plan detail's side
const TextStyle kNote = sized(kSmall, 7.4);

std::string facts_line(const Tree& tree) {
  std::vector<std::string> facts;
  if (!tree.botanical_name.empty() && tree.botanical_name != name_of(tree))
    facts.push_back(tree.botanical_name);
  if (tree.form != GrowthForm::unknown) facts.emplace_back(to_text(tree.form));
  std::string stems = stems_of(tree);
  std::replace(stems.begin(), stems.end(), '\n', '+');
  facts.push_back((tree.stems.size() > 1 ? "stems " : "stem ") + stems);
  if (tree.height) facts.push_back("height " + to_text(*tree.height));
  if (tree.condition != Condition::unknown) {
    facts.push_back(std::string(to_text(tree.condition)) + " condition");
  }
  if (tree.stage != LifeStage::unknown) facts.emplace_back(to_text(tree.stage));
  if (!tree.protection.empty()) facts.push_back(tree.protection);
  if (!tree.ownership.empty()) facts.push_back("owner: " + tree.ownership);
  return joined(facts, " · ");
}

void add_head(Book& book, Flow& flow, const TreeAssessment& assessed, const Tree& tree) {
  Pen pen = flow.pen();
  const double width = flow.format().text_width();
  const Place at = flow.cursor();
  const std::string target = target_of(book, assessed);
  pen.target(target, {0, 0});
  pen.bookmark(2, tree.label() + " " + name_of(tree), target);
  const std::string verdict = sentence_case(std::string(to_text(assessed.verdict.action)));
  const TextStyle right = aligned(weighted(sized(layout::kBody, 11), Weight::bold), Align::right);
  const Rect word = pen.text({at.x + width, at.y + 2.4}, verdict, right, "verdict");
  draw_stem(pen, {word.x - 5, word.centre().y}, 0.7, assessed.verdict.action, "verdict-mark");
  Rect title{};
  pen.tagged(Role::heading2, [&] {
    const double tag_width = pen.measure(tree.label() + "  ", layout::kHeading1).w;
    pen.text(at, tree.label(), coloured(layout::kHeading1, kAccent), "tree-title");
    const double room = word.x - 12 - at.x - tag_width;
    title = pen.text({at.x + tag_width, at.y},
                     pen.shortened(name_of(tree), layout::kHeading1, room), layout::kHeading1);
  });
  flow.space(title.h + 0.8);
  flow.paragraph(facts_line(tree), layout::kSmallGrey);
}

struct Measure {
  std::string label, value;
  bool range = false;
  Range bounds;
  std::vector<double> limits;
  bool passed = false;
};

std::vector<double> limits_on(const Book& book, const ZoneAssessment& z) {
  std::vector<double> shares;
  const ZoneRule* rule = book.plan.tables->rule(z.zone.rule);
  for (const LimitResult& result : z.limits) {
    for (const LimitDefinition& d : rule == nullptr ? std::vector<LimitDefinition>{} : rule->limits)
      if (d.id == result.limit && d.measure == LimitDefinition::Measure::area_share)
        shares.push_back(result.threshold);
  }
  return shares;
}

Measure measure_of(const Book& book, const ZoneAssessment& z) {
  Measure m;
  m.label = z.zone.name + " · " + z.zone.rule + " · r " + book.words.length(z.zone.radius) +
            mark(z.zone.figure.from.status);
  m.value = share(z.loss.share);
  m.bounds.best = z.loss.share;
  m.limits = limits_on(book, z);
  m.passed = std::any_of(z.limits.begin(), z.limits.end(),
                         [](const LimitResult& l) { return l.passed_over; });
  return m;
}

// One line of a panel: words over a bar, the value at the right. Returns the height taken.
double draw_measure(Pen& pen, Place at, double width, const Measure& m) {
  const TextStyle value = aligned(weighted(kNote, Weight::bold), Align::right);
  const Rect right = pen.text({at.x + width, at.y}, m.value + (m.passed ? " ▲" : ""), value);
  const Rect label =
      pen.text(at, pen.shortened(m.label, kNote, right.x - at.x - 2), kNote, "measure");
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
    all.push_back({"Absorbing roots lost, a first estimate" + mark(status),
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
      pen.text({at.x + width, at.y + 1.8}, word, aligned(kNote, Align::right), "concern-word");
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

double stability_foot(const Book& book, Pen& pen, Place at, double width,
                      const TreeAssessment& tree) {
  if (!tree.anchorage) return 0;
  constexpr double kRose = 8;
  const AnchorageKept& kept = *tree.anchorage;
  draw_rose(pen, {at.x + width - kRose - 1, at.y + kRose + 1}, kRose, kept);
  const Rect text = pen.block(at, width - 2 * kRose - 5, cut_sentence(book, kept),
                              layout::kSmallGrey, "anchorage-note");
  return std::max(text.h, 2 * kRose + 2.5);
}

void add_panels(Book& book, Flow& flow, const TreeAssessment& tree) {
  const auto vitality = vitality_measures(book, tree);
  const auto stability = stability_measures(book, tree);
  const double width = (flow.format().text_width() - kGutter) / 2;
  Pen pen = flow.pen();
  const Place left = flow.cursor(), right{left.x + width + kGutter, left.y};
  double left_end = 0, right_end = 0;
  pen.tagged(Role::figure, [&] {
    left_end = panel_head(pen, left, width, "Vitality", tree.verdict.vitality);
    for (const Measure& m : vitality)
      left_end += draw_measure(pen, {left.x, left.y + left_end}, width, m);
  });
  pen.tagged(Role::figure, [&] {
    right_end = panel_head(pen, right, width, "Stability", tree.verdict.stability);
    for (const Measure& m : stability)
      right_end += draw_measure(pen, {right.x, right.y + right_end}, width, m);
    right_end += stability_foot(book, pen, {right.x, right.y + right_end}, width, tree);
  });
  flow.space(std::max(left_end, right_end) + 2.5);
}

Box detail_ground(const TreeAssessment& assessed, const Tree& tree,
                  const std::optional<Section>& section) {
  Box box;
  widen(box, tree.position->at, 2);
  for (const Zone* zone : main_zones(assessed)) widen(box, zone->centre, zone->radius.metres());
  if (section) widen(box, offset(section->stem, section->towards, Length::metres(section->ahead)));
  return box;
}

void draw_section_line(Pen& pen, const View& view, const Section& s) {
  const Place a =
      view.place(offset(s.stem, s.towards + Angle::degrees(180), Length::metres(s.back)));
  const Place b = view.place(offset(s.stem, s.towards, Length::metres(s.ahead)));
  pen.clipped(view.frame, [&] {
    pen.line(a, b, {0.22, kAccent, {4, 0.8, 0.8, 0.8}}, "section-line");
    for (const Place& end : {a, b}) {
      const TextStyle letter{
          .points = 7, .weight = Weight::bold, .colour = kAccent, .align = Align::centre};
      const double away = end.x < view.frame.centre().x ? 1 : -1;
      pen.text({end.x + away * 2.2, end.y + 0.4}, "A", letter, "section-letter");
    }
  });
}

void draw_detail(Book& book, Pen& pen, Place at, const TreeAssessment& assessed, const Tree& tree,
                 const std::optional<Section>& section) {
  const Rect frame{at.x, at.y, kDetail, kDetail};
  const Box ground = detail_ground(assessed, tree, section);
  const UnitSystem units = book.words.units();
  const auto usual = largest_scale(ground, frame, units, 2);
  const View view{frame, middle_of(ground), usual ? *usual : overview_scale(ground, frame, units)};
  PlanParts parts;
  parts.grid = false;
  parts.only_zones_of = tree.id;
  draw_plan(pen, book.plan, view, parts);
  if (section) draw_section_line(pen, view, *section);
  pen.rect(frame, {0.25, kInk}, {}, "detail");
  draw_north_arrow(pen, {frame.x + 2.5, frame.bottom() + 9.5}, 8);
  const Rect bar = draw_scale_bar(pen, {frame.x + 10, frame.bottom() + 2.2}, 30, view.scale, units);
  pen.text({bar.right() + 4, frame.bottom() + 4.2}, book.words.scale(view.scale), kNote);
}

struct Said {
  std::string heading;
  std::vector<std::string> items;
};

std::vector<Said> said_of(const TreeAssessment& tree) {
  std::vector<Said> all;
  Said why{"Why", {}};
  for (const Reason& reason : tree.verdict.reasons) why.items.push_back(reason.text);
  Said look{"Why a person must look", {}};
  if (tree.anchorage) look.items = tree.anchorage->reasons_to_inspect;
  Said unruled{"Rules without an answer", {}};
  for (const Error& error : tree.rules_not_applied) unruled.items.push_back(error.sentence());
  for (Said& part : std::vector<Said>{why,
                                      {"What to do", tree.verdict.measures},
                                      look,
                                      {"What is missing", tree.verdict.missing},
                                      unruled}) {
    if (!part.items.empty()) all.push_back(std::move(part));
  }
  return all;
}

// Lists beside the plan, as far as they go; what is left comes back for the text below.
std::vector<Said> draw_said(Pen& pen, const Rect& box, const std::vector<Said>& all) {
  double y = box.y;
  std::vector<Said> left;
  for (const Said& part : all) {
    Said rest{part.heading, {}};
    bool headed = false;
    for (const std::string& item : part.items) {
      const double h = pen.measure(item, kNote, box.w - 3).h;
      const double head = headed ? 0 : pen.measure(part.heading, layout::kHeading3).h + 1.8;
      if (!left.empty() || !rest.items.empty() || y + head + h > box.bottom()) {
        rest.items.push_back(item);
        continue;
      }
      if (!headed) {
        pen.tagged(Role::heading3, [&] {
          pen.text({box.x, y + 0.6}, part.heading, layout::kHeading3, "said");
        });
        y += head;
        headed = true;
      }
      pen.tagged(Role::paragraph, [&] {
        pen.text({box.x, y}, "–", coloured(kNote, kAccent));
        pen.block({box.x + 3, y}, box.w - 3, item, kNote, "said");
      });
      y += h + 1;
    }
    if (headed) y += 1.2;
    if (rest.items.empty()) continue;
    if (headed) rest.heading += ", continued";
    left.push_back(std::move(rest));
  }
  return left;
}

void add_drawings(Book& book, Flow& flow, const TreeAssessment& assessed, const Tree& tree) {
  const auto section = make_section(book.plan, assessed);
  const double width = flow.format().text_width();
  std::vector<Said> left = said_of(assessed);
  if (tree.position) {
    const Rect box = flow.take(kDetail + 12);
    Pen pen = flow.pen();
    pen.tagged(Role::figure, [&] {
      draw_detail(book, pen, {box.x, box.y}, assessed, tree, section);
    });
    left =
        draw_said(pen, {box.x + kDetail + kGutter, box.y, width - kDetail - kGutter, box.h}, left);
  }
  if (section) {
    const double height = section_height(*section, width, assessed, book.words.units());
    flow.space(1);
    flow.need(height + 6);
    flow.heading(3, "Section through " + work_name(book, section->nearest));
    const Rect box = flow.take(height);
    Pen pen = flow.pen();
    pen.tagged(Role::figure, [&] { draw_section(pen, box, book.plan, assessed, *section); });
  }
  for (const Said& part : left) {
    flow.heading(3, part.heading);
    flow.bullets(part.items, kNote);
  }
}

void add_figures(Book& book, Flow& flow, const TreeAssessment& tree) {
  std::vector<Row> rows;
  for (const Figure& f : figures_of(tree)) {
    std::string inputs;
    for (const FigureInput& input : f.inputs)
      inputs += (inputs.empty() ? "" : ", ") + input.symbol + " = " + input.value;
    const std::string how = f.formula + (inputs.empty() ? "" : "\n" + inputs);
    std::string from = f.from.source;
    if (!f.from.place.empty()) from += ", " + f.from.place;
    rows.push_back({{{f.name},
                     {book.words.figure(f), layout::kTableBold},
                     {how},
                     {from},
                     {mark(f.from.status) + " " + std::string(to_text(f.from.status))}}});
  }
  std::vector<std::string> notes;
  for (const Note& note : tree.notes) notes.push_back(note.text);
  if (rows.empty() && notes.empty()) return;
  if (!rows.empty()) {
    flow.heading(3, "Figures and what they rest on");
    table(flow,
          {{"Figure", 3.2},
           {"Value", 2.2},
           {"Formula and inputs", 4.2},
           {"Source", 2.2},
           {"Status", 1.5}},
          rows);
  }
  if (!notes.empty()) {
    flow.heading(3, "To be known when using these figures");
    flow.bullets(notes, kNote);
  }
}

}  // namespace

void add_tree_pages(Book& book) {
  bool first = true;
  for (const TreeAssessment& assessed : book.assessment().trees) {
    const Tree* tree = tree_of(book.plan, assessed);
    if (tree == nullptr || !assessed.affected()) continue;
    Flow flow = book.portrait();
    if (first) {
      book.contents.push_back({"Trees reached by the works", "trees", book.pages.size() - 1});
      Pen pen = flow.pen();
      pen.target("trees", {0, 0});
      pen.bookmark(1, "Trees reached by the works", "trees");
      first = false;
    }
    add_head(book, flow, assessed, *tree);
    add_panels(book, flow, assessed);
    add_drawings(book, flow, assessed, *tree);
    add_figures(book, flow, assessed);
  }
}

}  // namespace rootstead
