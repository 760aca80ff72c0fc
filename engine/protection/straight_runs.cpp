#include "engine/protection/straight_runs.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/protection/along.hpp"

namespace rootstead {
namespace {

constexpr double kEven = 1e-6;  // m: corners and costs closer than this are alike

// A corner of a ring, and how far the outline has already moved there.
struct Corner {
  Point at;
  double moved = 0;
};
using Corners = std::vector<Corner>;  // of one ring, the area on its left

double cross(const Point& a, const Point& b, const Point& c) {
  return (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
}

bool in_triangle(const Point& p, const Point& a, const Point& b, const Point& c) {
  const double u = cross(a, b, p), v = cross(b, c, p), w = cross(c, a, p);
  return (u >= 0 && v >= 0 && w >= 0) || (u <= 0 && v <= 0 && w <= 0);
}

bool segments_meet(const Point& a, const Point& b, const Point& c, const Point& d) {
  const bool apart =
      std::max(a.x, b.x) < std::min(c.x, d.x) || std::max(c.x, d.x) < std::min(a.x, b.x) ||
      std::max(a.y, b.y) < std::min(c.y, d.y) || std::max(c.y, d.y) < std::min(a.y, b.y);
  if (apart) return false;
  return cross(a, b, c) * cross(a, b, d) <= 0 && cross(c, d, a) * cross(c, d, b) <= 0;
}

// Where the line from a through b meets the line from d through c, beyond b and c.
std::optional<Point> meeting_beyond(const Point& a, const Point& b, const Point& c,
                                    const Point& d) {
  const double ux = b.x - a.x, uy = b.y - a.y, vx = c.x - d.x, vy = c.y - d.y;
  const double turn = ux * vy - uy * vx;
  const double scale = std::hypot(ux, uy) * std::hypot(vx, vy);
  if (std::abs(turn) <= 1e-9 * scale) return {};
  const double t = ((d.x - b.x) * vy - (d.y - b.y) * vx) / turn;
  const double s = ((b.x - d.x) * uy - (b.y - d.y) * ux) / -turn;
  if (t < 0 || s < 1) return {};
  return Point{b.x + t * ux, b.y + t * uy};
}

// One way to have a corner fewer: take corner `first` away, or replace it and the next by `tip`.
struct Change {
  std::size_t ring = 0, first = 0;
  std::optional<Point> tip;
  double moved = 0;
};

class Outline {
 public:
  Outline(const Polygon& polygon, double tolerance, const SiteFrame& frame)
      : tolerance_(tolerance), frame_(frame) {
    add(polygon.outer);
    for (const Ring& hole : polygon.holes) add(hole);
  }

  void straighten() {
    while (const auto change = best_change()) apply(*change);
  }

  Polygon polygon() const {
    Polygon made;
    for (std::size_t i = 0; i < rings_.size(); ++i) {
      Ring ring;
      for (const Corner& corner : rings_[i]) ring.push_back(corner.at);
      if (i == 0)
        made.outer = std::move(ring);
      else if (ring.size() >= 3)
        made.holes.push_back(std::move(ring));
    }
    return made;
  }

 private:
  void add(const Ring& ring) {
    Corners corners;
    for (const Point& p : ring) {
      if (corners.empty() || distance(corners.back().at, p).metres() > kEven)
        corners.push_back({p, 0});
    }
    std::rotate(corners.begin(), corners.begin() + static_cast<std::ptrdiff_t>(first_of(corners)),
                corners.end());
    rings_.push_back(std::move(corners));
  }

  // The corner farthest back along the frame, and of those the one farthest to its right.
  std::size_t first_of(const Corners& corners) const {
    std::size_t best = 0;
    for (std::size_t i = 1; i < corners.size(); ++i) {
      const Point a = frame_.of(corners[i].at), b = frame_.of(corners[best].at);
      if (a.x < b.x - kEven || (a.x <= b.x + kEven && a.y < b.y - kEven)) best = i;
    }
    return best;
  }

  const Point& at(std::size_t ring, std::size_t i) const {
    return rings_[ring][i % rings_[ring].size()].at;
  }
  double moved(std::size_t ring, std::size_t i) const {
    return rings_[ring][i % rings_[ring].size()].moved;
  }

  std::optional<Change> corner_cut(std::size_t r, std::size_t i) const {
    const std::size_t n = rings_[r].size();
    const Point &a = at(r, i + n - 1), &b = at(r, i), &c = at(r, i + 1);
    const double away = distance_to_segment(b, a, c);
    if (cross(a, b, c) < 0 && away > kEven) return {};  // a bend inwards
    const Change change{r, i, {}, away + moved(r, i)};
    if (change.moved > tolerance_ || !is_free(change, a, b, c)) return {};
    return change;
  }

  std::optional<Change> bend_squared(std::size_t r, std::size_t i) const {
    const std::size_t n = rings_[r].size();
    const Point &a = at(r, i + n - 1), &b = at(r, i), &c = at(r, i + 1), &d = at(r, i + 2);
    if (cross(a, b, c) >= 0 || cross(b, c, d) >= 0) return {};
    const auto tip = meeting_beyond(a, b, c, d);
    if (!tip) return {};
    const Change change{r, i, tip,
                        distance_to_segment(*tip, b, c) + std::max(moved(r, i), moved(r, i + 1))};
    if (change.moved > tolerance_ || !is_free(change, b, *tip, c)) return {};
    return change;
  }

  // Is nothing of the outline in the triangle a change takes away? (a, b, c with b the tip.)
  bool is_free(const Change& change, const Point& a, const Point& b, const Point& c) const {
    for (std::size_t r = 0; r < rings_.size(); ++r) {
      const std::size_t n = rings_[r].size();
      for (std::size_t i = 0; i < n; ++i) {
        const Point &p = at(r, i), &q = at(r, i + 1);
        const auto own = [&](const Point& x) { return x == a || x == b || x == c; };
        if (!own(p) && in_triangle(p, a, b, c)) return false;
        if (!change.tip || own(p) || own(q)) continue;
        if (segments_meet(a, b, p, q) || segments_meet(b, c, p, q)) return false;
      }
    }
    return true;
  }

  std::optional<Change> best_change() const {
    std::optional<Change> best;
    for (std::size_t r = 0; r < rings_.size(); ++r) {
      const std::size_t n = rings_[r].size();
      for (std::size_t i = 0; i < n; ++i) {
        if (n > 3 && (!best || cut_cost(r, i) < best->moved - kEven))
          if (const auto change = corner_cut(r, i)) best = change;
        if (n > 4)
          if (const auto change = bend_squared(r, i);
              change && (!best || change->moved < best->moved - kEven))
            best = change;
      }
    }
    return best;
  }
  double cut_cost(std::size_t r, std::size_t i) const {
    const std::size_t n = rings_[r].size();
    return distance_to_segment(at(r, i), at(r, i + n - 1), at(r, i + 1)) + moved(r, i);
  }

  void apply(const Change& change) {
    Corners& ring = rings_[change.ring];
    const std::size_t n = ring.size();
    if (change.tip) {
      const std::size_t next = (change.first + 1) % n;
      ring[change.first] = {*change.tip, change.moved};
      ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(next));
      return;
    }
    for (const std::size_t i : {(change.first + n - 1) % n, (change.first + 1) % n})
      ring[i].moved = std::max(ring[i].moved, change.moved);
    ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(change.first));
  }

