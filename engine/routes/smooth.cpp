#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/geom/measure.hpp"
#include "engine/routes/search.hpp"

namespace rootstead {
namespace {

constexpr double kLeastGain = 1e-9;     // share of the cost
constexpr double kLongestStep = 4;      // m, by which a corner is moved at first
constexpr double kShortestStep = 0.05;  // m, and at last
constexpr int kRoundsAStep = 12;
constexpr double kLongestPiece = 12;  // m: longer straight pieces get a corner to try

double turn_at(const Point& a, const Point& b, const Point& c) {
  const double ux = b.x - a.x, uy = b.y - a.y, vx = c.x - b.x, vy = c.y - b.y;
  return std::abs(std::atan2(ux * vy - uy * vx, ux * vx + uy * vy));
}

// A way as one list of corners, the method of each piece, and what each piece costs.
class Corners {
 public:
  Corners(const RouteWay& way, const CostField& field, const SearchOptions& options,
          const std::vector<Point>& fixed)
      : field_(field), options_(options) {
    for (const RouteStretch& stretch : way)
      for (const Point& p : stretch.line) {
        if (at_.empty()) {
          at_.push_back(p);
        } else if (!(at_.back() == p)) {
          at_.push_back(p);
          method_.push_back(stretch.method);
        }
      }
    for (const Point& p : at_)
      fixed_.push_back(std::find(fixed.begin(), fixed.end(), p) != fixed.end());
    if (fixed_.empty()) return;
    fixed_.front() = fixed_.back() = true;
  }

  double cost() const { return total(at_, method_); }

  void smooth() {
    if (at_.size() < 2) return;
    best_ = cost();
    if (!(best_ < HUGE_VAL)) return;
    take_out();
    for (double step = kLongestStep; step >= kShortestStep; step /= 2) {
      if (step == kLongestStep || step == kLongestStep / 4) add_corners();
      for (int round = 0; round < kRoundsAStep && move_all(step); ++round) {
      }
      take_out();
    }
  }

  RouteWay way() const {
    RouteWay made;
    for (std::size_t i = 0; i < method_.size(); ++i) {
      if (made.empty() || made.back().method != method_[i]) made.push_back({{at_[i]}, method_[i]});
      made.back().line.push_back(at_[i + 1]);
    }
    return made;
  }

  double total(const Line& at, const std::vector<RouteMethod>& method) const {
    double sum = 0;
    for (std::size_t i = 0; i < method.size(); ++i) sum += piece(at[i], at[i + 1], method[i]);
    for (std::size_t i = 0; i < at.size(); ++i) sum += corner(at, method, i);
    return sum;
  }

 private:
  double piece(const Point& a, const Point& b, RouteMethod method) const {
    return field_.straight(method, a, b);
  }

  // Pits, changes and bends at one point of the way.
  double corner(const Line& at, const std::vector<RouteMethod>& method, std::size_t i) const {
    const bool first = i == 0, last = i + 1 == at.size();
    const bool bored =
        (!first && method[i - 1] == RouteMethod::bore) || (!last && method[i] == RouteMethod::bore);
    const double turn = first || last ? 0 : turn_at(at[i - 1], at[i], at[i + 1]);
    const bool bends = turn > options_.bend_angle * std::numbers::pi / 180;
    double sum = bends ? field_.prices().bend : 0;
    const bool changes = !first && !last && method[i - 1] != method[i];
    if (bored) {
      if (first || last || changes || bends) sum += field_.pit_at(at[i]);
      return sum;
    }
    if (changes) sum += field_.prices().change;
    if (options_.least_radius > 0 && turn > 0) {
      const double needs =
          options_.least_radius * std::tan(std::min(turn, 0.99 * std::numbers::pi) / 2);
      const double room = std::min(std::hypot(at[i].x - at[i - 1].x, at[i].y - at[i - 1].y),
                                   std::hypot(at[i].x - at[i + 1].x, at[i].y - at[i + 1].y)) /
                          2;
      if (needs > room) sum += field_.prices().open * 10 * (needs - room);
    }
    return sum;
  }

  // What changes where the points from `a` to `b` change.
  double around(const Line& at, const std::vector<RouteMethod>& method, std::size_t a,
                std::size_t b) const {
    double sum = 0;
    const std::size_t from = a > 0 ? a - 1 : 0, to = std::min(b + 1, at.size() - 1);
    for (std::size_t i = from; i < to; ++i) sum += piece(at[i], at[i + 1], method[i]);
    for (std::size_t i = from; i <= to; ++i) sum += corner(at, method, i);
    return sum;
  }

  // Corners between pieces of one method go wherever the way is no dearer without them; between
  // methods, a stretch may be given up for its neighbour's method.
  void take_out() {
    for (bool any = true; any;) {
      any = false;
      for (std::size_t i = 1; i + 1 < at_.size(); ++i) {
        if (fixed_[i]) continue;
        for (const RouteMethod method : {method_[i - 1], method_[i]}) {
          if (!try_without(i, method)) continue;
          any = true;
          --i;
          break;
        }
      }
    }
  }

