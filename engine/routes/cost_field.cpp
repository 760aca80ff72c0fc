#include "engine/routes/cost_field.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

#include "engine/cutting/cut_distance.hpp"
#include "engine/geom/along.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/roots/root_model.hpp"
#include "engine/soil/pressing.hpp"

namespace rootstead {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kLeastFromStem = 0.25;  // m: nearer, a line counts as if it were here
// How fast the weight of a severed thick root falls with its distance from the trunk; of palms, in
// metres. Only leads the search. Our assumption.
constexpr double kHoldDiameters = 1.5, kHoldOfPalms = 0.5;

struct Direction {
  double x, y;
};

const std::array<Direction, kAxes>& axis_directions() {
  static const std::array<Direction, kAxes> directions = [] {
    std::array<Direction, kAxes> made{};
    for (int a = 0; a < kAxes; ++a) {
      const auto [c, r] = axis_steps()[static_cast<std::size_t>(a)];
      const double length = std::hypot(c, r);
      made[static_cast<std::size_t>(a)] = {c / length, r / length};
    }
    return made;
  }();
  return directions;
}

// Two neighbouring axes of a direction and the weight of the second.
struct BetweenAxes {
  int first, second;
  double weight;
};

BetweenAxes between_axes(double dx, double dy) {
  static const std::array<double, kAxes> angles = [] {
    std::array<double, kAxes> made{};
    for (int a = 0; a < kAxes; ++a) {
      const Direction& d = axis_directions()[static_cast<std::size_t>(a)];
      made[static_cast<std::size_t>(a)] = std::atan2(d.y, d.x);
    }
    return made;
  }();
  double angle = std::atan2(dy, dx);
  if (angle < 0) angle += kPi;
  if (angle >= kPi) angle -= kPi;
  const auto next = std::upper_bound(angles.begin(), angles.end(), angle) - angles.begin();
  const int first = static_cast<int>(next) - 1, second = static_cast<int>(next) % kAxes;
  const double from = angles[static_cast<std::size_t>(first)];
  const double to = second == 0 ? kPi : angles[static_cast<std::size_t>(second)];
  return {first, second, (angle - from) / (to - from)};
}

// The best guess of one tree's fine roots, by direction and distance from the stem.
class PolarRoots {
 public:
  PolarRoots(const RootModel& model, const Point& stem, double extent, double depth)
      : rings_(std::max(2, static_cast<int>(std::ceil(extent / kRing)))) {
    dense_.resize(kRays * static_cast<std::size_t>(rings_ + 1));
    beyond_.resize(dense_.size());
    for (std::size_t ray = 0; ray < kRays; ++ray) {
      const double angle = 2 * kPi * static_cast<double>(ray) / kRays;
      for (int i = 0; i < rings_; ++i) {
        const double r = (i + 0.5) * kRing;
        const Point at{stem.x + r * std::cos(angle), stem.y + r * std::sin(angle)};
        dense_[index(ray, i)] =
            model.plan_density(at) * model.share_above(at, Length::metres(depth));
      }
      for (int i = rings_ - 1; i >= 0; --i)
        beyond_[index(ray, i)] =
            beyond_[index(ray, i + 1)] + dense_[index(ray, i)] * (i + 0.5) * kRing * kRing;
    }
  }

  struct Here {
    double dense;   // share of all roots a square metre, above the depth
    double beyond;  // share a radian, from `inner` outward
  };
  Here at(double angle, double r, double inner) const {
    double turn = angle / (2 * kPi) * kRays;
    if (turn < 0) turn += kRays;
    const auto first = static_cast<std::size_t>(turn) % kRays, second = (first + 1) % kRays;
    const double w = turn - std::floor(turn);
    return {(1 - w) * dense(first, r) + w * dense(second, r),
            (1 - w) * beyond(first, inner) + w * beyond(second, inner)};
  }

 private:
  static constexpr std::size_t kRays = 72;
  static constexpr double kRing = 0.25;  // m

