// What a point sees over the cells of a grid, exactly: straight lines against square cells that are
// open or not. Coordinates are columns and rows: cell (c, r) is the square from (c, r) to
// (c + 1, r + 1). Internal to engine/geom.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "engine/geom/shapes.hpp"

namespace rootstead {

// A part of a quarter of the plane round the eye: signs of its two axes, and which slopes
// |dy| / |dx| it holds.
struct View {
  int x = 1, y = 1;
  double low = 0, high = std::numeric_limits<double>::infinity();
};

// Walks over what the eye sees within a view and tells `finds`:
//   open(column, row)             may be seen through; false on a frame round all that is reached
//   passes(column, row, distance, seen)  an open cell of which the eye sees some, and its centre
//                                 where `seen`; answers whether what lies behind it is of interest
//   edges(column, row)            is anybody interested in the corners of this open cell?
//   corner(column, row, distance) a corner of such a cell that the eye sees, by the cell whose
//   least
//                                 corner it is; may come more than once
// The cell in which the eye stands counts as any other, and is not seen from its own centre.
// Between two cells that touch at a corner nothing is seen. Cost: the cells seen, and those that
// bound them.
template <class Finds>
class Sight {
 public:
  Sight(const Point& eye, Finds& finds) : eye_(eye), finds_(finds) {}

  void look(const View& view) {
    if (view.low <= 1)
      cone(Axis(eye_.x, view.x), Axis(eye_.y, view.y), {view.low, std::min(view.high, 1.0)},
           [](int along, int across) {
             return Column{along, across};
           });
    if (view.high >= 1)
      cone(Axis(eye_.y, view.y), Axis(eye_.x, view.x), {1 / view.high, std::min(1 / view.low, 1.0)},
           [](int along, int across) {
             return Column{across, along};
           });
  }

 private:
  static constexpr double kThin = 1e-12;  // slopes closer than this leave no view between them

  struct Column {
    int column, row;
  };
  struct Slopes {
    double low, high;
  };
  // Cells along one axis, counted from the eye outward; coordinates from the eye outward too.
  struct Axis {
    int first, step;
    double behind;  // how much of the first cell lies behind the eye
    Axis(double eye, int sign)
        : first(static_cast<int>(sign > 0 ? std::floor(eye) : std::ceil(eye) - 1)),
          step(sign),
          behind(sign > 0 ? eye - first : first + 1 - eye) {}
    int cell(int i) const { return first + step * i; }
    int side(int i) const { return step > 0 ? first + i : first + 1 - i; }
  };

  // All cells whose slope across / along is at most 1: one line of cells after the other.
  template <class Place>
  void cone(const Axis& along, const Axis& across, const Slopes& slopes, const Place& place) {
    views_.assign(1, slopes);
    for (int i = 0; !views_.empty(); ++i) {
      next_.clear();
      for (const Slopes& view : views_) line(along, across, i, view, place);
      views_.swap(next_);
    }
  }

  // One line of cells within one view; keeps what is to be seen past it.
  template <class Place>
  void line(const Axis& along, const Axis& across, int i, const Slopes& view, const Place& place) {
    const double near = std::max(0.0, i - along.behind), far = i + 1 - along.behind;
    const double middle = i + 0.5 - along.behind;
    const double least = (view.low - kThin) * middle, most = (view.high + kThin) * middle;
    double from = view.low;
    const int last = static_cast<int>(view.high * far + across.behind);
    for (int j = static_cast<int>(view.low * near + across.behind); j <= last; ++j) {
      const auto [column, row] = place(along.cell(i), across.cell(j));
      const double side = j - across.behind;
      if (finds_.open(column, row)) {
        const double centre = side + 0.5;
        const double distance = std::sqrt(middle * middle + centre * centre);
        const bool seen = centre >= least && centre <= most && middle > 0;
        if (finds_.passes(column, row, distance, seen)) {
          if (finds_.edges(column, row)) corners(along, across, i, j, {from, view.high}, place);
          continue;
        }
      }
      keep({from, std::min(view.high, std::max(0.0, side) / far)});
      from = std::max(from, near > 0 ? (side + 1) / near : 2);
      if (from >= view.high) return;
    }
    keep({from, view.high});
  }
  void keep(const Slopes& slopes) {
    if (slopes.high - slopes.low > kThin) next_.push_back(slopes);
  }

  template <class Place>
  void corners(const Axis& along, const Axis& across, int i, int j, const Slopes& view,
               const Place& place) {
    for (int a = i; a <= i + 1; ++a) {
      for (int b = j; b <= j + 1; ++b) {
        const double ahead = a - along.behind, aside = b - across.behind;
        if (ahead < kThin || aside < (view.low - kThin) * ahead ||
            aside > (view.high + kThin) * ahead)
          continue;
        const auto [column, row] = place(along.side(a), across.side(b));
        finds_.corner(column, row, std::sqrt(ahead * ahead + aside * aside));
      }
    }
  }

  Point eye_;
  Finds& finds_;
  std::vector<Slopes> views_, next_;
};

// Does the straight line from a to b run through open cells only? Through a corner where only one
// of the cells beside it is open it passes.
template <class Open>
bool in_sight(const Point& a, const Point& b, const Open& open) {
  struct Axis {
    int cell, step;
    double next, every;  // where the next side is crossed, and how far on the one after; of the way
    Axis(double from, double to)
        : cell(static_cast<int>(std::floor(from))), step(to > from ? 1 : -1) {
      const double way = std::abs(to - from);
      every = way > 0 ? 1 / way : std::numeric_limits<double>::infinity();
      next = way > 0 ? (step > 0 ? cell + 1 - from : from - cell) * every : every;
    }
    void cross() { cell += step, next += every; }
  };
  constexpr double kTogether = 1e-12;
  constexpr double kThere = 1 - 1e-6;  // b may lie on the side of a cell that is not open
  Axis x(a.x, b.x), y(a.y, b.y);
  for (;;) {
    if (!open(x.cell, y.cell)) return false;
    const double next = std::min(x.next, y.next);
    if (next >= kThere) return true;
    const bool over_x = x.next <= next + kTogether, over_y = y.next <= next + kTogether;
    if (over_x && over_y && !open(x.cell + x.step, y.cell) && !open(x.cell, y.cell + y.step))
      return false;
    if (over_x) x.cross();
    if (over_y) y.cross();
  }
}

}  // namespace rootstead
