#include "report/crew_behind.hpp"

#include <algorithm>

#include "report/crew_extract.hpp"
#include "report/crew_pictures.hpp"
#include "report/one_page.hpp"
#include "report/paint.hpp"
#include "report/sheet_parts.hpp"

namespace rootstead {

using layout::Align;
using layout::aligned;
using layout::Pen;
using layout::Rect;
using layout::Role;
using layout::TextMeter;
using layout::TextStyle;
using layout::Weight;

namespace {

const TextStyle kTitle{.points = 16, .weight = Weight::bold, .display = true, .colour = kBlack};
constexpr double kGap = 3, kColumnGap = 6, kRow = 4.6, kIdWide = 11;

// A work with its stretches in the order of the plan.
struct Group {
  std::string work;
  std::vector<CrewStretch> stretches;
};

std::vector<Group> groups_of(const std::vector<CrewStretch>& stretches) {
  std::vector<Group> groups;
  for (const CrewStretch& one : stretches) {
    auto at = std::find_if(groups.begin(), groups.end(),
                           [&](const Group& group) { return group.work == one.work; });
    if (at == groups.end()) at = groups.insert(groups.end(), {one.work, {}});
    at->stretches.push_back(one);
  }
  return groups;
}

class Behind {
 public:
  Behind(const Plan& plan, const CrewWords& words, SheetSize size, const TextMeter& meter)
      : plan_(plan), words_(words), size_(size), meter_(meter) {}

  std::vector<layout::Page> draw() {
    const std::vector<Box> parts = crew_parts(plan_, free_room());
    for (std::size_t i = 0; i < parts.size(); ++i) draw_part(parts, i);
    draw_list();
    return std::move(pages_);
  }

 private:
  // Title above, cautions below.
  Rect free_room() const {
    OnePage blank = one_page(size_);
    Pen pen(blank.page, meter_);
    return frame_page(blank, pen, "N");
  }

  Rect frame_page(OnePage& made, Pen& pen, const std::string& title) const {
    const Rect& body = made.body;
    double y = body.y;
    pen.tagged(Role::heading1, [&] { y = pen.text({body.x, y}, title, kTitle).bottom(); });
    pen.tagged(Role::paragraph, [&] {
      y = pen.text({body.x, y + 0.4}, pen.shortened(whereabouts(plan_), kBlackText, body.w),
                   kBlackText)
              .bottom();
      if (plan_.site->settings.demo)
        y = pen.text({body.x, y + 0.4}, kDemoSentence, kBlackBold, "demo").bottom();
    });
    const std::string cautions = crew_cautions(words_);
    const double foot = body.bottom() - pen.measure(cautions, kBlackText, body.w).h;
    pen.tagged(Role::paragraph, [&] {
      pen.block({body.x, foot}, body.w, cautions, kBlackText, "cautions");
    });
    return {body.x, y + kGap, body.w, foot - y - 2 * kGap};
  }

  void draw_part(const std::vector<Box>& parts, std::size_t i) {
    OnePage made = one_page(size_);
    Pen pen(made.page, meter_);
    std::string title = "Where: plan of the stretches";
    if (parts.size() > 1)
      title += ", part " + std::to_string(i + 1) + " of " + std::to_string(parts.size());
    Rect room = frame_page(made, pen, title);
    room.h -= kRow;  // for what finds no room
    std::size_t unplaced = 0;
    pen.tagged(Role::figure, [&] {
      unplaced = draw_crew_extract(pen, plan_, room, {CrewExtract::Names::all, parts[i]});
    });
    if (unplaced > 0)
      pen.text({room.x, room.bottom() + 0.4},
               std::to_string(unplaced) +
                   (unplaced == 1 ? " name has no room here" : " names have no room here") +
                   ": see the plan sheet of the report.",
               kBlackBold, "unplaced");
    pages_.push_back(std::move(made.page));
  }

  // ---- the list -------------------------------------------------------------------------------