  std::size_t index(std::size_t ray, int ring) const {
    return ray * static_cast<std::size_t>(rings_ + 1) + static_cast<std::size_t>(ring);
  }
  double dense(std::size_t ray, double r) const {
    const int ring = static_cast<int>(r / kRing);
    return ring < rings_ ? dense_[index(ray, ring)] : 0;
  }
  double beyond(std::size_t ray, double r) const {
    const double place = r / kRing;
    const int ring = static_cast<int>(place);
    if (ring >= rings_) return 0;
    const double w = place - ring;
    return (1 - w) * beyond_[index(ray, ring)] + w * beyond_[index(ray, ring + 1)];
  }

  int rings_;
  std::vector<double> dense_, beyond_;
};

bool weighs_on_plan(const Tree& tree) {
  return tree.position && tree.intent != Intent::remove && tree.condition != Condition::dead;
}

}  // namespace

// In the order of their angle from the columns' axis, from 0 to below half a turn.
const std::array<AxisStep, kAxes>& axis_steps() {
  static constexpr std::array<AxisStep, kAxes> kSteps = {{{1, 0},
                                                          {3, 1},
                                                          {2, 1},
                                                          {3, 2},
                                                          {1, 1},
                                                          {2, 3},
                                                          {1, 2},
                                                          {1, 3},
                                                          {0, 1},
                                                          {-1, 3},
                                                          {-1, 2},
                                                          {-2, 3},
                                                          {-1, 1},
                                                          {-3, 2},
                                                          {-2, 1},
                                                          {-3, 1}}};
  return kSteps;
}

CostField::CostField(const PlanGrid& grid, const std::vector<float>& open,
                     const std::vector<float>& hand, const std::vector<float>& bore,
                     const RoutePrices& prices)
    : grid_(grid),
      prices_(prices),
      bore_(bore),
      pit_(grid.count(), static_cast<float>(prices.pit)),
      extra_(grid.count(), 0) {
  assert(open.size() == grid.count() && hand.size() == open.size() && bore.size() == open.size());
  for (std::size_t cell = 0; cell < grid.count(); ++cell) {
    open_.insert(open_.end(), kAxes, open[cell]);
    hand_.insert(hand_.end(), kAxes, hand[cell]);
  }
}

CostField::CostField(const PlanGrid& grid, const Site& site, const Tables& tables,
                     const RoutePrices& prices, const LineSize& size, const RouteGround& ground)
    : grid_(grid),
      prices_(prices),
      open_(grid.count() * kAxes, static_cast<float>(prices.open)),
      hand_(grid.count() * kAxes, static_cast<float>(prices.hand)),
      bore_(grid.count(), static_cast<float>(prices.bore)),
      pit_(grid.count(), static_cast<float>(prices.pit)),
      extra_(grid.count(), 0) {
  for (const Tree& tree : site.trees)
    if (weighs_on_plan(tree)) add_tree(tree, site, tables, size);
  block(ground, size.width / 2);
}

// What one tree adds at one place: what is severed or let go by a metre of line that runs straight
// across, and what any metre costs there whichever way it runs.
struct CostField::Pull {
  double across = 0, hold = 0;            // straight across; less by the angle to it
  double dug = 0, trodden = 0, near = 0;  // any direction
  double tx = 0, ty = 0;                  // the direction straight across
};

class CostField::TreePull {
 public:
  TreePull(const Tree& tree, const Site& site, const Tables& tables, const RoutePrices& prices,
           const LineSize& size)
      : prices_(prices), size_(size), stem_(tree.position->at) {
    const CutDistance cut = cut_distance(tree, tables);
    trunk_ = cut.trunk_radius.metres();
    near_ = cut.least ? trunk_ + cut.least->metres() : 0;
    hold_scale_ =
        cut.palm || !cut.diameter ? kHoldOfPalms : kHoldDiameters * cut.diameter->metres();
    pressed_ = working_room_effect(site.soil, tables).share.best;
    double extent = 0;
    if (const auto model = root_model(tree, site, tables)) {
      extent = (*model)->likely_extent().metres();
      roots_.emplace(**model, stem_, extent, size.depth);
    }
    reach_ = std::max({extent, near_, trunk_ + size.pit_side}) + size.pit_side;
  }

  double reach() const { return reach_; }
  const Point& stem() const { return stem_; }
  bool beneath_trunk(double r) const { return r < trunk_ + size_.width; }

