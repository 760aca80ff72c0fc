// Random plan shapes for property tests, far from the origin as real grids are.
#pragma once

#include <cmath>
#include <iostream>
#include <numbers>
#include <random>

#include "engine/geom/shapes.hpp"

namespace rootstead::test {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  double between(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine_);
  }
  int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(engine_); }

 private:
  std::mt19937_64 engine_;
};

// For a loop of its own: prints the seed, so that a failure can be seen again.
inline Dice announced_dice(std::uint64_t seed) {
  std::cout << "[ seed     ] " << seed << "\n";
  return Dice(seed);
}

// A ring without self-crossings: corners in order of direction, distances at random.
inline Ring star(Dice& dice, const Point& centre, double smallest, double largest) {
  const int corners = dice.whole(3, 24);
  Ring ring;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * (i + dice.between(0.05, 0.95)) / corners;
    const double reach = dice.between(smallest, largest);
    ring.push_back({centre.x + reach * std::cos(angle), centre.y + reach * std::sin(angle)});
  }
  return ring;
}

// A star, half of the time with a hole about its middle, in either orientation.
inline Polygon star_polygon(Dice& dice, const Point& centre, double largest) {
  const double hole = largest / 3;
  Polygon polygon{star(dice, centre, hole * 2, largest), {}};
  if (polygon.outer.size() > 5 && dice.whole(0, 1) == 1)
    polygon.holes.push_back(star(dice, centre, hole / 4, hole));
  if (dice.whole(0, 1) == 1) polygon.outer = {polygon.outer.rbegin(), polygon.outer.rend()};
  return polygon;
}

// The shape moved and turned (counter-clockwise, about the origin, before the move).
template <class Points>
Points moved(const Points& points, double turn, double dx, double dy) {
  Points result = points;
  for (Point& p : result) {
    p = {p.x * std::cos(turn) - p.y * std::sin(turn) + dx,
         p.x * std::sin(turn) + p.y * std::cos(turn) + dy};
  }
  return result;
}

inline Polygon moved(const Polygon& polygon, double turn, double dx, double dy) {
  Polygon result{moved(polygon.outer, turn, dx, dy), {}};
  for (const Ring& hole : polygon.holes) result.holes.push_back(moved(hole, turn, dx, dy));
  return result;
}

inline Polygon rectangle(double min_x, double min_y, double max_x, double max_y) {
  return {{{min_x, min_y}, {max_x, min_y}, {max_x, max_y}, {min_x, max_y}}, {}};
}

}  // namespace rootstead::test