  bool try_without(std::size_t i, RouteMethod method) {
    Line at = at_;
    std::vector<RouteMethod> methods = method_;
    at.erase(at.begin() + static_cast<std::ptrdiff_t>(i));
    methods.erase(methods.begin() + static_cast<std::ptrdiff_t>(i));
    methods[i - 1] = method;
    const double before = around(at_, method_, i - 1, i + 1);
    const double after = around(at, methods, i - 1, i);
    if (!(after <= before * (1 + kLeastGain))) return false;
    at_ = std::move(at);
    method_ = std::move(methods);
    fixed_.erase(fixed_.begin() + static_cast<std::ptrdiff_t>(i));
    return true;
  }

  // A long straight piece may be better bent.
  void add_corners() {
    for (std::size_t i = 0; i + 1 < at_.size(); ++i) {
      const double length = std::hypot(at_[i + 1].x - at_[i].x, at_[i + 1].y - at_[i].y);
      if (length < kLongestPiece || method_[i] == RouteMethod::bore) continue;
      const Point middle{(at_[i].x + at_[i + 1].x) / 2, (at_[i].y + at_[i + 1].y) / 2};
      at_.insert(at_.begin() + static_cast<std::ptrdiff_t>(i + 1), middle);
      method_.insert(method_.begin() + static_cast<std::ptrdiff_t>(i), method_[i]);
      fixed_.insert(fixed_.begin() + static_cast<std::ptrdiff_t>(i + 1), false);
      ++i;
    }
  }

  bool move_all(double step) {
    bool any = false;
    for (std::size_t i = 1; i + 1 < at_.size(); ++i) {
      if (fixed_[i]) continue;
      const Point here = at_[i];
      Point best = here;
      const double before = around(at_, method_, i, i);
      double least = before;
      for (int k = 0; k < 8; ++k) {
        const double angle = k * std::numbers::pi / 4;
        at_[i] = {here.x + step * std::cos(angle), here.y + step * std::sin(angle)};
        const double cost = around(at_, method_, i, i);
        if (cost < least * (1 - kLeastGain)) least = cost, best = at_[i];
      }
      at_[i] = best;
      any = any || least < before * (1 - 1e-6);
    }
    return any;
  }

  const CostField& field_;
  const SearchOptions& options_;
  Line at_;
  std::vector<RouteMethod> method_;
  std::vector<char> fixed_;
  double best_ = 0;
};

}  // namespace

RouteWay smoothed(RouteWay way, const CostField& field, const SearchOptions& options,
                  const std::vector<Point>& fixed) {
  Corners corners(way, field, options, fixed);
  const double before = corners.cost();
  corners.smooth();
  return corners.cost() <= before ? corners.way() : way;
}

double cost_of(const RouteWay& way, const CostField& field, const SearchOptions& options) {
  return Corners(way, field, options, {}).cost();
}

Line line_of(const RouteWay& way) {
  Line line;
  for (const RouteStretch& stretch : way)
    for (const Point& p : stretch.line)
      if (line.empty() || !(line.back() == p)) line.push_back(p);
  return line;
}

int bends_of(const Line& line, double least_degrees) {
  int bends = 0;
  for (std::size_t i = 1; i + 1 < line.size(); ++i)
    if (turn_at(line[i - 1], line[i], line[i + 1]) > least_degrees * std::numbers::pi / 180)
      ++bends;
  return bends;
}

std::optional<Line> rounded(const Line& line, double radius) {
  if (!(radius > 0) || line.size() < 3) return line;
  constexpr double kChord = std::numbers::pi / 18;
  Line made = {line.front()};
  double taken = 0;  // of the piece before, by the arc before
  for (std::size_t i = 1; i + 1 < line.size(); ++i) {
    const Point &a = line[i - 1], &b = line[i], &c = line[i + 1];
    const double turn = turn_at(a, b, c);
    const double before = std::hypot(b.x - a.x, b.y - a.y),
                 after = std::hypot(c.x - b.x, c.y - b.y);
    const double needs = radius * std::tan(turn / 2);
    if (needs + taken > before * (1 + 1e-9) || needs > after * (1 + 1e-9)) return {};
    const Point u{(b.x - a.x) / before, (b.y - a.y) / before};
    const Point v{(c.x - b.x) / after, (c.y - b.y) / after};
    const double side = u.x * v.y - u.y * v.x > 0 ? 1 : -1;
    const Point from{b.x - u.x * needs, b.y - u.y * needs};
    const Point middle{from.x - side * u.y * radius, from.y + side * u.x * radius};
    const int chords = std::max(1, static_cast<int>(std::ceil(turn / kChord)));
    const double begin = std::atan2(from.y - middle.y, from.x - middle.x);
    for (int k = 0; k <= chords; ++k) {
      const double angle = begin + side * turn * k / chords;
      made.push_back({middle.x + radius * std::cos(angle), middle.y + radius * std::sin(angle)});
    }
    taken = needs;
  }
  made.push_back(line.back());
  return made;
}

int pits_of(const RouteWay& way) {
  int pits = 0;
  for (const RouteStretch& stretch : way)
    if (stretch.method == RouteMethod::bore) pits += static_cast<int>(stretch.line.size());
  return pits;
}

int changes_of(const RouteWay& way) {
  int changes = 0;
  for (std::size_t i = 1; i < way.size(); ++i)
    if (way[i].method != way[i - 1].method && way[i].method != RouteMethod::bore &&
        way[i - 1].method != RouteMethod::bore)
      ++changes;
  return changes;
}

}  // namespace rootstead