  Pull at(double dx, double dy, double r) const {
    const double held_at = std::max(r, kLeastFromStem);
    const double inner = std::max(0.0, r - size_.width / 2);
    const PolarRoots::Here here =
        roots_ ? roots_->at(std::atan2(dy, dx), r, inner) : PolarRoots::Here{0, 0};
    Pull pull;
    pull.across = prices_.roots * here.beyond / held_at;
    pull.hold =
        prices_.hold * std::exp(-std::max(0.0, r - trunk_) / hold_scale_) / (2 * kPi * held_at);
    pull.dug = prices_.roots * here.dense * size_.width;
    pull.trodden = prices_.roots * here.dense * 2 * size_.room * pressed_;
    pull.near = r < near_ ? prices_.near_stem : 0;
    pull.tx = -dy / held_at;
    pull.ty = dx / held_at;
    return pull;
  }

 private:
  const RoutePrices& prices_;
  const LineSize& size_;
  Point stem_;
  std::optional<PolarRoots> roots_;
  double trunk_ = 0, near_ = 0, hold_scale_ = 1, pressed_ = 0, reach_ = 0;
};

void CostField::add_tree(const Tree& tree, const Site& site, const Tables& tables,
                         const LineSize& size) {
  const TreePull pull(tree, site, tables, prices_, size);
  const Point& stem = pull.stem();
  const double reach = pull.reach();
  const auto clamped = [&](double place, double corner, int count) {
    return std::clamp(static_cast<int>(std::floor((place - corner) / grid_.cell)), 0, count);
  };
  const int left = clamped(stem.x - reach, grid_.corner.x, grid_.columns);
  const int right = clamped(stem.x + reach + grid_.cell, grid_.corner.x, grid_.columns);
  const int low = clamped(stem.y - reach, grid_.corner.y, grid_.rows);
  const int high = clamped(stem.y + reach + grid_.cell, grid_.corner.y, grid_.rows);
  for (int row = low; row < high; ++row) {
    for (int column = left; column < right; ++column) {
      const Point at = grid_.centre(column, row);
      const double dx = at.x - stem.x, dy = at.y - stem.y, r = std::hypot(dx, dy);
      if (r > reach) continue;
      const std::size_t cell = grid_.index(column, row);
      add(pull.at(dx, dy, r), cell, size.pit_side, size.width);
      if (pull.beneath_trunk(r)) bore_[cell] = kNoWay;
    }
  }
}

void CostField::add(const Pull& pull, std::size_t cell, double pit_side, double width) {
  const double fine = 1 - prices_.hand_fine_kept, thick = 1 - prices_.hand_thick_kept;
  for (std::size_t a = 0; a < kAxes; ++a) {
    const Direction& axis = axis_directions()[a];
    const double turned = std::abs(pull.tx * axis.x + pull.ty * axis.y);
    const double severed = pull.dug + pull.across * turned;
    const double held = pull.hold * turned + pull.near;
    open_[cell * kAxes + a] += static_cast<float>(severed + pull.trodden + held);
    hand_[cell * kAxes + a] += static_cast<float>(fine * severed + thick * held);
  }
  const double dug = width > 0 ? pull.dug / width * pit_side : 0;
  pit_[cell] += static_cast<float>((pull.across + dug + pull.hold + pull.near) * pit_side);
}

void CostField::block(const RouteGround& ground, double half_width) {
  const auto shut = [&](std::size_t cell, bool all) {
    std::fill_n(open_.begin() + static_cast<std::ptrdiff_t>(cell * kAxes), kAxes, kNoWay);
    std::fill_n(hand_.begin() + static_cast<std::ptrdiff_t>(cell * kAxes), kAxes, kNoWay);
    pit_[cell] = kNoWay;
    if (all) bore_[cell] = kNoWay;
  };
  const auto shut_in = [&](const MultiPolygon& area, bool all) {
    if (area.empty()) return;
    const auto touched = cells_touched(grid_, grown(area, Length::metres(half_width), 8));
    for (std::size_t cell = 0; cell < touched.size(); ++cell)
      if (touched[cell] != 0) shut(cell, all);
  };
  shut_in(ground.digging, false);
  shut_in(ground.all, true);
  if (ground.within.empty()) return;
  const auto inside = cells_inside(grid_, ground.within);
  for (std::size_t cell = 0; cell < inside.size(); ++cell)
    if (inside[cell] == 0) shut(cell, true);
}

