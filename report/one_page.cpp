#include "report/one_page.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "engine/site/dates.hpp"
#include "report/crew_sheet.hpp"
#include "report/flow.hpp"
#include "report/sheet_parts.hpp"

namespace rootstead {

using layout::Fill;
using layout::Hatch;
using layout::Pen;
using layout::Place;
using layout::Rect;
using layout::Role;
using layout::TextStyle;

namespace {

constexpr double kMargin = 10;       // mm
constexpr double kBulletIndent = 4;  // mm
constexpr const char* kLineToWriteOn = "_______________________";

// Cairo would take the clock where no date is given; a fixed day keeps files alike.
std::string created_on(const std::string& date) {
  const bool iso = date.size() == 10 && date[4] == '-' && date[7] == '-' && is_date(date);
  return (iso ? date : std::string("1970-01-01")) + "T00:00:00Z";
}

}  // namespace

const char* const kShortCautions =
    "A screening aid from published averages, not a tree risk assessment, engineering design or "
    "certificate; never the only ground for felling a tree or for trusting it. Roots are where "
    "they are: uncover them by hand or air before cutting. A qualified arborist looks at every "
    "tree on site; where a number is relied on, an engineer or a pull test confirms it. Local law, "
    "permits, protected trees and species and the standard in force come first. Have buried "
    "services located before any digging. Keep people clear while roots are cut; stop if the tree "
    "or the ground at its base moves. Figures rest on: ᵖ published text, ᶜ common practice, ᵐ "
    "memory, "
    "ᵃ our assumption; confirm ᵐ and ᵃ. The report has their sources.";

OnePage one_page(SheetSize size) {
  const layout::PageFormat& format = is_us(size) ? layout::kLetter : layout::kA4;
  OnePage made;
  made.page = {format.width, format.height, {}};
  made.body = made.page.sheet().shrunk(kMargin);
  return made;
}

layout::Document document_of(const Plan& plan, layout::Page page, const std::string& title) {
  const ProjectSettings& s = plan.site->settings;
  layout::Document document;
  document.title = title + (s.title.empty() ? "" : ": " + s.title);
  if (s.demo) document.title += " (invented data)";
  document.author = s.author;
  document.subject = title;
  document.keywords = "trees, roots, ground works, data " + plan.assessment->data_version;
  document.created = created_on(std::string(trimmed(s.date)));
  document.pages.push_back(std::move(page));
  return document;
}

Error without_advice(const std::string& sheet) {
  return {Code::wrong_use, sheet, "there is no advice to make it from",
          "work out the advice of the project first"};
}

std::string trees_named(const Plan& plan, const std::vector<std::string>& ids, std::size_t most) {
  std::vector<std::string> names;
  for (const std::string& id : ids) {
    const Tree* tree = plan.site->tree(id);
    names.push_back(tree == nullptr ? id : tree->label());
  }
  if (names.size() <= most + 1) return joined(names, ", ");
  const std::size_t more = names.size() - most;
  names.resize(most);
  return joined(names, ", ") + " and " + std::to_string(more) + " more";
}

std::string work_named(const Plan& plan, const std::string& id) {
  const Work* work = plan.site->work(id);
  return work == nullptr || work->name.empty() ? id : work->name;
}

const TreeAdvice* advice_of(const Plan& plan, const std::string& tree) {
  for (const TreeAdvice& one : plan.advice->trees)
    if (one.tree == tree) return &one;
  return nullptr;
}

std::string arborist_named(const Plan& plan) {
  const ProjectSettings& s = plan.site->settings;
  return s.author.empty() ? "the arborist" : s.author;
}

std::string telephone_of(const Plan& plan) {
  const auto& other = plan.site->settings.other;
  const auto found = other.find(std::string(kTelephoneKey));
  return "Tel. " + (found == other.end() || found->second.empty() ? std::string(kLineToWriteOn)
                                                                  : found->second);
}

std::string whereabouts(const Plan& plan) {
  const ProjectSettings& s = plan.site->settings;
  std::vector<std::string> parts;
  const auto add = [&](const std::string& lead, const std::string& text) {
    if (!text.empty()) parts.push_back(lead + text);
  };
  add("", s.title);
  add("", s.address);
  add("", s.date);
  add("rev ", s.revision);
  return joined(parts, " · ");
}

View fitted_view(const Box& ground, const Rect& frame, double margin) {
  const double wide = std::max(ground.max_x - ground.min_x, 1.0) * 1000;
  const double high = std::max(ground.max_y - ground.min_y, 1.0) * 1000;
  const double scale = std::max(wide / (frame.w - 2 * margin), high / (frame.h - 2 * margin));
  return {frame, ground.centre(), std::max(1, int(std::ceil(scale)))};
}

Rect draw_bar_and_north(Pen& pen, Place at, double longest, const View& view, UnitSystem units,
                        const SmallPrint& look) {
  const TextStyle text{.points = look.points, .tabular = true, .colour = look.colour};
  const Fill ink{.hatch = Hatch::solid, .colour = look.colour};
  const double high = pen.measure("N", text).h;
  constexpr double kHalf = 1.5, kBar = 1.8;
  pen.shape({{{at.x + kHalf, at.y}, {at.x + 2 * kHalf, at.y + high}, {at.x, at.y + high}}}, {}, ink,
            "north");
  const Rect n = pen.text({at.x + 2 * kHalf + 0.8, at.y}, "N", text);
  const Length length = bar_length(longest, view.scale, units);
  const double width = view.millimetres(length), x = n.right() + 5;
  const Rect bar{x, at.y + (high - kBar) / 2, width, kBar};
  pen.rect(bar, {0.3, look.colour}, {}, "scale-bar");
  pen.rect({bar.x, bar.y, width / 2, kBar}, {}, ink, "bar-field");
  const bool metric = units == UnitSystem::metric;
  const double shown = metric ? length.metres() : in_unit(length, LengthUnit::foot);
  const std::string said =
      with_thousands(shown, shown < 1 ? 1 : 0) + (metric ? "\u00A0m" : "\u00A0ft");
  const Rect end = pen.text({bar.right() + 1.5, at.y}, said, text, "measure");
  return {at.x, at.y, end.right() - at.x, high};
}

double height_of_bullets(const Pen& pen, double width, const std::vector<std::string>& items,
                         const TextStyle& style, double gap) {
  double height = 0;
  for (const std::string& item : items)
    height += pen.measure(item, style, width - kBulletIndent).h + gap;
  return height;
}

double draw_bullets(Pen& pen, Place at, double width, const std::vector<std::string>& items,
                    const TextStyle& style, double gap) {
  pen.tagged(Role::list, [&] {
    for (const std::string& item : items) {
      pen.tagged(Role::list_item, [&] {
        pen.text(at, "–", style);
        const Rect box =
            pen.block({at.x + kBulletIndent, at.y}, width - kBulletIndent, item, style, "bullet");
        at.y = box.bottom() + gap;
      });
    }
  });
  return at.y;
}

// Chaikin's corner cutting, three times.
std::vector<Place> smooth(const std::vector<Place>& corners) {
  std::vector<Place> line = corners;
  for (int turn = 0; turn < 3 && line.size() > 2; ++turn) {
    std::vector<Place> finer = {line.front()};
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
      const Place a = line[i], b = line[i + 1];
      finer.push_back({a.x * 0.75 + b.x * 0.25, a.y * 0.75 + b.y * 0.25});
      finer.push_back({a.x * 0.25 + b.x * 0.75, a.y * 0.25 + b.y * 0.75});
    }
    finer.push_back(line.back());
    line = std::move(finer);
  }
  return line;
}

}  // namespace rootstead
