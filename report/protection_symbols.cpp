#include "report/protection_symbols.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace rootstead {

using layout::Hatch;
using layout::kAccent;
using layout::kGrey;
using layout::kHair;
using layout::kInk;
using layout::kQuiet;
using layout::kWhite;
using layout::Pen;
using layout::Place;
using layout::Stroke;

namespace {

constexpr double kLeastGate = 2.2;  // mm: a gate is drawn at least this wide
constexpr double kCrossEvery = 3, kCrossArm = 0.75;

using Places = std::vector<Place>;

Place moved(Place at, Heading along, double by, double aside = 0) {
  return {at.x + along.x * by - along.y * aside, at.y + along.y * by + along.x * aside};
}

Heading heading_of(Place a, Place b) {
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  return length > 0 ? Heading{(b.x - a.x) / length, (b.y - a.y) / length} : Heading{};
}

// Calls `at(place, heading)` every `step` mm, the first half a step from the start.
template <class At>
void each_along(const Places& places, double step, At at) {
  double next = step / 2, done = 0;
  for (std::size_t i = 0; i + 1 < places.size(); ++i) {
    const Heading along = heading_of(places[i], places[i + 1]);
    const double length = std::hypot(places[i + 1].x - places[i].x, places[i + 1].y - places[i].y);
    for (; next <= done + length; next += step) at(moved(places[i], along, next - done), along);
    done += length;
  }
}

void draw_tick(Pen& pen, Place at, Heading along, double half, const Stroke& stroke,
               const std::string& name) {
  pen.line(moved(at, along, 0, -half), moved(at, along, 0, half), stroke, name);
}

// A leaf that stands open at a right angle, and the quarter circle it sweeps.
void draw_leaf(Pen& pen, Place hinge, Heading along, double width, double turn,
               const std::string& name) {
  constexpr int kChords = 8;
  Places arc;
  for (int i = 0; i <= kChords; ++i) {
    const double angle = i * std::numbers::pi / 2 / kChords;
    arc.push_back(moved(hinge, along, turn * width * std::cos(angle), width * std::sin(angle)));
  }
  pen.line(hinge, arc.back(), {0.3, kInk, {}}, name);
  pen.polyline(std::move(arc), {0.13, kInk, {}}, name);
}

}  // namespace

void draw_fence_line(Pen& pen, Places places, Footing footing, const std::string& name) {
  const bool driven = footing == Footing::driven;
  pen.polyline(std::move(places),
               {0.55, kInk, driven ? std::vector<double>{} : std::vector{2.2, 1.0}}, name);
}

void draw_post(Pen& pen, Place at, Heading along, Footing footing, const std::string& name) {
  if (footing == Footing::driven) {
    draw_tick(pen, at, along, 0.8, {0.3, kInk, {}}, name);
    return;
  }
  constexpr double kHalf = 0.6;
  const Places foot{moved(at, along, -kHalf, -kHalf), moved(at, along, kHalf, -kHalf),
                    moved(at, along, kHalf, kHalf), moved(at, along, -kHalf, kHalf)};
  pen.shape({foot}, {0.22, kInk, {}}, layout::kWhiteFill, name);
}

void draw_gate(Pen& pen, Place at, Heading along, double width, GateUse use,
               const std::string& name) {
  const double wide = std::max(width, kLeastGate), half = wide / 2;
  pen.line(moved(at, along, -half), moved(at, along, half), {1.5, kWhite, {}}, name);
  const bool people = use == GateUse::people;
  draw_leaf(pen, moved(at, along, -half), along, people ? wide : half, 1, name);
  if (!people) draw_leaf(pen, moved(at, along, half), along, half, -1, name);
  for (const double end : {-half, half})
    pen.disc(moved(at, along, end), 0.45, {}, layout::kInkFill, name);
}

void draw_dig(Pen& pen, const Places& places, DigMethod method, const std::string& name) {
  if (places.size() < 2) return;
  pen.polyline(places, {1.5, kInk, {}}, name);
  pen.polyline(places, {1.0, kWhite, {}}, name);
  if (method == DigMethod::air) pen.polyline(places, {0.55, kInk, {0.6, 0.9}}, name);
  draw_tick(pen, places.front(), heading_of(places[0], places[1]), 1.7, {0.35, kInk, {}}, name);
  draw_tick(pen, places.back(), heading_of(places[places.size() - 2], places.back()), 1.7,
            {0.35, kInk, {}}, name);
}

void draw_root_cut(Pen& pen, const Places& places, const std::string& name) {
  const Stroke arm{0.3, kAccent, {}};
  pen.polyline(places, {0.5, kAccent, {}}, name);
  each_along(places, kCrossEvery, [&](Place at, Heading along) {
    for (const double side : {-1.0, 1.0})
      pen.line(moved(at, along, -kCrossArm, -kCrossArm * side),
               moved(at, along, kCrossArm, kCrossArm * side), arm, name);
  });
}

