#include "engine/screening/ring_area.hpp"

#include <cmath>
#include <numbers>

namespace rootstead {
namespace {

double cross(const Point& a, const Point& b) {
  return a.x * b.y - a.y * b.x;
}
double dot(const Point& a, const Point& b) {
  return a.x * b.x + a.y * b.y;
}

// The angle that the ray from the centre turns while its foot goes from one place to another by
// straight steps, none of which comes near the centre: that between the ends, and a full turn for
// each time the foot passes behind. Where it passes is told by both ends of a step, so that corners
// on the very line through the centre cost no turn by rounding.
class Turning {
 public:
  void begin(const Point& from) {
    start_ = from;
    left_ = 0;
    ahead_ = dot(from, from);
    turns_ = 0;
  }
  void step(const Point& to) {
    const double left = cross(start_, to), ahead = dot(start_, to);
    if ((left < 0) != (left_ < 0)) {
      const bool behind = ahead_ * std::abs(left) + ahead * std::abs(left_) < 0;
      if (behind) turns_ += left < 0 ? 1 : -1;
    }
    left_ = left;
    ahead_ = ahead;
  }
  double end() const { return std::atan2(left_, ahead_) + end_at_start(); }
  double end_at_start() const { return 2 * std::numbers::pi * turns_; }

 private:
  Point start_;
  double left_ = 0, ahead_ = 0;  // of the foot, seen from the centre towards the start
  int turns_ = 0;
};

// Adds up twice the area, edge by edge: triangles where the ring runs inside, sectors between.
class Sweep {
 public:
  explicit Sweep(double radius) : squared_(radius * radius) {}

  void begin(const Point& first) {
    outside_ = dot(first, first) > squared_;
    began_outside_ = outside_;
    if (outside_) turning_.begin(first);
  }

  void edge(const Point& a, const Point& b) {
    const double twice_triangle = cross(a, b);
    const bool ends_outside = dot(b, b) > squared_;
    if (!outside_ && !ends_outside) {
      twice_ += twice_triangle;
      return;
    }
    const Point d{b.x - a.x, b.y - a.y};
    const double length_squared = dot(d, d);
    const double way = squared_ * length_squared - twice_triangle * twice_triangle;
    if (way > 0) {
      const double half = std::sqrt(way) / length_squared;
      const double middle = -dot(a, d) / length_squared;
      const double in = outside_ ? middle - half : 0, out = ends_outside ? middle + half : 1;
      if (in < 1 && out > 0 && in < out) {
        passes(a, d, in, out, twice_triangle);
        if (ends_outside) turning_.begin({a.x + out * d.x, a.y + out * d.y});
        if (ends_outside) turning_.step(b);
        outside_ = ends_outside;
        return;
      }
    }
    // A corner on the circle itself may come here by rounding: it is then taken as outside.
    if (!outside_) {
      turning_.begin(a);
      met_ = true;
    }
    turning_.step(b);
    outside_ = true;
    if (!ends_outside) close();
  }

  double area() {
    const bool never_met = began_outside_ && !met_;  // then it ends where it began
    if (outside_) twice_ += squared_ * (never_met ? turning_.end_at_start() : turning_.end());
    return std::abs(twice_) / 2;
  }

 private:
  // The edge runs inside between its shares `in` and `out`.
  void passes(const Point& a, const Point& d, double in, double out, double twice_triangle) {
    if (outside_) {
      turning_.step({a.x + in * d.x, a.y + in * d.y});
      close();
    }
    twice_ += twice_triangle * (out - in);
    met_ = true;
  }
  void close() {
    twice_ += squared_ * turning_.end();
    outside_ = false;
    met_ = true;
  }

  double squared_;
  double twice_ = 0;
  Turning turning_;
  bool outside_ = false, began_outside_ = false, met_ = false;
};

}  // namespace

double area_in_circle(const Point& centre, double radius, std::span<const Point> ring) {
  Sweep sweep(radius);
  Point a{ring.back().x - centre.x, ring.back().y - centre.y};
  sweep.begin(a);
  for (const Point& corner : ring) {
    const Point b{corner.x - centre.x, corner.y - centre.y};
    sweep.edge(a, b);
    a = b;
  }
  return sweep.area();
}

}  // namespace rootstead