// Are both cells beside a corner shut that a line crosses?
bool CostField::shut_beside(RouteMethod method, int column, int row, int right, int up) const {
  const auto shut = [&](int c, int r) {
    return c < 0 || r < 0 || c >= grid_.columns || r >= grid_.rows ||
           !(along(method, grid_.index(c, r), 0) < kNoWay);
  };
  return shut(column + right, row) && shut(column, row + up);
}

// From cell to cell along the line, each with the length inside it.
double CostField::straight(RouteMethod method, const Point& a, const Point& b) const {
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  if (!(length > 0)) return open_at(a) ? 0 : static_cast<double>(kNoWay);
  const BetweenAxes axes = between_axes(b.x - a.x, b.y - a.y);
  const double ax = (a.x - grid_.corner.x) / grid_.cell, ay = (a.y - grid_.corner.y) / grid_.cell;
  const double bx = (b.x - grid_.corner.x) / grid_.cell, by = (b.y - grid_.corner.y) / grid_.cell;
  int column = static_cast<int>(std::floor(ax)), row = static_cast<int>(std::floor(ay));
  const int right = bx > ax ? 1 : -1, up = by > ay ? 1 : -1;
  const double every_x = bx != ax ? 1 / std::abs(bx - ax) : HUGE_VAL;
  const double every_y = by != ay ? 1 / std::abs(by - ay) : HUGE_VAL;
  double next_x = bx != ax ? (right > 0 ? column + 1 - ax : ax - column) * every_x : HUGE_VAL;
  double next_y = by != ay ? (up > 0 ? row + 1 - ay : ay - row) * every_y : HUGE_VAL;
  constexpr double kThere = 1 - 1e-9;
  double sum = 0, done = 0;
  for (;;) {
    if (column < 0 || row < 0 || column >= grid_.columns || row >= grid_.rows) return HUGE_VAL;
    const double to = std::min({next_x, next_y, 1.0});
    const std::size_t cell = grid_.index(column, row);
    const double here = (1 - axes.weight) * static_cast<double>(along(method, cell, axes.first)) +
                        axes.weight * static_cast<double>(along(method, cell, axes.second));
    if (!(here < HUGE_VAL)) return HUGE_VAL;
    sum += here * (to - done);
    if (to >= kThere) return sum * length;
    done = to;
    const bool over_x = next_x <= to, over_y = next_y <= to;
    if (over_x && over_y && shut_beside(method, column, row, right, up)) return HUGE_VAL;
    if (over_x) column += right, next_x += every_x;
    if (over_y) row += up, next_y += every_y;
  }
}

double CostField::pit_at(const Point& at) const {
  const auto cell = grid_.index_at(at);
  return cell ? static_cast<double>(pit_[*cell]) : static_cast<double>(kNoWay);
}

bool CostField::open_at(const Point& at) const {
  const auto cell = grid_.index_at(at);
  return cell && (along(RouteMethod::open, *cell, 0) < kNoWay || bore_[*cell] < kNoWay);
}

void CostField::shun(const Line& line, double within, double money_a_metre) {
  if (line.size() < 2) return;
  const Box box = box_of(line);
  for (int row = 0; row < grid_.rows; ++row) {
    for (int column = 0; column < grid_.columns; ++column) {
      const Point at = grid_.centre(column, row);
      if (at.x < box.min_x - within || at.x > box.max_x + within || at.y < box.min_y - within ||
          at.y > box.max_y + within)
        continue;
      double away = HUGE_VAL;
      for (std::size_t i = 1; i < line.size() && away > within; ++i)
        away = std::min(away, distance_to_segment(at, line[i - 1], line[i]));
      if (away <= within) extra_[grid_.index(column, row)] += static_cast<float>(money_a_metre);
    }
  }
}

void CostField::forget_shunned() {
  std::fill(extra_.begin(), extra_.end(), 0.0F);
}

}  // namespace rootstead
