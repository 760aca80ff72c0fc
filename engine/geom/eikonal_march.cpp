#include "engine/geom/eikonal_march.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>

namespace rootstead {
namespace {

constexpr int kBorder = 2;  // blocked cells round the grid: no neighbour lies outside it
constexpr int kBucketsPerCell = 16;
constexpr float kAlike = 0.1F;        // second order only where the slowness differs by no more
constexpr double kBentReach = 32;     // cells from the anchor beyond which fronts count as straight
constexpr double kSameTime = 1e-9;    // cells: ways that differ by less are one
constexpr double kAcrossACell = 1.5;  // cells: no two points of one are so far apart
constexpr double kFirstOrder = 1, kSecondOrder = 2.25;

}  // namespace

EikonalMarch::EikonalMarch(const PlanGrid& grid, const std::vector<double>& speed)
    : grid_(grid),
      columns_(grid.columns + 2 * kBorder),
      rows_(grid.rows + 2 * kBorder),
      stride_(static_cast<Cell>(columns_)),
      nodes_(std::size_t{stride_} * static_cast<std::size_t>(rows_)),
      at_border_(nodes_.size(), 0),
      queue_(grid.cell / kBucketsPerCell) {
  assert(speed.size() == grid.count());
  const double* passing = speed.data();
  for (int row = kBorder; row < rows_ - kBorder; ++row)
    for (int column = kBorder; column < columns_ - kBorder; ++column, ++passing)
      if (*passing > 0) nodes_[cell_at(column, row)].slowness = static_cast<float>(1 / *passing);
  for (int row = kBorder - 1; row < rows_ - kBorder; ++row)
    for (int column = kBorder - 1; column < columns_ - kBorder; ++column)
      mark_border(cell_at(column + 1, row + 1));
}

// The four cells round a corner, if they are not all alike.
void EikonalMarch::mark_border(Cell corner) {
  const Cell below = corner - stride_;
  const float one = nodes_[corner].slowness;
  if (nodes_[corner - 1].slowness == one && nodes_[below].slowness == one &&
      nodes_[below - 1].slowness == one)
    return;
  for (const Cell cell : {corner, corner - 1, below, below - 1}) at_border_[cell] = 1;
}

// No time is less than that of the straight way over open ground, which differences do not know.
std::vector<double> EikonalMarch::times() const {
  std::vector<double> times(grid_.count());
  double* time = times.data();
  for (int row = kBorder; row < rows_ - kBorder; ++row) {
    for (int column = kBorder; column < columns_ - kBorder; ++column) {
      const Node& node = nodes_[cell_at(column, row)];
      const bool exact = !from_source_ || node.anchor == kSource;
      *time++ = exact ? node.time : std::max(node.time, straight_time(column, row));
    }
  }
  return times;
}

double EikonalMarch::straight_time(int column, int row) const {
  const Point& source = anchors_.front().place;
  const double dx = column + 0.5 - source.x, dy = row + 0.5 - source.y;
  return std::sqrt(dx * dx + dy * dy) * grid_.cell;
}

// ---- sight --------------------------------------------------------------------------------------

void EikonalMarch::start_at(const Point& source) {
  const Point place{(source.x - grid_.corner.x) / grid_.cell + kBorder,
                    (source.y - grid_.corner.y) / grid_.cell + kBorder};
  if (!(place.x >= kBorder && place.x < columns_ - kBorder && place.y >= kBorder &&
        place.y < rows_ - kBorder))
    return;
  const int column = static_cast<int>(place.x), row = static_cast<int>(place.y);
  const Cell home = cell_at(column, row);
  nodes_[home].slowness = 1;
  const AnchorNumber number = add_anchor(place, 0, 1);
  from_source_ = true;
  offer(home, std::hypot(column + 0.5 - place.x, row + 0.5 - place.y) * grid_.cell, number | kSeen);
  light(number, {{1, 1}, {-1, 1}, {-1, -1}, {1, -1}});
}

void EikonalMarch::start_in(std::size_t cell, double time) {
  const auto columns = static_cast<std::size_t>(grid_.columns);
  const Cell at = cell_at(static_cast<int>(cell % columns) + kBorder,
                          static_cast<int>(cell / columns) + kBorder);
  if (nodes_[at].slowness != kBlocked) offer(at, time, kNoAnchor);
}

EikonalMarch::AnchorNumber EikonalMarch::add_anchor(const Point& place, double time,
                                                    float slowness) {
  anchors_.push_back({place, time, slowness});
  return static_cast<AnchorNumber>(anchors_.size() - 1);
}

class EikonalMarch::Lighting {
 public:
  Lighting(EikonalMarch& march, AnchorNumber number)
      : march_(march),
        anchor_(march.anchors_[number]),
        mark_(number | kSeen),
        cost_(march.time_across(anchor_.slowness)) {}