void draw_bore(Pen& pen, Places places, const std::string& name) {
  pen.polyline(std::move(places), {0.7, kInk, {2.4, 0.8, 0.4, 0.8}}, name);
}

void draw_way_arrow(Pen& pen, const Places& places, const std::string& name) {
  if (places.size() < 2) return;
  pen.polyline(places, {0.2, kInk, {0.4, 1.0}}, name);
  const double middle = length_on_page(places) / 2;
  const Places half = part_on_page(places, 0, middle);
  if (half.size() < 2) return;
  const Heading along = heading_of(half[half.size() - 2], half.back());
  const Place tip = moved(half.back(), along, 1.3);
  pen.shape({{tip, moved(tip, along, -2.6, 1.0), moved(tip, along, -2.6, -1.0)}}, {},
            layout::kInkFill, name);
}

void draw_guard(Pen& pen, Place at, double reach, const std::string& name) {
  const double r = reach + 0.8;
  Places corners;
  for (int i = 0; i < 8; ++i) {
    const double angle = (i + 0.5) * std::numbers::pi / 4;
    corners.push_back({at.x + r * std::cos(angle), at.y + r * std::sin(angle)});
  }
  pen.shape({corners}, {0.55, kInk, {}}, {}, name);
}

void draw_sign(Pen& pen, Place at, const std::string& name) {
  pen.shape({{{at.x - 1.1, at.y - 0.7}, {at.x + 1.1, at.y - 0.7}, {at.x, at.y + 1.1}}},
            {0.15, kWhite, {}}, layout::kInkFill, name);
}

void draw_clash(Pen& pen, Place at, const std::string& name) {
  pen.disc(at, 1.8, {0.6, kAccent, {}}, {}, name);
  pen.disc(at, 1.0, {0.25, kAccent, {}}, {}, name);
}

AreaLook look_of_cover(LoadClass load) {
  const Stroke edge{0.25, kInk, {}};
  switch (load) {
    case LoadClass::foot:
      return {edge, {Hatch::dots, kInk, 1.3, 0.28}};
    case LoadClass::light_plant:
      return {edge, {Hatch::dashes, kInk, 1.2, 0.13}};
    case LoadClass::heavy:
      return {edge, {Hatch::crossed, kInk, 1.3, 0.13}};
  }
  return {edge, {}};
}
AreaLook look_of_enclosure() {
  return {{}, {Hatch::rising, kHair, 2.4, 0.13}};
}
AreaLook look_of_no_dig() {
  return {{0.3, kInk, {}}, {Hatch::bricks, kInk, 1.7, 0.13}};
}
AreaLook look_of_way() {
  return {{0.3, kInk, {4, 1.2}}, {}};
}
AreaLook look_of_pit() {
  return {{0.3, kInk, {}}, {Hatch::squares, kInk, 0.9, 0.13}};
}
AreaLook look_of_tree_ground() {
  return {{0.2, kGrey, {2.2, 1.1}}, {}};
}
AreaLook look_of_work(WorkState state) {
  if (state == WorkState::existing) return {{0.15, kQuiet, {0.8, 0.6}}, {}};
  return {{0.2, kGrey, {}}, {}};
}
AreaLook look_of_boundary() {
  return {{0.4, kGrey, {5, 1, 0.5, 1}}, {}};
}

double length_on_page(const Places& places) {
  double length = 0;
  for (std::size_t i = 0; i + 1 < places.size(); ++i)
    length += std::hypot(places[i + 1].x - places[i].x, places[i + 1].y - places[i].y);
  return length;
}

Places part_on_page(const Places& places, double from, double to) {
  Places part;
  double done = 0;
  for (std::size_t i = 0; i + 1 < places.size(); ++i) {
    const Heading along = heading_of(places[i], places[i + 1]);
    const double length = std::hypot(places[i + 1].x - places[i].x, places[i + 1].y - places[i].y);
    const double a = std::max(from, done), b = std::min(to, done + length);
    if (a < b) {
      if (part.empty()) part.push_back(moved(places[i], along, a - done));
      part.push_back(moved(places[i], along, b - done));
    }
    done += length;
  }
  return part;
}

Heading heading_at(const Places& places, Place at) {
  double nearest = HUGE_VAL;
  Heading best;
  for (std::size_t i = 0; i + 1 < places.size(); ++i) {
    const Place a = places[i], b = places[i + 1];
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    if (length <= 0) continue;
    const Heading along = heading_of(a, b);
    const double on = std::clamp((at.x - a.x) * along.x + (at.y - a.y) * along.y, 0.0, length);
    const Place foot = moved(a, along, on);
    const double away = std::hypot(at.x - foot.x, at.y - foot.y);
    if (away < nearest) nearest = away, best = along;
  }
  return best;
}

}  // namespace rootstead
