// The travel distance against independent searches, and its properties on random ground.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>
#include <numeric>
#include <queue>
#include <utility>

#include "engine/base/random.hpp"
#include "engine/geom/eikonal.hpp"
#include "engine/geom/measure.hpp"
#include "tests/engine/geom/travel_scene.hpp"

namespace rootstead {
namespace {

using test::TravelScene;

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr double kEdge = 6 - 1e-6;  // of the framed grid: nothing squeezes along it

double apart(const Point& a, const Point& b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

// ---- the taut string among rectangles, by a graph of corners that see each other ----------------

struct Block {
  double x0, y0, x1, y1;
};

// Does the segment run through the inside of the block?
bool cuts(const Block& block, const Point& a, const Point& b) {
  double from = 0, to = 1;
  const auto clip = [&](double start, double way, double low, double high) {
    if (way == 0) {
      if (start <= low || start >= high) to = -1;
      return;
    }
    const double one = (low - start) / way, two = (high - start) / way;
    from = std::max(from, std::min(one, two));
    to = std::min(to, std::max(one, two));
  };
  clip(a.x, b.x - a.x, block.x0, block.x1);
  clip(a.y, b.y - a.y, block.y0, block.y1);
  return to - from > 1e-9;
}

class CornerGraph {
 public:
  CornerGraph(const Point& source, const std::vector<Block>& blocks) : blocks_(blocks) {
    places_ = {source};
    for (const Block& b : blocks)
      for (const Point corner : {Point{b.x0, b.y0}, {b.x1, b.y0}, {b.x1, b.y1}, {b.x0, b.y1}})
        places_.push_back(corner);
    length_.assign(places_.size(), kInfinite);
    length_[0] = 0;
    std::vector<bool> done(places_.size(), false);
    for (std::size_t round = 0; round < places_.size(); ++round) {
      std::size_t next = places_.size();
      for (std::size_t i = 0; i < places_.size(); ++i)
        if (!done[i] && length_[i] < (next == places_.size() ? kInfinite : length_[next])) next = i;
      if (next == places_.size()) break;
      done[next] = true;
      for (std::size_t i = 0; i < places_.size(); ++i)
        if (sees(places_[next], places_[i]))
          length_[i] = std::min(length_[i], length_[next] + apart(places_[next], places_[i]));
    }
  }
  double to(const Point& point) const {
    double best = kInfinite;
    for (std::size_t i = 0; i < places_.size(); ++i)
      if (sees(places_[i], point)) best = std::min(best, length_[i] + apart(places_[i], point));
    return best;
  }

 private:
  bool sees(const Point& a, const Point& b) const {
    return std::none_of(blocks_.begin(), blocks_.end(),
                        [&](const Block& block) { return cuts(block, a, b); });
  }
  std::vector<Block> blocks_;
  std::vector<Point> places_;
  std::vector<double> length_;
};

// Blocks along the cells, not touching one another nor the source at (0.1, 0.1).
std::vector<Block> random_blocks(RandomStream& random, int wanted, double half, double cell) {
  std::vector<Block> blocks;
  for (int tries = 0; tries < 200 && static_cast<int>(blocks.size()) < wanted; ++tries) {
    const auto snapped = [&](double low, double high) {
      return std::round(random.uniform(low, high) / cell) * cell;
    };
    const double x = snapped(-half, half - 1), y = snapped(-half, half - 1);
    const Block block{x, y, x + snapped(cell, 4), y + snapped(cell, 4)};
    const auto near = [&](const Block& other) {
      return block.x0 <= other.x1 + cell && other.x0 <= block.x1 + cell &&
             block.y0 <= other.y1 + cell && other.y0 <= block.y1 + cell;
    };
    if (near({0, 0, 0.2, 0.2}) || std::any_of(blocks.begin(), blocks.end(), near)) continue;
    blocks.push_back(block);
  }
  return blocks;
}

RC_GTEST_PROP(TravelDistanceOracle, IsTheTautStringAmongRectangles, ()) {
  RandomStream random(*rc::gen::arbitrary<std::uint64_t>(), "blocks");
  TravelScene scene(6, 0.2);
  const auto blocks = random_blocks(random, 8, 6, 0.2);
  for (const Block& b : blocks) scene.lay(0, b.x0, b.y0, b.x1, b.y1);
  const Point source{0.1, 0.1};
  const TravelMap map = travel_from(source, scene.grid, scene.speed);
  // The edge of the grid stops travel, which the graph does not know: frame it.
  auto framed = blocks;
  for (const Block& frame :
       {Block{-9, -9, -kEdge, 9}, Block{kEdge, -9, 9, 9}, Block{-9, -9, 9, -kEdge}, Block{-9, kEdge, 9, 9}})
    framed.push_back(frame);
  const CornerGraph graph(source, framed);
  for (int i = 0; i < 60; ++i) {
    const int column = static_cast<int>(random.uniform(0, scene.grid.columns));
    const int row = static_cast<int>(random.uniform(0, scene.grid.rows));
    const std::size_t cell = scene.grid.index(column, row);
    if (scene.speed[cell] == 0) continue;
    const double exact = graph.to(scene.grid.centre(column, row));
    if (std::isfinite(exact) || std::isfinite(map.times()[cell]))
      RC_ASSERT(std::abs(map.times()[cell] - exact) < 1e-9);
  }
}

// ---- mixed ground, by Dijkstra over 32 directions -----------------------------------------------

double speed_at(const TravelScene& scene, double column, double row) {
  return scene.speed[scene.grid.index(static_cast<int>(column), static_cast<int>(row))];
}

// Time of the straight step from the middle of one cell to that of another, by its crossings.
// Infinite where it would squeeze through a corner between two blocked cells.
double time_of_step(const TravelScene& scene, double column, double row, int dx, int dy) {
  std::vector<double> at = {0, 1};
  for (int k = 0; k < std::abs(dx); ++k) at.push_back((k + 0.5) / std::abs(dx));
  for (int k = 0; k < std::abs(dy); ++k) at.push_back((k + 0.5) / std::abs(dy));
  std::sort(at.begin(), at.end());
  double time = 0;
  const double length = std::hypot(dx, dy) * scene.grid.cell;
  for (std::size_t i = 1; i < at.size(); ++i) {
    const double middle = (at[i - 1] + at[i]) / 2, share = at[i] - at[i - 1];
    if (share > 1e-12) {
      time += share * length / speed_at(scene, column + 0.5 + middle * dx, row + 0.5 + middle * dy);
      continue;
    }
    const double x = column + 0.5 + middle * dx, y = row + 0.5 + middle * dy;  // a corner
    const double ahead = dx > 0 ? 0.5 : -0.5, up = dy > 0 ? 0.5 : -0.5;
    if (speed_at(scene, x + ahead, y - up) == 0 && speed_at(scene, x - ahead, y + up) == 0)
      return kInfinite;
  }
  return time;
}

// Times of the best ways made of steps in 32 directions from cell centre to cell centre: never less
// than the true time, and in even ground at most 1.3 % more.
std::vector<double> by_steps(const TravelScene& scene, std::size_t source) {
  std::vector<std::pair<int, int>> steps;
  for (int dx = -4; dx <= 4; ++dx)
    for (int dy = -4; dy <= 4; ++dy)
      if (std::gcd(dx, dy) == 1 && std::max(std::abs(dx), std::abs(dy)) <= 3)
        steps.emplace_back(dx, dy);
  std::vector<double> times(scene.grid.count(), kInfinite);
  using Entry = std::pair<double, std::size_t>;
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue;
  queue.emplace(times[source] = 0, source);
  const auto columns = static_cast<std::size_t>(scene.grid.columns);
  while (!queue.empty()) {
    const auto [time, cell] = queue.top();
    queue.pop();
    if (time > times[cell]) continue;
    const int column = static_cast<int>(cell % columns), row = static_cast<int>(cell / columns);
    for (const auto& [dx, dy] : steps) {
      const int c = column + dx, r = row + dy;
      if (c < 0 || r < 0 || c >= scene.grid.columns || r >= scene.grid.rows) continue;
      const std::size_t next = scene.grid.index(c, r);
      if (scene.speed[next] == 0) continue;
      const double then =
          time + time_of_step(scene, column, row, dx, dy);
      if (then < times[next]) queue.emplace(times[next] = then, next);
    }
  }
  return times;
}

TravelScene random_ground(RandomStream& random, double half, double cell, int patches) {
  TravelScene scene(half, cell);
  for (int i = 0; i < patches; ++i) {
    const double x = random.uniform(-half, half), y = random.uniform(-half, half);
    double width = random.uniform(0.2, 3), depth = random.uniform(0.2, 0.8);
    if (random.uniform() < 0.5) std::swap(width, depth);
    const double kinds[] = {0, 0, 0.15, 0.5, 0.8};
    scene.lay(kinds[random.next() % 5], x, y, x + width, y + depth);
  }
  return scene;
}

std::size_t middle_of(TravelScene& scene) {
  const std::size_t middle = scene.grid.index(scene.grid.columns / 2, scene.grid.rows / 2);
  scene.speed[middle] = 1;
  return middle;
}
Point centre_of(const TravelScene& scene, std::size_t cell) {
  const auto columns = static_cast<std::size_t>(scene.grid.columns);
  return scene.grid.centre(static_cast<int>(cell % columns), static_cast<int>(cell / columns));
}

RC_GTEST_PROP(TravelDistanceOracle, AgreesWithManyDirectionsInMixedGround, ()) {
  RandomStream random(*rc::gen::arbitrary<std::uint64_t>(), "ground");
  TravelScene scene = random_ground(random, 4, 0.2, 14);
  const std::size_t middle = middle_of(scene);
  const TravelMap map = travel_from(centre_of(scene, middle), scene.grid, scene.speed);
  const auto steps = by_steps(scene, middle);
  for (std::size_t i = 0; i < steps.size(); ++i) {
    RC_ASSERT(std::isfinite(map.times()[i]) == std::isfinite(steps[i]));
    if (!std::isfinite(steps[i])) continue;
    RC_ASSERT(map.times()[i] <= steps[i] + 0.5 * scene.grid.cell);
    RC_ASSERT(map.times()[i] >= steps[i] * 0.95 - 0.5 * scene.grid.cell);
  }
}

}  // namespace
}  // namespace rootstead