  bool open(int column, int row) const {
    return march_.nodes_[march_.cell_at(column, row)].slowness == anchor_.slowness;
  }
  // What is reached so much sooner on another way that its every point is, hides what lies behind:
  // that is reached sooner through it too.
  bool passes(int column, int row, double distance, bool seen) {
    const Cell cell = march_.cell_at(column, row);
    const double time = anchor_.time + distance * cost_;
    Node& node = march_.nodes_[cell];
    if (!(time < node.time)) return time < node.time + kAcrossACell * cost_;
    if (!seen) return true;
    node.time = time;
    node.anchor = mark_;
    march_.lit_.push_back(cell);
    return true;
  }
  bool edges(int column, int row) const {
    return march_.at_border_[march_.cell_at(column, row)] != 0;
  }
  void corner(int column, int row, double distance) {
    march_.offer_corner(march_.cell_at(column, row),
                        {anchor_.time + distance * cost_,
                         {column - anchor_.place.x, row - anchor_.place.y},
                         anchor_.slowness});
  }

 private:
  EikonalMarch& march_;
  Anchor anchor_;
  AnchorNumber mark_;
  double cost_;
};

// Times of all cells and corners that the anchor sees. Of the cells only those at the rim of what
// it sees wait in the queue: the others have nobody to tell.
void EikonalMarch::light(AnchorNumber number, const std::vector<View>& views) {
  lit_.clear();
  Lighting lighting(*this, number);
  Sight sight(anchors_[number].place, lighting);
  for (const View& view : views) sight.look(view);
  for (const Cell cell : lit_)
    if (borders_other(cell)) queue_.push({nodes_[cell].time, cell});
}

bool EikonalMarch::borders_other(Cell cell) const {
  const Node& own = nodes_[cell];
  for (const Cell next : {cell - 1, cell + 1, cell - stride_, cell + stride_})
    if (nodes_[next].anchor != own.anchor && nodes_[next].time > own.time) return true;
  return false;
}

// ---- marching -----------------------------------------------------------------------------------

void EikonalMarch::run() {
  while (!queue_.empty()) {
    const auto [time, cell] = queue_.pop();
    if ((cell & kCorner) != 0) {
      if (time == corners_[cell & ~kCorner].time) bend(cell & ~kCorner);
    } else if (time == nodes_[cell].time) {
      accept(cell);
    }
  }
}

void EikonalMarch::offer(Cell cell, double time, AnchorNumber anchor) {
  Node& node = nodes_[cell];
  if (!(time < node.time)) return;
  node.time = time;
  node.anchor = anchor;
  queue_.push({time, cell});
}

void EikonalMarch::accept(Cell cell) {
  const double now = nodes_[cell].time;
  const int row = static_cast<int>(cell / stride_);
  const int column = static_cast<int>(cell - static_cast<Cell>(row) * stride_);
  if (at_border_[cell] != 0 && !nodes_[cell].seen()) offer_corners_of(cell, {column, row}, now);
  solve(cell - 1, {column - 1, row}, now);
  solve(cell + 1, {column + 1, row}, now);
  solve(cell - stride_, {column, row - 1}, now);
  solve(cell + stride_, {column, row + 1}, now);
}

EikonalMarch::Side EikonalMarch::side(Cell cell, Cell step, double now) const {
  const Node &low = nodes_[cell - step], &high = nodes_[cell + step];
  const bool lower = low.time < high.time;
  const Node& one = lower ? low : high;
  if (!(one.time <= now)) return {};
  const Cell at = lower ? cell - step : cell + step;
  const Node& two = nodes_[lower ? at - step : at + step];
  const float own = nodes_[cell].slowness, alike = kAlike * own;
  Side side{one.time, one.time, kFirstOrder, lower ? -1 : 1, at};
  if (std::abs(one.slowness - own) > alike) {
    side.value += over_the_border(at, step, own);
  } else if (two.time <= one.time && std::abs(two.slowness - own) <= alike) {
    side.value = (4 * one.time - two.time) / 3;
    side.weight = kSecondOrder;
  }
  return side;
}

// The border between two kinds of ground lies halfway between the centres. Along it the rise of
// time is the same on both sides (Snell's law); across it each half of the way has its own.
double EikonalMarch::over_the_border(Cell from, Cell step, float into) const {
  const Cell along = step == 1 ? stride_ : 1;
  const double beside = std::min(nodes_[from - along].time, nodes_[from + along].time);
  const double rise = std::max(0.0, nodes_[from].time - beside);
  const auto across = [&](float slowness) {
    const double cost = time_across(slowness);
    return std::sqrt(std::max(0.0, cost * cost - rise * rise));
  };
  return (across(nodes_[from].slowness) - across(into)) / 2;
}

void EikonalMarch::solve(Cell cell, Place place, double now) {
  const Node& node = nodes_[cell];
  if (!(node.time > now) || node.slowness == kBlocked) return;
  Side x = side(cell, 1, now), y = side(cell, stride_, now);
  const Node& first = nodes_[x.nearest < y.nearest ? x.cell : y.cell];
  AnchorNumber anchor = first.anchor & ~kSeen;
  const double cost = time_across(node.slowness);
  if (anchor != kNoAnchor) {
    if (anchors_[anchor].slowness == node.slowness)
      straighten(anchors_[anchor], place, cost, x, y);
    else
      anchor = kNoAnchor;
  }
  // A time by sight stands against differences between others by sight, whose error could only
  // spoil it; unless it is plainly too long, as behind ground that only slows.
  const bool by_sight = node.seen() && first.seen() && (x.weight == 0 || nodes_[x.cell].seen()) &&
                        (y.weight == 0 || nodes_[y.cell].seen());
  if (by_sight && node.time <= first.time + cost * (1 + kSameTime)) return;
  offer(cell, time_from(x, y, cost), anchor);
}

// Takes out of the differences what those of the straight distance get wrong.
void EikonalMarch::straighten(const Anchor& anchor, Place place, double cost, Side& x,
                              Side& y) const {
  const double dx = place.column + 0.5 - anchor.place.x, dy = place.row + 0.5 - anchor.place.y;
  const double square = dx * dx + dy * dy;
  if (square > kBentReach * kBentReach) return;
  const double r = std::sqrt(square);
  const auto error = [&](const Side& side, double along, double across) {
    const double one = along + side.step, two = one + side.step;
    const double r1 = std::sqrt(one * one + across * across);
    const double rise = -along * side.step / r;
    if (side.weight == kFirstOrder) return r - r1 - rise;
    return r - (4 * r1 - std::sqrt(two * two + across * across)) / 3 - rise * (2.0 / 3);
  };
  if (x.weight > 0) x.value += cost * error(x, dx, dy);
  if (y.weight > 0) y.value += cost * error(y, dy, dx);
}

// T with x.weight (T - x.value)^2 + y.weight (T - y.value)^2 = cost^2, from both sides where the
// front comes from between them, else from the better one.
double EikonalMarch::time_from(const Side& x, const Side& y, double cost) {
  const auto alone = [&](const Side& side) {
    if (side.weight == 0) return std::numeric_limits<double>::infinity();
    return std::max(side.value + (side.weight == kFirstOrder ? cost : cost / 1.5), side.nearest);
  };
  if (x.weight > 0 && y.weight > 0) {
    const double weights = x.weight + y.weight, apart = x.value - y.value;
    const double inside = weights * cost * cost - x.weight * y.weight * apart * apart;
    if (inside >= 0) {
      const double time = (x.weight * x.value + y.weight * y.value + std::sqrt(inside)) / weights;
      if (time >= std::max({x.nearest, y.nearest, x.value, y.value})) return time;
    }
  }
  return std::min(alone(x), alone(y));
}

// ---- corners ------------------------------------------------------------------------------------

std::optional<EikonalMarch::Place> EikonalMarch::block_at(Cell corner, float slowness) const {
  std::optional<Place> block;
  for (const int row : {-1, 1}) {
    for (const int column : {-1, 1}) {
      const Cell cell = corner - (row < 0 ? stride_ : 0U) - (column < 0 ? 1U : 0U);
      if (nodes_[cell].slowness <= slowness) continue;
      if (block) return {};
      block = Place{column, row};
    }
  }
  return block;
}

void EikonalMarch::offer_corner(Cell corner, const Corner& arrival) {
  if (!block_at(corner, arrival.slowness)) return;
  Corner& best = corners_[corner];
  if (!(arrival.time < best.time - kSameTime * grid_.cell)) return;
  best = arrival;
  queue_.push({arrival.time, corner | kCorner});
}

// Where a cell has its time by marching, travel comes to its corners the way its time rises.
void EikonalMarch::offer_corners_of(Cell cell, Place place, double now) {
  const Side x = side(cell, 1, now), y = side(cell, stride_, now);
  const Point way{x.weight > 0 ? -x.step * (now - x.nearest) : 0.0,
                  y.weight > 0 ? -y.step * (now - y.nearest) : 0.0};
  if (way.x == 0 && way.y == 0) return;
  for (const int up : {0, 1})
    for (const int aside : {0, 1})
      offer_corner(cell_at(place.column + aside, place.row + up),
                   {std::max(0.0, now + way.x * (aside - 0.5) + way.y * (up - 0.5)), way,
                    nodes_[cell].slowness});
}

// Sends travel on from a corner into the shadow of the blocked cell there: from the way it came
// round to the face of the block.
void EikonalMarch::bend(Cell corner) {
  constexpr double kLevel = 1e-9, kSteep = std::numeric_limits<double>::infinity();
  const Corner arrival = corners_[corner];
  const Place block = *block_at(corner, arrival.slowness);
  const double x = arrival.way.x * block.column, y = arrival.way.y * block.row;
  const double slope = std::abs(x) > kLevel ? std::abs(y / x) : kSteep;
  const auto go = [&](const View& view) {
    const Cell row = corner / stride_, column = corner - row * stride_;
    const Point place{static_cast<double>(column), static_cast<double>(row)};
    light(add_anchor(place, arrival.time, arrival.slowness), {view});
  };
  if (x <= kLevel && y >= -kLevel)
    go({-block.column, block.row, slope, kSteep});
  else if (x >= -kLevel && y <= kLevel)
    go({block.column, -block.row, 0, slope});
}

}  // namespace rootstead