  std::vector<Corners> rings_;  // outer first
  double tolerance_;
  SiteFrame frame_;
};

// Ground this small beside a corner is what rounding leaves of it, not a narrow strip.
constexpr Area kCornerRest = Area::square_metres(0.1);

}  // namespace

MultiPolygon without_narrow_ground(const MultiPolygon& area, Length width, Area least) {
  MultiPolygon kept;
  for (const Polygon& part : area) {
    if (area_of(part) < least) continue;
    const MultiPolygon opened = grown_straight(grown({part}, width / -2), width / 2, 5);
    MultiPolygon narrow;
    for (const Polygon& rest : difference_of({part}, opened)) {
      if (area_of(rest) > kCornerRest) narrow.push_back(rest);
    }
    const MultiPolygon wide = narrow.empty() ? MultiPolygon{part} : difference_of({part}, narrow);
    for (const Polygon& one : wide) {
      const bool thick = !grown({one}, width * -0.49).empty();
      if (thick && area_of(one) >= least) kept.push_back(one);
    }
  }
  return kept;
}

MultiPolygon in_straight_runs(const MultiPolygon& area, Length tolerance, const SiteFrame& frame) {
  MultiPolygon made;
  for (const Polygon& polygon : area) {
    Outline outline(polygon, tolerance.metres(), frame);
    outline.straighten();
    made.push_back(outline.polygon());
  }
  return made;
}

}  // namespace rootstead
