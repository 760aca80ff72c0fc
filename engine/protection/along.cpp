#include "engine/protection/along.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/geom/measure.hpp"
#include "engine/geom/ray.hpp"

namespace rootstead {
namespace {

constexpr double kSame = 1e-6;  // m: chainages closer than this are one

// Intervals that touch become one.
void append(std::vector<Interval>& intervals, const Interval& next) {
  if (next.second - next.first <= 0) return;
  if (!intervals.empty() && next.first - intervals.back().second <= kSame)
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

// ---- slivers ------------------------------------------------------------------------------------

bool touch(const TreeStretch& one, const TreeStretch& next) {
  return next.on.first - one.on.second <= kSame;
}

bool is_sliver(const TreeStretch& one, double least) {
  return one.on.second - one.on.first < least - kSame;
}

bool as_careful(const TreeStretch& one, const TreeStretch& as) {
  return one.near_stem || !as.near_stem;
}

void join(TreeStretch& one, const TreeStretch& other) {
  one.on = {std::min(one.on.first, other.on.first), std::max(one.on.second, other.on.second)};
  std::set<std::size_t> trees(one.trees.begin(), one.trees.end());
  trees.insert(other.trees.begin(), other.trees.end());
  one.trees.assign(trees.begin(), trees.end());
}

// Each to the one it touches that is dug in the same way, or else with more care.
void join_slivers(std::vector<TreeStretch>& all, double least) {
  for (std::size_t i = 0; i < all.size();) {
    const auto takes = [&](std::size_t other, bool touches) {
      return touches && as_careful(all[other], all[i]);
    };
    const bool before = i > 0 && takes(i - 1, touch(all[i - 1], all[i]));
    const bool after = i + 1 < all.size() && takes(i + 1, touch(all[i], all[i + 1]));
    if (!is_sliver(all[i], least) || !(before || after)) {
      ++i;
      continue;
    }
    const bool alike_before = before && all[i - 1].near_stem == all[i].near_stem;
    const std::size_t into = before && (alike_before || !after) ? i - 1 : i + 1;
    join(all[into], all[i]);
    all.erase(all.begin() + static_cast<std::ptrdiff_t>(i));
    i = std::min(i, into);
  }
}

// About its middle, within the line; what it then overlaps ends there.
void grow_sliver(std::vector<TreeStretch>& all, std::size_t i, double length, double least) {
  Interval& on = all[i].on;
  const double from =
      std::clamp((on.first + on.second - least) / 2, 0.0, std::max(0.0, length - least));
  on = {from, std::min(length, from + least)};
  if (i > 0) all[i - 1].on.second = std::min(all[i - 1].on.second, on.first);
  if (i + 1 < all.size()) all[i + 1].on.first = std::max(all[i + 1].on.first, on.second);
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
    if (passed > from + kSame && passed < to - kSame) part.push_back(line[i]);
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

std::vector<TreeStretch> stretches_of(const std::vector<TreeInterval>& intervals) {
  std::vector<double> breaks;
  for (const TreeInterval& one : intervals) {
    breaks.push_back(one.on.first);
    breaks.push_back(one.on.second);
  }
  std::sort(breaks.begin(), breaks.end());
  std::vector<TreeStretch> found;
  for (std::size_t i = 0; i + 1 < breaks.size(); ++i) {
    if (breaks[i + 1] - breaks[i] <= kSame) continue;
    const double middle = (breaks[i] + breaks[i + 1]) / 2;
    TreeStretch stretch{{breaks[i], breaks[i + 1]}, {}, false};
    std::set<std::size_t> trees;
    for (const TreeInterval& one : intervals) {
      if (one.on.first > middle || one.on.second < middle) continue;
      trees.insert(one.tree);
      stretch.near_stem = stretch.near_stem || one.near_stem;
    }
    stretch.trees.assign(trees.begin(), trees.end());
    if (stretch.trees.empty()) continue;
    const bool same = !found.empty() && found.back().trees == stretch.trees &&
                      found.back().near_stem == stretch.near_stem &&
                      stretch.on.first - found.back().on.second <= kSame;
    if (same)
      found.back().on.second = stretch.on.second;
    else
      found.push_back(std::move(stretch));
  }
  return found;
}

std::vector<TreeStretch> without_slivers(std::vector<TreeStretch> stretches, double length,
                                         double least) {
  join_slivers(stretches, least);
  for (const bool careful : {false, true}) {
    for (std::size_t i = 0; i < stretches.size(); ++i) {
      if (stretches[i].near_stem == careful && is_sliver(stretches[i], least))
        grow_sliver(stretches, i, length, least);
    }
  }
  join_slivers(stretches, least);
  return stretches;
}

}  // namespace rootstead
