#include "engine/geom/eikonal_march.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>

namespace rootstead {
namespace {

constexpr int kBorder = 2;  // blocked cells round the grid: no neighbour lies outside it
constexpr int kBucketsPerCell = 16;
constexpr float kAlike = 0.1F;     // second order only where the slowness differs by no more
constexpr double kBentReach = 32;  // cells from the anchor beyond which fronts count as straight
constexpr double kFirstOrder = 1, kSecondOrder = 2.25;

}  // namespace

EikonalMarch::EikonalMarch(const PlanGrid& grid, const std::vector<double>& speed)
    : grid_(grid),
      columns_(grid.columns + 2 * kBorder),
      rows_(grid.rows + 2 * kBorder),
      stride_(static_cast<Cell>(columns_)),
      nodes_(std::size_t{stride_} * static_cast<std::size_t>(rows_)),
      beside_blocked_(nodes_.size(), 0),
      queue_(grid.cell / kBucketsPerCell) {
  assert(speed.size() == grid.count());
  const double* passing = speed.data();
  for (int row = kBorder; row < rows_ - kBorder; ++row) {
    for (int column = kBorder; column < columns_ - kBorder; ++column, ++passing) {
      const Cell cell = cell_at(column, row);
      if (*passing > 0)
        nodes_[cell].slowness = static_cast<float>(1 / *passing);
      else
        block_round(cell);
    }
  }
}

void EikonalMarch::block_round(Cell cell) {
  for (const Cell across : {cell - stride_, cell, cell + stride_})
    for (const Cell beside : {across - 1, across, across + 1}) beside_blocked_[beside] = 1;
}

// No time is less than that of the straight way over open ground, which differences do not know.
std::vector<double> EikonalMarch::times() const {
  std::vector<double> times(grid_.count());
  double* time = times.data();
  for (int row = kBorder; row < rows_ - kBorder; ++row) {
    for (int column = kBorder; column < columns_ - kBorder; ++column) {
      const Node& node = nodes_[cell_at(column, row)];
      *time++ = node.seen() || !from_source_ ? node.time
                                             : std::max(node.time, straight_time(column, row));
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
  if (!blocked(at)) offer(at, time, kNoAnchor);
}

EikonalMarch::AnchorNumber EikonalMarch::add_anchor(const Point& place, double time,
                                                    float slowness) {
  anchors_.push_back({place, time, slowness});
  return static_cast<AnchorNumber>(anchors_.size() - 1);
}

// Times of all cells that the anchor sees. Only those at the rim of what it sees wait in the queue:
// the others have nobody to tell.
void EikonalMarch::light(AnchorNumber number, const std::vector<View>& views) {
  const Anchor anchor = anchors_[number];
  const double cost = time_across(anchor.slowness);
  lit_.clear();
  const auto open = [&](int column, int row) { return is_like(column, row, anchor.slowness); };
  const auto seen = [&](int column, int row, double distance) {
    const Cell cell = cell_at(column, row);
    const double time = anchor.time + distance * cost;
    Node& node = nodes_[cell];
    if (!(time < node.time)) return;
    node.time = time;
    node.anchor = number | kSeen;
    lit_.push_back(cell);
  };
  Sight sight(anchor.place, open, seen);
  for (const View& view : views) sight.look(view);
  for (const Cell cell : lit_)
    if (beside_blocked_[cell] != 0 || borders_other(cell)) queue_.push({nodes_[cell].time, cell});
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
    if (time == nodes_[cell].time) accept(cell);
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
  if (beside_blocked_[cell] != 0) bend_round_corners(cell, {column, row});
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
  if (node.seen() && first.seen() && (x.weight == 0 || nodes_[x.cell].seen()) &&
      (y.weight == 0 || nodes_[y.cell].seen()))
    return;  // by sight from both: nothing to add
  AnchorNumber anchor = first.anchor & ~kSeen;
  const double cost = time_across(node.slowness);
  if (anchor != kNoAnchor) {
    if (anchors_[anchor].slowness == node.slowness)
      straighten(anchors_[anchor], place, cost, x, y);
    else
      anchor = kNoAnchor;
  }
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

// Outer corners of blocked ground at this cell: those with one blocked cell of four.
void EikonalMarch::bend_round_corners(Cell cell, Place place) {
  for (const int up : {-1, 1}) {
    for (const int aside : {-1, 1}) {
      const Cell beside = aside > 0 ? cell + 1 : cell - 1;
      const Cell above = up > 0 ? cell + stride_ : cell - stride_;
      const Cell across = aside > 0 ? above + 1 : above - 1;
      const int walls = blocked(beside) + blocked(above) + blocked(across);
      if (walls != 1) continue;
      const Place block{blocked(above) ? -aside : aside, blocked(beside) ? -up : up};
      bend(cell, place, {aside, up}, block);
    }
  }
}

// When and which way travel comes to a corner of the cell.
EikonalMarch::Arrival EikonalMarch::arrival_at(Cell cell, Place place, const Point& corner) const {
  const Node& node = nodes_[cell];
  const Point centre{place.column + 0.5, place.row + 0.5};
  if (node.seen()) {
    const Anchor& from = anchors_[node.anchor & ~kSeen];
    constexpr double kAside = 1e-6;  // off the wall's face, into the cell
    const Point beside{corner.x + kAside * (centre.x - corner.x),
                       corner.y + kAside * (centre.y - corner.y)};
    const bool in_view = in_sight(beside, from.place, [&](int column, int row) {
      return is_like(column, row, from.slowness);
    });
    const Point way{corner.x - from.place.x, corner.y - from.place.y};
    const double length = std::hypot(way.x, way.y);
    return {from.time + length * time_across(from.slowness), way, in_view && length > 0};
  }
  const Side x = side(cell, 1, node.time), y = side(cell, stride_, node.time);
  const Point rise{x.weight > 0 ? -x.step * (node.time - x.nearest) : 0.0,
                   y.weight > 0 ? -y.step * (node.time - y.nearest) : 0.0};
  const double time = node.time + rise.x * (corner.x - centre.x) + rise.y * (corner.y - centre.y);
  return {std::max(0.0, time), rise, rise.x != 0 || rise.y != 0};
}

// Sends travel on from a corner of the cell, into the shadow of the blocked cell there: from the
// way it came on, towards the face of the block. `towards`, `block`: signs, of the corner from the
// cell's centre and of the block from the corner.
void EikonalMarch::bend(Cell cell, Place place, Place towards, Place block) {
  const Place corner{place.column + (towards.column > 0), place.row + (towards.row > 0)};
  const Point at{static_cast<double>(corner.column), static_cast<double>(corner.row)};
  const Arrival arrival = arrival_at(cell, place, at);
  if (!arrival.any) return;
  constexpr double kLevel = 1e-9;
  const double along_x = arrival.way.x * block.column, along_y = arrival.way.y * block.row;
  const double slope = std::abs(along_x) > kLevel ? std::abs(along_y / along_x)
                                                  : std::numeric_limits<double>::infinity();
  View view;
  if (along_x <= kLevel && along_y >= -kLevel)
    view = {-block.column, block.row, slope, std::numeric_limits<double>::infinity()};
  else if (along_x >= -kLevel && along_y <= kLevel)
    view = {block.column, -block.row, 0, slope};
  else
    return;
  const auto [best, fresh] = corners_.try_emplace(cell_at(corner.column, corner.row),
                                                  std::numeric_limits<double>::infinity());
  if (arrival.time >= best->second * (1 - 1e-12)) return;
  best->second = arrival.time;
  light(add_anchor(at, arrival.time, nodes_[cell].slowness), {view});
}

}  // namespace rootstead
