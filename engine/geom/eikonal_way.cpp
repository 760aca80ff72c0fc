#include <cmath>
#include <limits>
#include <optional>
#include <utility>

#include "engine/geom/eikonal.hpp"
#include "engine/geom/sight.hpp"

namespace rootstead {
namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();

// Walks down a map to where travel began: by the slope between the centres, and where that leads
// nowhere (beside walls), from cell to lower cell until it is lower than ever before. So every
// round of the walk ends lower, and it ends.
class Descent {
 public:
  Descent(const TravelMap& map, std::optional<Point> source)
      : map_(map), grid_(map.grid()), source_(source) {}

  Line from(const Point& start) {
    way_ = {start};
    least_ = map_.at(start);
    while (!arrived()) {
      if (!slide() && !climb_down()) return straightened();  // at one of many starts
    }
    if (way_.back() != *source_) way_.push_back(*source_);
    return straightened();
  }

 private:
  static constexpr double kLeastFall = 1e-3;  // of a step, in cells
  static constexpr double kNear = 1.5;        // cells, from which the source is gone to straight

  static constexpr double kStraight = 0.01;     // share by which a straight stretch may be longer
  static constexpr std::size_t kLookAhead = 6;  // points that may lie beside it in a row

  struct Place {
    int column, row;
  };

  double time_in(const Place& place) const {
    const auto [column, row] = place;
    const bool inside = column >= 0 && column < grid_.columns && row >= 0 && row < grid_.rows;
    return inside ? map_.times()[grid_.index(column, row)] : kNever;
  }
  Point in_cells(const Point& p) const {
    return {(p.x - grid_.corner.x) / grid_.cell, (p.y - grid_.corner.y) / grid_.cell};
  }
  bool sees(const Point& a, const Point& b) const {
    return in_sight(in_cells(a), in_cells(b), [&](int column, int row) {
      return std::isfinite(time_in({column, row}));
    });
  }
  bool arrived() const {
    if (!source_) return false;
    const Point& at = way_.back();
    return std::hypot(at.x - source_->x, at.y - source_->y) < kNear * grid_.cell &&
           sees(at, *source_);
  }

  // Half a cell down the slope that is found a quarter ahead.
  bool slide() {
    const Point& at = way_.back();
    const Point ahead = moved(at, slope(at), grid_.cell / 4);
    const Point to = moved(at, slope(ahead), grid_.cell / 2);
    const double time = map_.at(to);
    if (!(time < least_ - kLeastFall * grid_.cell) || !sees(at, to)) return false;
    way_.push_back(to);
    least_ = time;
    return true;
  }
  static Point moved(const Point& at, const Point& slope, double way) {
    const double length = std::hypot(slope.x, slope.y);
    if (!(length > 0)) return at;
    return {at.x - slope.x / length * way, at.y - slope.y / length * way};
  }
  Point slope(const Point& at) const {
    const double d = grid_.cell / 2;
    return {rise({at.x - d, at.y}, at, {at.x + d, at.y}),
            rise({at.x, at.y - d}, at, {at.x, at.y + d})};
  }
  // Of T from `low` to `high`; one-sided, or none, beside blocked ground.
  double rise(const Point& low, const Point& at, const Point& high) const {
    const double a = map_.at(low), b = map_.at(at), c = map_.at(high);
    if (std::isfinite(a) && std::isfinite(c)) return (c - a) / 2;
    if (std::isfinite(a)) return std::fmax(0.0, b - a);
    return std::isfinite(c) ? std::fmin(0.0, c - b) : 0;
  }

  // From cell to cell, at least one, until lower than least_; false where no cell is.
  bool climb_down() {
    const Point at = in_cells(way_.back());
    Place here{static_cast<int>(at.x), static_cast<int>(at.y)};
    const Line before = way_;
    const auto undercut = [&] {  // the walk ran into a corner lower than the way round it
      return way_.size() > 1 && map_.at(way_.back()) < time_in(here) &&
             sees(way_[way_.size() - 2], centre(here));
    };
    while (undercut()) way_.pop_back();
    way_.push_back(centre(here));
    while (!(time_in(here) < least_)) {
      const Place next = lowest_beside(here);
      if (!(time_in(next) < time_in(here))) {
        way_ = before;
        return false;
      }
      here = next;
      way_.push_back(centre(here));
      if (arrived()) break;
    }
    least_ = time_in(here);
    return true;
  }
  Point centre(const Place& place) const { return grid_.centre(place.column, place.row); }

  Place lowest_beside(const Place& here) const {
    Place lowest = here;
    for (int row = here.row - 1; row <= here.row + 1; ++row)
      for (int column = here.column - 1; column <= here.column + 1; ++column)
        if (time_in({column, row}) < time_in(lowest) && joined(here, {column, row}))
          lowest = {column, row};
    return lowest;
  }
  // Across a corner only where one of the cells beside it is open.
  bool joined(const Place& a, const Place& b) const {
    return std::isfinite(time_in({a.column, b.row})) || std::isfinite(time_in({b.column, a.row}));
  }

  // Without the points that lie beside a straight stretch over open ground, where T falls by the
  // length of the way: what the walk from cell to cell leaves.
  Line straightened() const {
    Line line = {way_.front()};
    for (std::size_t i = 0; i + 1 < way_.size();) {
      std::size_t end = i + 1;
      for (std::size_t j = i + 2; j < way_.size() && j <= end + kLookAhead; ++j)
        if (is_straight(way_[i], way_[j])) end = j;
      line.push_back(way_[i = end]);
    }
    return line;
  }
  bool is_straight(const Point& a, const Point& b) const {
    const double length = std::hypot(a.x - b.x, a.y - b.y);
    return std::abs(map_.at(a) - map_.at(b) - length) <= kStraight * (length + 4 * grid_.cell) &&
           sees(a, b);
  }

  const TravelMap& map_;
  const PlanGrid& grid_;
  std::optional<Point> source_;
  Line way_;
  double least_ = kNever;
};

}  // namespace

Line TravelMap::way_back(const Point& from) const {
  if (!std::isfinite(at(from))) return {};
  return Descent(*this, source_).from(from);
}

}  // namespace rootstead
