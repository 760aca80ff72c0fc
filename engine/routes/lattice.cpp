#include <algorithm>
#include <cmath>
#include <cstdint>
#include <queue>

#include "engine/routes/search.hpp"

namespace rootstead {
namespace {

constexpr int kDirections = 2 * kAxes;
constexpr std::size_t kMethods = kRouteMethods;

// A cell that a step passes, and how much of the step's length lies in it.
struct Passed {
  int columns, rows;
  float share;
};

// The cells of the straight way from one cell's centre to another's, both included. The two cells
// beside a crossed corner count a little, so that nothing slips between two blocked ones.
std::vector<Passed> passed_by(const AxisStep& step) {
  constexpr int kParts = 240;
  constexpr float kBeside = 0.01F;
  std::vector<Passed> cells;
  const auto add = [&](int c, int r, float share) {
    for (Passed& one : cells)
      if (one.columns == c && one.rows == r) return static_cast<void>(one.share += share);
    cells.push_back({c, r, share});
  };
  for (int i = 0; i < kParts; ++i) {
    const double t = (i + 0.5) / kParts;
    add(static_cast<int>(std::floor(0.5 + t * step.columns)),
        static_cast<int>(std::floor(0.5 + t * step.rows)), 1.0F / kParts);
  }
  for (std::size_t i = 1, along = cells.size(); i < along; ++i) {
    const Passed a = cells[i - 1], b = cells[i];
    if (a.columns == b.columns || a.rows == b.rows) continue;
    cells[i - 1].share -= kBeside;
    cells[i].share -= kBeside;
    add(b.columns, a.rows, kBeside);
    add(a.columns, b.rows, kBeside);
  }
  return cells;
}

struct Step {
  AxisStep by;
  int axis = 0;
  double length = 0;  // in cells
  std::vector<Passed> passed;
};

std::array<Step, kDirections> make_steps() {
  std::array<Step, kDirections> steps;
  for (int a = 0; a < kAxes; ++a) {
    const auto axis = static_cast<std::size_t>(a);
    const AxisStep on = axis_steps()[axis];
    const AxisStep back{-on.columns, -on.rows};
    const double length = std::hypot(on.columns, on.rows);
    steps[axis] = {on, a, length, passed_by(on)};
    steps[axis + kAxes] = {back, a, length, passed_by(back)};
  }
  return steps;
}

// A*: the straight distance at the least price of a metre never says too much.
class Lattice {
 public:
  Lattice(const CostField& field, const AllowedMethods& allowed, std::size_t goal)
      : field_(field),
        grid_(field.grid()),
        allowed_(allowed),
        goal_(goal),
        steps_(make_steps()),
        spent_(grid_.count() * kMethods, HUGE_VAL),
        came_(grid_.count() * kMethods, kFromNowhere),
        least_(HUGE_VAL) {
    for (std::size_t m = 0; m < kMethods; ++m)
      if (allowed_[m]) least_ = std::min(least_, field.least(static_cast<RouteMethod>(m)));
  }

  std::optional<LatticeWay> from(std::size_t start, const Point& a, const Point& b) {
    for (std::size_t m = 0; m < kMethods; ++m) {
      const auto method = static_cast<RouteMethod>(m);
      if (!allowed_[m]) continue;
      const double entry = method == RouteMethod::bore ? static_cast<double>(field_.pit(start)) : 0;
      offer(start * kMethods + m, entry, kStart);
    }
    while (!queue_.empty()) {
      const Waiting next = queue_.top();
      queue_.pop();
      if (next.spent > spent_[next.state]) continue;
      if (next.state == kMethods * grid_.count()) return LatticeWay{traced(a, b), done_};
      expand(next.state);
    }
    return {};
  }

 private:
  // How a state was come to: by one of the steps, by another method, or at the start.
  static constexpr std::uint8_t kByMethod = kDirections, kStart = 254, kFromNowhere = 255;

  struct Waiting {
    double least_in_all, spent;
    std::size_t state;
    bool operator<(const Waiting& other) const { return least_in_all > other.least_in_all; }
  };

  double still(std::size_t cell) const {
    const auto columns = static_cast<std::size_t>(grid_.columns);
    const std::size_t row = cell / columns, goal_row = goal_ / columns;
    const double dx = static_cast<double>(cell % columns) - static_cast<double>(goal_ % columns);
    const double dy = static_cast<double>(row) - static_cast<double>(goal_row);
    return std::sqrt(dx * dx + dy * dy) * grid_.cell * least_;
  }

  void offer(std::size_t state, double spent, std::uint8_t came) {
    if (!(spent < spent_[state])) return;
    spent_[state] = spent;
    came_[state] = came;
    queue_.push({spent + still(state / kMethods), spent, state});
  }

