#include "engine/cutting/bore_line.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "engine/geom/measure.hpp"

namespace rootstead {
namespace {

constexpr double kTouch = 1e-9;  // m: spans this near to each other are one

// Shares of the way from a to b within the circle; from > to where there are none.
ChainSpan share_within(const Point& a, const Point& b, const Point& centre, double radius) {
  const double dx = b.x - a.x, dy = b.y - a.y, ax = a.x - centre.x, ay = a.y - centre.y;
  const double length2 = dx * dx + dy * dy;
  const double along = -(ax * dx + ay * dy) / length2;
  const double cross = ax * dy - ay * dx;
  const double half2 = radius * radius / length2 - cross * cross / (length2 * length2);
  if (half2 <= 0) return {1, 0};
  const double half = std::sqrt(half2);
  return {std::max(0.0, along - half), std::min(1.0, along + half)};
}

// Which leg a chainage lies on, and how far along it begins.
struct Leg {
  std::size_t first = 0;
  double start = 0, length = 0;
};
Leg leg_at(const Line& line, double chainage) {
  Leg leg;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const double start = leg.start + leg.length;
    const double length = distance(line[i], line[i + 1]).metres();
    if (length <= 0) continue;
    leg = {i, start, length};
    if (chainage <= start + length) break;
  }
  return leg;
}

}  // namespace

std::vector<ChainSpan> spans_within(const Line& line, const Point& centre, double radius) {
  std::vector<ChainSpan> spans;
  double start = 0;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const double length = distance(line[i], line[i + 1]).metres();
    if (length <= 0) continue;
    const ChainSpan share = share_within(line[i], line[i + 1], centre, radius);
    if (share.from < share.to) {
      const ChainSpan span{start + share.from * length, start + share.to * length};
      if (!spans.empty() && span.from <= spans.back().to + kTouch)
        spans.back().to = span.to;
      else
        spans.push_back(span);
    }
    start += length;
  }
  return spans;
}

Point point_at(const Line& line, double chainage) {
  assert(line.size() > 1);
  const Leg leg = leg_at(line, chainage);
  if (leg.length <= 0) return line.front();
  const double share = std::clamp((chainage - leg.start) / leg.length, 0.0, 1.0);
  const Point &a = line[leg.first], &b = line[leg.first + 1];
  return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
}

Angle direction_at(const Line& line, double chainage) {
  assert(line.size() > 1);
  const Leg leg = leg_at(line, chainage);
  return azimuth(line[leg.first], line[leg.first + 1]);
}

Line piece_of(const Line& line, double from, double to) {
  Line piece;
  if (line.size() < 2 || to - from <= kTouch) return piece;
  piece.push_back(point_at(line, from));
  double start = 0;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    start += distance(line[i], line[i + 1]).metres();
    if (start > from + kTouch && start < to - kTouch) piece.push_back(line[i + 1]);
  }
  piece.push_back(point_at(line, to));
  return piece;
}

}  // namespace rootstead
