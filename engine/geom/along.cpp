#include "engine/geom/along.hpp"

#include <algorithm>
#include <cmath>

#include "engine/geom/measure.hpp"
#include "engine/geom/ray.hpp"

namespace rootstead {
namespace {

constexpr double kSameChainage = 1e-6;  // m: chainages closer than this are one

// Intervals that touch become one.
void append(std::vector<Interval>& intervals, const Interval& next) {
  if (next.second - next.first <= 0) return;
  if (!intervals.empty() && next.first - intervals.back().second <= kSameChainage)
    intervals.back().second = std::max(intervals.back().second, next.second);
  else
    intervals.push_back(next);
}

// What of each straight run `crossings` gives, put on one chainage.
template <class Crossings>
std::vector<Interval> along_runs(const Line& line, Crossings crossings) {
  std::vector<Interval> found;
  double passed = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double run = distance(line[i - 1], line[i]).metres();
    if (!(run > 0)) continue;
    for (const Interval& on : crossings(line[i - 1], line[i], run))
      append(found, {passed + on.first, passed + on.second});
    passed += run;
  }
  return found;
}

std::vector<Interval> in_circle(const Point& a, const Point& b, double run, const Circle& circle) {
  const double ux = (b.x - a.x) / run, uy = (b.y - a.y) / run;
  const double cx = circle.centre.x - a.x, cy = circle.centre.y - a.y;
  const double along = cx * ux + cy * uy, aside = cx * uy - cy * ux;
  const double r = circle.radius.metres();
  if (!(std::abs(aside) < r)) return {};
  const double half = std::sqrt(r * r - aside * aside);
  const double from = std::max(0.0, along - half), to = std::min(run, along + half);
  if (!(from < to)) return {};
  return {{from, to}};
}

}  // namespace

std::vector<Interval> inside(const Line& line, const MultiPolygon& area) {
  return along_runs(line, [&](const Point& a, const Point& b, double run) {
    return ray_crossings(a, azimuth(a, b), run, area);
  });
}

std::vector<Interval> inside(const Line& line, const Circle& circle) {
  return along_runs(line, [&](const Point& a, const Point& b, double run) {
    return in_circle(a, b, run, circle);
  });
}

double length_of(const std::vector<Interval>& intervals) {
  double sum = 0;
  for (const Interval& on : intervals) sum += on.second - on.first;
  return sum;
}

Point point_along(const Line& line, double chainage) {
  double passed = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double run = distance(line[i - 1], line[i]).metres();
    if (run > 0 && chainage <= passed + run) {
      const double t = std::max(0.0, (chainage - passed) / run);
      return {line[i - 1].x + t * (line[i].x - line[i - 1].x),
              line[i - 1].y + t * (line[i].y - line[i - 1].y)};
    }
    passed += run;
  }
  return line.back();
}

Line part_of(const Line& line, double from, double to) {
  Line part{point_along(line, from)};
  double passed = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    passed += distance(line[i - 1], line[i]).metres();
    if (passed > from + kSameChainage && passed < to - kSameChainage) part.push_back(line[i]);
  }
  part.push_back(point_along(line, to));
  return part;
}

double distance_to_segment(const Point& at, const Point& a, const Point& b) {
  const double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
  if (!(square > 0)) return distance(at, a).metres();
  const double t = std::clamp(((at.x - a.x) * dx + (at.y - a.y) * dy) / square, 0.0, 1.0);
  return distance(at, Point{a.x + t * dx, a.y + t * dy}).metres();
}

double nearest_chainage(const Line& line, const Point& at) {
  double best = 0, least = HUGE_VAL, passed = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Point& a = line[i - 1];
    const Point& b = line[i];
    const double run = distance(a, b).metres();
    const double away = distance_to_segment(at, a, b);
    if (run > 0 && away < least) {
      least = away;
      const double along = ((at.x - a.x) * (b.x - a.x) + (at.y - a.y) * (b.y - a.y)) / run;
      best = passed + std::clamp(along, 0.0, run);
    }
    passed += run;
  }
  return best;
}

}  // namespace rootstead