  void expand(std::size_t state) {
    const std::size_t cell = state / kMethods, m = state % kMethods;
    const auto method = static_cast<RouteMethod>(m);
    const double spent = spent_[state];
    if (cell == goal_) finish(state, method);
    const int column = static_cast<int>(cell % static_cast<std::size_t>(grid_.columns));
    const int row = static_cast<int>(cell / static_cast<std::size_t>(grid_.columns));
    for (std::size_t s = 0; s < steps_.size(); ++s) {
      const Step& step = steps_[s];
      const int c = column + step.by.columns, r = row + step.by.rows;
      if (c < 0 || r < 0 || c >= grid_.columns || r >= grid_.rows) continue;
      const std::size_t to = grid_.index(c, r) * kMethods + m;
      if (!(spent < spent_[to])) continue;
      float metre = 0;
      for (const Passed& one : step.passed)
        metre += one.share *
                 field_.along(method, grid_.index(column + one.columns, row + one.rows), step.axis);
      if (!(metre < kNoWay)) continue;
      offer(to, spent + static_cast<double>(metre) * step.length * grid_.cell,
            static_cast<std::uint8_t>(s));
    }
    for (std::size_t other = 0; other < kMethods; ++other) {
      if (other == m || !allowed_[other]) continue;
      // Out of a bore costs no less than a change, or a bore without length would be one for free.
      const double pit = static_cast<double>(field_.pit(cell)), plain = field_.prices().change;
      const bool in = other == static_cast<std::size_t>(RouteMethod::bore);
      const double change = in ? pit : method == RouteMethod::bore ? std::max(pit, plain) : plain;
      if (change < HUGE_VAL)
        offer(cell * kMethods + other, spent + change, static_cast<std::uint8_t>(kByMethod + m));
    }
  }

  // The goal is one more state, so that a bore's last pit is paid for.
  void finish(std::size_t state, RouteMethod method) {
    const double exit = method == RouteMethod::bore ? static_cast<double>(field_.pit(goal_)) : 0;
    const double spent = spent_[state] + exit;
    if (!(spent < done_) || !(exit < HUGE_VAL)) return;
    done_ = spent;
    last_ = state;
    spent_.resize(kMethods * grid_.count() + 1, HUGE_VAL);
    spent_.back() = spent;
    queue_.push({spent, spent, kMethods * grid_.count()});
  }

  RouteWay traced(const Point& a, const Point& b) const {
    struct Stop {
      Point at;
      std::size_t method;
    };
    std::vector<Stop> stops;  // backwards; the method is that of the piece before the stop
    std::size_t state = last_;
    const auto centre = [&](std::size_t cell) {
      return grid_.centre(static_cast<int>(cell % static_cast<std::size_t>(grid_.columns)),
                          static_cast<int>(cell / static_cast<std::size_t>(grid_.columns)));
    };
    RouteWay way;
    Line line = {b};
    const auto finish_stretch = [&](std::size_t method) {
      if (line.size() < 2) return;
      std::reverse(line.begin(), line.end());
      way.push_back({line, static_cast<RouteMethod>(method)});
    };
    for (;;) {
      const std::size_t cell = state / kMethods, m = state % kMethods;
      const std::uint8_t came = came_[state];
      const Point here = cell == goal_ ? b : centre(cell);
      if (came == kStart) {
        line.back() == here ? static_cast<void>(line.back() = a) : line.push_back(a);
        finish_stretch(m);
        break;
      }
      if (came >= kByMethod) {
        if (line.back() != here) line.push_back(here);
        finish_stretch(m);
        line = {here};
        state = cell * kMethods + (came - kByMethod);
        continue;
      }
      if (line.back() != here) line.push_back(here);
      const AxisStep& by = steps_[came].by;
      const int column = static_cast<int>(cell % static_cast<std::size_t>(grid_.columns));
      const int row = static_cast<int>(cell / static_cast<std::size_t>(grid_.columns));
      state = grid_.index(column - by.columns, row - by.rows) * kMethods + m;
    }
    std::reverse(way.begin(), way.end());
    return way;
  }

  const CostField& field_;
  const PlanGrid& grid_;
  AllowedMethods allowed_;
  std::size_t goal_;
  std::array<Step, kDirections> steps_;
  std::vector<double> spent_;
  std::vector<std::uint8_t> came_;
  double least_, done_ = HUGE_VAL;
  std::size_t last_ = 0;
  std::priority_queue<Waiting> queue_;
};

// Without the points that lie on a straight line between their neighbours.
Line merged(const Line& line) {
  Line kept;
  for (const Point& p : line) {
    while (kept.size() >= 2) {
      const Point &a = kept[kept.size() - 2], &b = kept.back();
      const double cross = (b.x - a.x) * (p.y - b.y) - (b.y - a.y) * (p.x - b.x);
      const double size = std::hypot(b.x - a.x, b.y - a.y) * std::hypot(p.x - b.x, p.y - b.y);
      if (std::abs(cross) > 1e-9 * size) break;
      kept.pop_back();
    }
    if (kept.empty() || !(p == kept.back())) kept.push_back(p);
  }
  return kept;
}

}  // namespace

std::optional<LatticeWay> lattice_way(const CostField& field, const Point& from, const Point& to,
                                      const AllowedMethods& allowed) {
  const auto start = field.grid().index_at(from), goal = field.grid().index_at(to);
  if (!start || !goal) return {};
  if (*start == *goal) {
    for (std::size_t m = 0; m < kMethods; ++m)
      if (allowed[m]) {
        const auto method = static_cast<RouteMethod>(m);
        return LatticeWay{{{{from, to}, method}}, field.straight(method, from, to)};
      }
    return {};
  }
  auto way = Lattice(field, allowed, *goal).from(*start, from, to);
  if (!way) return {};
  for (RouteStretch& stretch : way->way) stretch.line = merged(stretch.line);
  way->way.erase(std::remove_if(way->way.begin(), way->way.end(),
                                [](const RouteStretch& one) { return one.line.size() < 2; }),
                 way->way.end());
  return way;
}

}  // namespace rootstead