  // Two columns a page; a work's name stands above its first row, and again at a column's top.
  void draw_list() {
    std::optional<OnePage> made;
    std::optional<Pen> pen;
    Rect room;
    int column = 2;
    double y = 0;
    const auto next_column = [&] {
      if (++column > 1) {
        if (made) pages_.push_back(std::move(made->page));
        pen.reset();
        made.emplace(one_page(size_));
        pen.emplace(made->page, meter_);
        room = frame_page(*made, *pen, "Where: every stretch, work by work");
        column = 0;
      }
      y = room.y;
    };
    const auto box = [&] {
      const double wide = (room.w - kColumnGap) / 2;
      return Rect{room.x + column * (wide + kColumnGap), y, wide, kRow};
    };
    for (const Group& group : groups_of(words_.stretches())) {
      bool headed = false;
      for (const CrewStretch& one : group.stretches) {
        const double high = made ? row_height(*pen, (room.w - kColumnGap) / 2, one) : kRow;
        if (column > 1 || y + (headed ? 0 : 1.5) * kRow + high > room.bottom())
          next_column(), headed = false;
        if (!headed) {
          if (y > room.y) y += kRow / 2;
          draw_head(*pen, box(), group.work);
          y += kRow, headed = true;
        }
        Rect row = box();
        row.h = row_height(*pen, row.w, one);
        draw_row(*pen, row, one);
        y += row.h;
      }
    }
    if (made) pages_.push_back(std::move(made->page));
  }

  void draw_head(Pen& pen, const Rect& box, const std::string& work) const {
    pen.tagged(Role::heading2, [&] {
      pen.text({box.x, box.y}, pen.shortened(words_.work(work), kBlackBold, box.w), kBlackBold,
               "work");
    });
    pen.line({box.x, box.bottom() - 0.2}, {box.right(), box.bottom() - 0.2}, {0.35, kBlack});
  }

  static std::string how_of(const CrewStretch& one) {
    return one.method + (one.span.empty() ? "" : ", " + one.span);
  }
  static double indent_of(const CrewStretch& one) { return one.id == one.work ? 0 : kIdWide; }
  std::string trees_of(const CrewStretch& one) const {
    return trees_named(plan_, one.trees, one.trees.size());
  }
  bool fits_beside(const Pen& pen, double wide, const CrewStretch& one) const {
    return indent_of(one) + pen.measure(how_of(one), kBlackText).w + 1.5 +
               pen.measure(trees_of(one), kBlackText).w <=
           wide;
  }
  double row_height(const Pen& pen, double wide, const CrewStretch& one) const {
    if (fits_beside(pen, wide, one)) return kRow;
    return kRow + pen.measure(trees_of(one), kBlackText, wide - indent_of(one)).h;
  }

  // Nothing is cut off: trees that find no room beside the length stand below it, all of them.
  void draw_row(Pen& pen, const Rect& box, const CrewStretch& one) const {
    const bool whole = one.id == one.work;
    const double x = box.x + indent_of(one);
    pen.tagged(Role::paragraph, [&] {
      if (!whole) pen.text({box.x, box.y + 0.2}, one.id, kBlackBold, "stretch:" + one.id);
      const Rect said = pen.text({x, box.y + 0.2}, how_of(one), kBlackText,
                                 whole ? "stretch:" + one.id : "measure");
      if (fits_beside(pen, box.w, one))
        pen.text({box.right(), box.y + 0.2}, trees_of(one), aligned(kBlackText, Align::right),
                 "stretch-trees");
      else
        pen.block({x, said.bottom()}, box.right() - x, trees_of(one), kBlackText, "stretch-trees");
    });
    pen.line({box.x, box.bottom() - 0.2}, {box.right(), box.bottom() - 0.2}, {0.12, kBlack});
  }

  const Plan& plan_;
  const CrewWords& words_;
  SheetSize size_;
  const TextMeter& meter_;
  std::vector<layout::Page> pages_;
};

}  // namespace

std::string crew_cautions(const CrewWords& words) {
  return words.basis() + " " + kShortCautions;
}

std::vector<layout::Page> pages_behind(const Plan& plan, const CrewWords& words, SheetSize size,
                                       const TextMeter& meter) {
  return Behind(plan, words, size, meter).draw();
}

}  // namespace rootstead
