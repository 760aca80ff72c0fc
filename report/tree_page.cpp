#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
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
using layout::kInk;
using layout::kSmall;
using layout::Pen;
using layout::Place;
using layout::Rect;
using layout::Role;
using layout::sized;
using layout::TextStyle;
using layout::Weight;
using layout::weighted;

namespace {

constexpr double kGutter = 7, kTop = 17;

// How much a page says decides how closely it is set: as the first look, or else the next that
// keeps the tree on one page.
struct Look {
  double detail;  // mm, the plan detail's side
  TextStyle note, quiet;
};
constexpr std::size_t kShortItem = 110;  // letters
const std::array<Look, 4> kLooks{{{80, sized(kSmall, 7.4), sized(layout::kSmallGrey, 7.0)},
                                  {74, sized(kSmall, 7.0), sized(layout::kSmallGrey, 7.0)},
                                  {70, sized(kSmall, 7.0), sized(layout::kSmallGrey, 7.0)},
                                  {60, sized(kSmall, 7.0), sized(layout::kSmallGrey, 7.0)}}};

std::string facts_line(const Tree& tree) {
  std::vector<std::string> facts;
  if (!tree.botanical_name.empty() && tree.botanical_name != name_of(tree))
    facts.push_back(tree.botanical_name);
  if (tree.form != GrowthForm::unknown) facts.emplace_back(to_text(tree.form));
  std::string stems = stems_of(tree);
  std::replace(stems.begin(), stems.end(), '\n', '+');
  facts.push_back((tree.stems.size() > 1 ? "stems " : "stem ") + stems);
  if (tree.height) facts.push_back("height " + entered(tree.height));
  if (tree.condition != Condition::unknown) {
    const bool dead = tree.condition == Condition::dead;
    facts.push_back(std::string(to_text(tree.condition)) + (dead ? "" : " condition"));
  }
  if (tree.stage != LifeStage::unknown) facts.emplace_back(to_text(tree.stage));
  if (!tree.protection.empty()) facts.push_back(tree.protection);
  if (!tree.ownership.empty()) facts.push_back("owner: " + tree.ownership);
  if (tree.intent != Intent::undecided) facts.push_back(intent_words(tree));
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

Box detail_ground(const TreeAssessment& assessed, const Tree& tree,
                  const std::optional<Section>& section) {
  Box box;
  widen(box, tree.position->at, 2);
  for (const Zone* zone : main_zones(assessed)) widen(box, zone->centre, zone->radius.metres());
  if (section) widen(box, offset(section->stem, section->towards, Length::metres(section->ahead)));
  return box;
}

// The section's line on the plan, with room for a letter beyond each end.
struct SectionLine {
  Place a, b;
  std::array<Rect, 2> letters;
};

const TextStyle kSectionLetter{
    .points = 7, .weight = Weight::bold, .colour = kAccent, .align = Align::centre};

SectionLine section_line(const Pen& pen, const View& view, const Section& s) {
  const Place a =
      view.place(offset(s.stem, s.towards + Angle::degrees(180), Length::metres(s.back)));
  const Place b = view.place(offset(s.stem, s.towards, Length::metres(s.ahead)));
  const layout::Size size = pen.measure("A", kSectionLetter);
  const double out = 2 / std::max(std::hypot(b.x - a.x, b.y - a.y), 1.0);
  const auto beyond = [&](const Place& end, const Place& other) -> Rect {
    const double x = end.x + (end.x - other.x) * out, y = end.y + (end.y - other.y) * out;
    return {x - size.w / 2, y - size.h / 2, size.w, size.h};
  };
  return {a, b, {beyond(a, b), beyond(b, a)}};
}

void draw_section_line(Pen& pen, const View& view, const SectionLine& line) {
  pen.clipped(view.frame, [&] {
    pen.line(line.a, line.b, {0.22, kAccent, {4, 0.8, 0.8, 0.8}}, "section-line");
    for (const Rect& letter : line.letters) {
      pen.disc(letter.centre(), letter.h * 0.45, layout::kNoStroke, layout::kWhiteFill, "patch");
      pen.text({letter.centre().x, letter.y}, "A", kSectionLetter, "section-letter");
    }
  });
}

void draw_detail(Book& book, Pen& pen, const Look& look, Place at, const TreeAssessment& assessed,
                 const Tree& tree, const std::optional<Section>& section) {
  const Rect frame{at.x, at.y, look.detail, look.detail};
  const Box ground = detail_ground(assessed, tree, section);
  const UnitSystem units = book.words.units();
  const auto usual = largest_scale(ground, frame, units, 2);
  const View view{frame, middle_of(ground), usual ? *usual : overview_scale(ground, frame, units)};
  PlanParts parts;
  parts.grid = false;
  parts.only_zones_of = tree.id;
  std::optional<SectionLine> line;
  if (section) line = section_line(pen, view, *section);
  if (line) parts.kept_free.assign(line->letters.begin(), line->letters.end());
  draw_plan(pen, book.plan, view, parts);
  if (line) draw_section_line(pen, view, *line);
  pen.rect(frame, {0.25, kInk}, {}, "detail");
  draw_north_arrow(pen, {frame.x + 2.5, frame.bottom() + 9.5}, 8);
  const Rect bar = draw_scale_bar(pen, {frame.x + 10, frame.bottom() + 2.2}, 30, view.scale, units);
  pen.text({bar.right() + 4, frame.bottom() + 4.2}, book.words.scale(view.scale), look.note);
}

struct Said {
  std::string heading;
  std::vector<std::string> items;
};

bool already_said(const Verdict& verdict, const std::string& text) {
  return std::any_of(verdict.reasons.begin(), verdict.reasons.end(), [&](const Reason& reason) {
    return reason.text.find(text) != std::string::npos;
  });
}

// Where other rules have zones for the tree, that one has none is no reason for the verdict: the
// chapter of cautions lists it. What a measurement would mend is told.
bool told_elsewhere(const TreeAssessment& tree, const Error& refused) {
  return !tree.zones.empty() && refused.code != Code::missing_measurement;
}

bool is_refusal_told_elsewhere(const TreeAssessment& tree, const Reason& reason) {
  return std::any_of(tree.rules_not_applied.begin(), tree.rules_not_applied.end(),
                     [&](const Error& refused) {
                       return told_elsewhere(tree, refused) && reason.text == refused.sentence();
                     });
}

// Reasons that begin alike are one, with what differs after it: "To be inspected whatever the
// figure: ...; ...".
std::vector<std::string> with_inspections_joined(const std::vector<std::string>& reasons) {
  constexpr std::string_view kInspect = "To be inspected whatever the figure: ";
  std::vector<std::string> joined_reasons;
  std::string* first = nullptr;
  joined_reasons.reserve(reasons.size());
  for (const std::string& reason : reasons) {
    if (!reason.starts_with(kInspect) || first == nullptr) {
      joined_reasons.push_back(reason);
      if (reason.starts_with(kInspect)) first = &joined_reasons.back();
      continue;
    }
    if (first->ends_with('.')) first->pop_back();
    *first += "; " + reason.substr(kInspect.size());
  }
  return joined_reasons;
}

// What is to be done for a tree that the client does not mean to leave where it is holds only if
// it stays after all.
std::string measures_heading(const TreeAssessment& assessed, const Tree& tree) {
  const bool goes = tree.intent == Intent::remove || tree.intent == Intent::move;
  const Action action = assessed.verdict.action;
  const bool told = action == Action::remove || action == Action::transplant;
  return goes && !told ? "What to do if it stays after all" : "What to do";
}

std::vector<Said> said_of(const TreeAssessment& tree, const Tree& surveyed) {
  Said why{"Why", {}}, look{"Why a person must look", {}}, unruled{"Rules without an answer", {}};
  for (const Reason& reason : tree.verdict.reasons)
    if (!is_refusal_told_elsewhere(tree, reason)) why.items.push_back(reason.text);
  why.items = with_inspections_joined(why.items);
  if (why.items.empty() && tree.verdict.action == Action::keep)
    why.items.emplace_back(
        "No work takes ground of its zones, and no loss of roots to speak of is expected.");
  if (tree.anchorage) {
    for (const std::string& reason : tree.anchorage->reasons_to_inspect) {
      if (!already_said(tree.verdict, reason)) look.items.push_back(reason);
    }
  }
  for (const Error& error : tree.rules_not_applied) {
    if (!told_elsewhere(tree, error) && !already_said(tree.verdict, error.message))
      unruled.items.push_back(error.sentence());
  }
  std::vector<Said> all;
  for (Said& part : std::vector<Said>{why,
                                      {measures_heading(tree, surveyed), tree.verdict.measures},
                                      look,
                                      {"What is missing", tree.verdict.missing},
                                      unruled}) {
    if (!part.items.empty()) all.push_back(std::move(part));
  }
  return all;
}

// Lists beside the plan, as far as they go; what is left comes back for the text below.
std::vector<Said> draw_said(Pen& pen, const TextStyle& note, const Rect& box,
                            const std::vector<Said>& all) {
  double y = box.y;
  std::vector<Said> left;
  for (const Said& part : all) {
    Said rest{part.heading, {}};
    bool headed = false;
    for (const std::string& item : part.items) {
      const double h = pen.measure(item, note, box.w - 3).h;
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
        pen.text({box.x, y}, "–", coloured(note, kAccent));
        pen.block({box.x + 3, y}, box.w - 3, item, note, "said");
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

void add_drawings(Book& book, Flow& flow, const Look& look, const TreeAssessment& assessed,
                  const Tree& tree) {
  const auto section = make_section(book.plan, assessed);
  const double width = flow.format().text_width();
  std::vector<Said> left = said_of(assessed, tree);
  if (tree.position) {
    const Rect box = flow.take(look.detail + 12);
    Pen pen = flow.pen();
    pen.tagged(Role::figure, [&] {
      draw_detail(book, pen, look, {box.x, box.y}, assessed, tree, section);
    });
    left = draw_said(pen, look.note,
                     {box.x + look.detail + kGutter, box.y, width - look.detail - kGutter, box.h},
                     left);
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
    // One short thing needs no heading above it.
    if (part.items.size() == 1 && part.items.front().size() < kShortItem) {
      flow.space(1);
      flow.paragraph(part.heading + ": " + part.items.front(), look.note);
      continue;
    }
    flow.heading(3, part.heading);
    flow.bullets(part.items, look.note);
  }
}

void add_notes(Book& book, Flow& flow, const Look& look, const TreeAssessment& assessed,
               const Tree& tree) {
  const std::vector<std::string> common = common_notes(book.plan, tree.is_monocot());
  std::vector<std::string> notes = notes_of(assessed);
  std::erase_if(notes, [&](const std::string& text) {
    return std::find(common.begin(), common.end(), text) != common.end();
  });
  if (notes.empty()) return;
  flow.space(1);
  flow.paragraph("To be known of this tree's figures: " + joined(notes, " · "), look.quiet);
}

// A page that comes loose still says whose it is.
void name_further_pages(Book& book, std::size_t first, const Tree& tree) {
  constexpr double kFromTop = 10;
  for (std::size_t i = first + 1; i < book.pages.size(); ++i) {
    Pen pen(book.pages[i], book.meter);
    pen.tagged(Role::paragraph, [&] {
      pen.text({book.format.left, kFromTop}, tree.label() + " " + name_of(tree) + ", continued",
               layout::kSmallGrey, "continued");
    });
  }
}

// Sets the tree's pages as `look` has it; returns how many they are.
std::size_t set_tree(Book& book, const Look& look, const TreeAssessment& assessed,
                     const Tree& tree) {
  const std::size_t before = book.pages.size();
  layout::PageFormat format = book.format;
  format.top = kTop;
  Flow flow(book.pages, book.meter, format);
  add_head(book, flow, assessed, tree);
  add_panels(book, flow, assessed);
  add_drawings(book, flow, look, assessed, tree);
  add_notes(book, flow, look, assessed, tree);
  name_further_pages(book, before, tree);
  return book.pages.size() - before;
}

void add_tree(Book& book, const TreeAssessment& assessed, const Tree& tree) {
  const std::size_t before = book.pages.size();
  for (const Look& look : kLooks) {
    book.pages.resize(before);
    if (set_tree(book, look, assessed, tree) == 1) return;
  }
  book.pages.resize(before);
  set_tree(book, kLooks.front(), assessed, tree);  // two pages anyway: set them well
}

}  // namespace

void add_tree_pages(Book& book) {
  bool first = true;
  for (const TreeAssessment& assessed : book.assessment().trees) {
    const Tree* tree = tree_of(book.plan, assessed);
    if (tree == nullptr || !assessed.affected()) continue;
    const std::size_t page = book.pages.size();
    add_tree(book, assessed, *tree);
    if (!std::exchange(first, false)) continue;
    const std::string title = "Trees reached by the works", target = target_of(book, assessed);
    book.contents.push_back({title, target, page});
    auto& elements = book.pages[page].elements;  // the trees' bookmarks hang on this one
    elements.insert(elements.begin(), {layout::Bookmark{1, title, target}, {}, {}});
  }
}

}  // namespace rootstead
