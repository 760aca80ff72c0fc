#include "report/revision_marks.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/geom/overlay.hpp"

namespace rootstead {

using layout::Align;
using layout::aligned;
using layout::kAccent;
using layout::kInk;
using layout::kSmall;
using layout::Pen;
using layout::Place;
using layout::Rect;
using layout::sized;
using layout::Stroke;
using layout::TextStyle;
using layout::Weight;
using layout::weighted;

namespace {

constexpr double kAway = 2.2;     // mm from what changed to the cloud
constexpr double kScallop = 3.4;  // mm of the line to one bow
constexpr double kBulge = 0.32;   // of a bow, by its chord
constexpr int kBowPoints = 6;
constexpr double kMarkSide = 6.2;  // mm
const Stroke kCloudStroke{.width = 0.38, .colour = kAccent, .round = true};

constexpr std::size_t kMostRows = 4;
constexpr double kHeadHeight = 3.6, kRowHeight = 3.5, kTableFoot = 1.2;

bool is_clouded(const ThingChange& thing) {
  return thing.sort == ChangedSort::work || thing.sort == ChangedSort::barrier ||
         thing.sort == ChangedSort::surface || thing.sort == ChangedSort::tree;
}

bool has_clouds(const RevisionHistory& history) {
  return history.changes &&
         std::any_of(
             history.changes->things.begin(), history.changes->things.end(),
             [](const ThingChange& thing) { return is_clouded(thing) && !thing.ground.empty(); });
}

MultiPolygon clouded_ground(const RevisionHistory& history, const View& view) {
  std::vector<MultiPolygon> parts;
  const Length away = Length::millimetres(kAway * view.scale);
  for (const ThingChange& thing : history.changes->things)
    if (is_clouded(thing) && !thing.ground.empty()) parts.push_back(grown(thing.ground, away, 8));
  return union_of(parts);
}

double length_round(const std::vector<Place>& ring) {
  double sum = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Place &a = ring[i], &b = ring[(i + 1) % ring.size()];
    sum += std::hypot(b.x - a.x, b.y - a.y);
  }
  return sum;
}

// Places along the ring at equal steps of about a scallop, a whole number of them.
std::vector<Place> evenly_along(const std::vector<Place>& ring) {
  const double round = length_round(ring);
  const double count = std::max(6.0, std::round(round / kScallop)), step = round / count;
  std::vector<Place> places;
  double passed = 0, next = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Place &a = ring[i], &b = ring[(i + 1) % ring.size()];
    const double side = std::hypot(b.x - a.x, b.y - a.y);
    if (!(side > 0)) continue;
    while (next < passed + side && static_cast<double>(places.size()) < count) {
      const double t = std::max(0.0, (next - passed) / side);
      places.push_back({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
      next += step;
    }
    passed += side;
  }
  return places;
}

// One bow from a to b, bulging to the left of the way on the page.
void add_bow(const Place& a, const Place& b, std::vector<Place>& line) {
  const double dx = b.x - a.x, dy = b.y - a.y;
  for (int i = 0; i < kBowPoints; ++i) {
    const double t = double(i) / kBowPoints, lift = kBulge * std::sin(std::numbers::pi * t);
    line.push_back({a.x + t * dx + lift * dy, a.y + t * dy - lift * dx});
  }
}

// Outer rings run counter-clockwise on the ground, so that on the page, whose y goes down, outside
// lies to the right; the way is turned round to have it on the left.
std::vector<Place> scalloped(std::vector<Place> ring) {
  std::reverse(ring.begin(), ring.end());
  const std::vector<Place> places = evenly_along(ring);
  std::vector<Place> line;
  for (std::size_t i = 0; i < places.size(); ++i)
    add_bow(places[i], places[(i + 1) % places.size()], line);
  return line;
}

const TextStyle kLetter{.points = layout::kSmallestType,
                        .weight = Weight::bold,
                        .colour = kInk,
                        .align = Align::centre};

// The triangle over `foot` with its double base; as wide as its letters ask for.
Rect box_of_mark(const Pen& pen, const Place& foot, const std::string& revision) {
  const double side = std::max(kMarkSide, 1.9 * pen.measure(revision, kLetter).w);
  const double high = side * 0.87;
  return {foot.x - side / 2, foot.y - high, side, high + 1};
}

void draw_mark(Pen& pen, const Place& foot, const std::string& revision) {
  const Rect box = box_of_mark(pen, foot, revision);
  pen.shape({{{box.x, foot.y}, {foot.x, box.y}, {box.right(), foot.y}}}, {0.3, kAccent},
            layout::kWhiteFill, "revision-mark");
  pen.line({box.x, foot.y + 0.7}, {box.right(), foot.y + 0.7}, {0.3, kAccent}, "revision-mark");
  const double height = pen.measure(revision, kLetter).h;
  pen.text({foot.x, foot.y - height + 0.3}, revision, kLetter, "revision-letter");
}

bool hides_text(const layout::Page& page, const Rect& box) {
  return std::any_of(page.elements.begin(), page.elements.end(), [&](const auto& element) {
    const auto* text = std::get_if<layout::Text>(&element.what);
    return text != nullptr && text->box.overlaps(box, 0.1);
  });
}

// On the cloud, inside the frame with room for the triangle: as high up as it hides no text.
Place mark_foot(Pen& pen, std::vector<Place> cloud, const Rect& frame,
                const std::string& revision) {
  std::stable_sort(cloud.begin(), cloud.end(),
                   [](const Place& a, const Place& b) { return a.y < b.y; });
  const auto foot_at = [&](const Place& p) {
    return Place{std::clamp(p.x, frame.x + kMarkSide, frame.right() - kMarkSide),
                 std::clamp(p.y - 0.6, frame.y + kMarkSide, frame.bottom() - 2)};
  };
  for (const Place& p : cloud)
    if (!hides_text(pen.page(), box_of_mark(pen, foot_at(p), revision))) return foot_at(p);
  return foot_at(cloud.front());
}

struct TableRow {
  std::string revision, date, by, description;
};

std::vector<TableRow> table_rows(const ProjectSettings& s, const RevisionHistory* history) {
  std::vector<TableRow> rows;
  const auto or_dash = [](const std::string& text) { return text.empty() ? "–" : text; };
  if (history == nullptr || !history->issued)
    rows.push_back({or_dash(s.revision), s.date, "", or_dash(s.status)});
  if (history != nullptr)
    for (auto issue = history->issues.rbegin(); issue != history->issues.rend(); ++issue)
      rows.push_back({issue->revision, issue->date, issue->by,
                      issue->note.empty() ? issue->status : issue->note});
  if (rows.size() > kMostRows) rows.resize(kMostRows);
  return rows;
}

std::size_t row_count(const RevisionHistory* history) {
  return table_rows({}, history).size();
}

std::string about_clouds(const RevisionHistory& history) {
  return "Clouds: changed since revision " + history.since;
}

}  // namespace

std::size_t draw_clouds(Pen& pen, const View& view, const RevisionHistory& history) {
  if (!has_clouds(history)) return 0;
  std::size_t clouds = 0;
  for (const Polygon& part : clouded_ground(history, view)) {
    const std::vector<Place> line = scalloped(view.places(part.outer));
    const Rect& frame = view.frame;
    const bool seen = std::any_of(line.begin(), line.end(), [&](const Place& p) {
      return p.x > frame.x && p.x < frame.right() && p.y > frame.y && p.y < frame.bottom();
    });
    if (!seen) continue;
    pen.clipped(frame, [&] { pen.shape({line}, kCloudStroke, {}, "cloud"); });
    draw_mark(pen, mark_foot(pen, line, frame, history.mark()), history.mark());
    ++clouds;
  }
  return clouds;
}

double revision_height(const RevisionHistory* history) {
  const bool clouds = history != nullptr && has_clouds(*history);
  return kHeadHeight + kRowHeight * static_cast<double>(row_count(history) + (clouds ? 1 : 0)) +
         kTableFoot + 1.2;
}

void draw_revisions(Pen& pen, const Rect& box, const ProjectSettings& s,
                    const RevisionHistory* history) {
  const TextStyle head = sized(layout::kSmallGrey, layout::kSmallestType),
                  text = sized(kSmall, layout::kSmallestType);
  pen.line({box.x, box.y}, {box.right(), box.y}, {0.18, kInk});
  const double date = box.x + 11, by = box.x + 27, description = box.x + (box.w > 70 ? 46 : 40);
  const double places[] = {box.x, date, by, description, box.right()};
  const char* const titles[] = {"Rev", "Date", "By", "Description"};
  for (int i = 0; i < 4; ++i) pen.text({places[i], box.y + 0.9}, titles[i], head);
  double y = box.y + 0.9 + kHeadHeight - 0.5;
  bool first = true;
  for (const TableRow& row : table_rows(s, history)) {
    const TextStyle style = first ? weighted(text, Weight::bold) : text;
    const std::string cells[] = {row.revision, row.date, row.by, row.description};
    for (int i = 0; i < 4; ++i) {
      const double room = places[i + 1] - places[i] - (i < 3 ? 1 : 0);
      if (!cells[i].empty())
        pen.text({places[i], y}, pen.shortened(cells[i], style, room), style, "revision-row");
    }
    y += kRowHeight;
    first = false;
  }
  if (history != nullptr && has_clouds(*history))
    pen.text({box.x, y}, pen.shortened(about_clouds(*history), text, box.w), text, "about-clouds");
}

}  // namespace rootstead
