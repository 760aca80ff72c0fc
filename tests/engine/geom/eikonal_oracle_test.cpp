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
constexpr double kSlowest = 0.15;   // of the random ground
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
  for (const Block& frame : {Block{-9, -9, -kEdge, 9}, Block{kEdge, -9, 9, 9},
                             Block{-9, -9, 9, -kEdge}, Block{-9, kEdge, 9, 9}})
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

// A straight step from the middle of one cell to that of another: the cells it runs through, as
// offsets, with its length in each, in cells; and the corners it passes, as the two cells it joins
// there and the two beside.
struct Step {
  struct Offset {
    int column, row;
  };
  struct Part {
    Offset cell;
    double length;
  };
  struct Corner {
    Offset from, to, one_side, other_side;
  };
  int dx, dy;
  std::vector<Part> parts;
  std::vector<Corner> corners;

  Step(int across, int up) : dx(across), dy(up) {
    std::vector<double> at = {0, 1};
    for (int k = 0; k < std::abs(dx); ++k) at.push_back((k + 0.5) / std::abs(dx));
    for (int k = 0; k < std::abs(dy); ++k) at.push_back((k + 0.5) / std::abs(dy));
    std::sort(at.begin(), at.end());
    const double length = std::hypot(dx, dy);
    for (std::size_t i = 1; i < at.size(); ++i) {
      const double middle = (at[i - 1] + at[i]) / 2, share = at[i] - at[i - 1];
      if (share > 1e-12)
        parts.push_back({offset(0.5 + middle * dx, 0.5 + middle * dy), share * length});
      else
        add_corner(0.5 + middle * dx, 0.5 + middle * dy);
    }
  }

  // Infinite where it would squeeze through a corner between two cells slower than those it joins.
  double time(const TravelScene& scene, int column, int row) const {
    const auto speed = [&](const Offset& at) {
      return scene.speed[scene.grid.index(column + at.column, row + at.row)];
    };
    for (const Corner& at : corners)
      if (std::max(speed(at.one_side), speed(at.other_side)) <
          std::min(speed(at.from), speed(at.to)))
        return kInfinite;
    double time = 0;
    for (const Part& part : parts) time += part.length * scene.grid.cell / speed(part.cell);
    return time;
  }

 private:
  static Offset offset(double x, double y) {
    return {static_cast<int>(std::floor(x)), static_cast<int>(std::floor(y))};
  }
  void add_corner(double x, double y) {
    const double ahead = dx > 0 ? 0.5 : -0.5, above = dy > 0 ? 0.5 : -0.5;
    corners.push_back({offset(x - ahead, y - above), offset(x + ahead, y + above),
                       offset(x + ahead, y - above), offset(x - ahead, y + above)});
  }
};

// Times of the best ways made of steps in 32 directions from cell centre to cell centre: never less
// than the true time, and in even ground at most 1.3 % more.
std::vector<double> by_steps(const TravelScene& scene, std::size_t source) {
  std::vector<Step> steps;
  for (int dx = -3; dx <= 3; ++dx)
    for (int dy = -3; dy <= 3; ++dy)
      if (std::gcd(dx, dy) == 1) steps.emplace_back(dx, dy);
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
    for (const Step& step : steps) {
      const int c = column + step.dx, r = row + step.dy;
      if (c < 0 || r < 0 || c >= scene.grid.columns || r >= scene.grid.rows) continue;
      const std::size_t next = scene.grid.index(c, r);
      if (scene.speed[next] == 0) continue;
      const double then = time + step.time(scene, column, row);
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

// The bound on a single cell is two crossings of the slowest ground by one cell: what a way may win
// by cutting the corners of slow cells, which differences between neighbours do not see.
RC_GTEST_PROP(TravelDistanceOracle, AgreesWithManyDirectionsInMixedGround, ()) {
  RandomStream random(*rc::gen::arbitrary<std::uint64_t>(), "ground");
  TravelScene scene = random_ground(random, 3, 0.2, 10);
  const std::size_t middle = middle_of(scene);
  const TravelMap map = travel_from(centre_of(scene, middle), scene.grid, scene.speed);
  const auto steps = by_steps(scene, middle);
  for (std::size_t i = 0; i < steps.size(); ++i) {
    RC_ASSERT(std::isfinite(map.times()[i]) == std::isfinite(steps[i]));
    if (!std::isfinite(steps[i])) continue;
    RC_ASSERT(std::abs(map.times()[i] - steps[i]) < 2 * scene.grid.cell / kSlowest);
  }
}

// How rare that is: the search's own ways are up to 1.3 % too long, so most differences are below
// 0.
TEST(TravelDistanceOracle, AgreesWithinAFractionOfACellInNearlyAllOpenGround) {
  std::vector<double> off;
  for (std::uint64_t seed = 0; seed < 40; ++seed) {
    RandomStream random(seed, "ground");
    TravelScene scene = random_ground(random, 4, 0.2, 14);
    const std::size_t middle = middle_of(scene);
    const TravelMap map = travel_from(centre_of(scene, middle), scene.grid, scene.speed);
    const auto steps = by_steps(scene, middle);
    for (std::size_t i = 0; i < steps.size(); ++i)
      if (scene.speed[i] == 1 && std::isfinite(steps[i]))
        off.push_back((map.times()[i] - steps[i]) / scene.grid.cell);
  }
  std::sort(off.begin(), off.end());
  const auto at = [&](double share) {
    return off[static_cast<std::size_t>(share * static_cast<double>(off.size() - 1))];
  };
  std::printf(
      "mixed ground, beside 32 directions, in cells: 1 %% %.2f, 5 %% %.2f, 50 %% %.2f, "
      "95 %% %.2f, 99 %% %.2f, all %.2f to %.2f\n",
      at(0.01), at(0.05), at(0.5), at(0.95), at(0.99), at(0), at(1));
  EXPECT_GT(at(0.05), -0.75);
  EXPECT_LT(at(0.95), 0.5);
  EXPECT_LT(at(0.99), 1.5);
}

// ---- properties ---------------------------------------------------------------------------------

RC_GTEST_PROP(TravelDistanceProperty, IsNeverLessThanTheStraightDistance, ()) {
  RandomStream random(*rc::gen::arbitrary<std::uint64_t>(), "ground");
  TravelScene scene = random_ground(random, 5, 0.2, 20);
  const Point source = centre_of(scene, middle_of(scene));
  const TravelMap map = travel_from(source, scene.grid, scene.speed);
  for (std::size_t i = 0; i < scene.grid.count(); ++i)
    RC_ASSERT(map.times()[i] >= apart(source, centre_of(scene, i)) - 1e-12);
}

// Exactly, but for rounding, where ground is open or blocked.
RC_GTEST_PROP(TravelDistanceProperty, NeverFallsWhereACellIsBlocked, ()) {
  RandomStream random(*rc::gen::arbitrary<std::uint64_t>(), "ground");
  TravelScene scene(5, 0.2);
  for (const Block& b : random_blocks(random, 9, 5, 0.2)) scene.lay(0, b.x0, b.y0, b.x1, b.y1);
  const std::size_t middle = middle_of(scene);
  const Point source = centre_of(scene, middle);
  auto before = travel_from(source, scene.grid, scene.speed).times();
  for (int step = 0; step < 6; ++step) {
    const std::size_t blocked = random.next() % scene.grid.count();
    if (blocked == middle) continue;
    scene.speed[blocked] = 0;
    const auto after = travel_from(source, scene.grid, scene.speed).times();
    for (std::size_t i = 0; i < after.size(); ++i) RC_ASSERT(after[i] >= before[i] - 1e-9);
    before = after;
  }
}

// With half-open ground in play it falls as far as the differences err, which is no law but a
// measurement: how much a map falls, a cell on average, over scenes of fixed seeds. Ground that no
// way reached stays unreached, and no cell falls by more than a crossing of the slowest ground.
TEST(TravelDistanceProperty, SeldomFallsWhereMixedGroundIsBlocked) {
  std::vector<double> fallen;
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    RandomStream random(seed, "blocked");
    TravelScene scene = random_ground(random, 5, 0.2, 16);
    const std::size_t middle = middle_of(scene);
    const Point source = centre_of(scene, middle);
    const auto before = travel_from(source, scene.grid, scene.speed).times();
    const std::size_t blocked = random.next() % scene.grid.count();
    if (blocked != middle) scene.speed[blocked] = 0;
    const auto after = travel_from(source, scene.grid, scene.speed).times();
    double sum = 0;
    int cells = 0;
    for (std::size_t i = 0; i < after.size(); ++i) {
      ASSERT_TRUE(std::isfinite(before[i]) || !std::isfinite(after[i])) << "seed " << seed;
      if (!std::isfinite(after[i])) continue;
      ASSERT_GE(after[i], before[i] - scene.grid.cell / kSlowest) << "seed " << seed;
      sum += std::max(0.0, before[i] - after[i]);
      ++cells;
    }
    fallen.push_back(sum / std::max(1, cells) / scene.grid.cell);
  }
  std::sort(fallen.begin(), fallen.end());
  std::printf("mixed ground blocked, mean fall in cells: 50 %% %.4f, 95 %% %.4f, largest %.4f\n",
              fallen[100], fallen[190], fallen.back());
  EXPECT_LT(fallen[100], 0.001);
  EXPECT_LT(fallen[190], 0.02);
  EXPECT_LT(fallen.back(), 0.2);
}

// How far the maps of the ground turned a quarter, and mirrored, are from the map turned and
// mirrored.
double asymmetry(const TravelScene& scene, std::size_t middle) {
  const Point source = centre_of(scene, middle);
  TravelScene turned = scene, mirrored = scene;
  const int n = scene.grid.columns;
  const auto turned_cell = [&](int c, int r) { return scene.grid.index(n - 1 - r, c); };
  const auto mirrored_cell = [&](int c, int r) { return scene.grid.index(n - 1 - c, r); };
  const auto each_cell = [&](const auto& act) {
    for (int r = 0; r < n; ++r)
      for (int c = 0; c < n; ++c)
        act(scene.grid.index(c, r), turned_cell(c, r), mirrored_cell(c, r));
  };
  each_cell([&](std::size_t cell, std::size_t turn, std::size_t mirror) {
    turned.speed[turn] = mirrored.speed[mirror] = scene.speed[cell];
  });
  const auto plain = travel_from(source, scene.grid, scene.speed).times();
  const auto turn = travel_from(source, scene.grid, turned.speed).times();
  const auto mirror = travel_from(source, scene.grid, mirrored.speed).times();
  double worst = 0;
  each_cell([&](std::size_t cell, std::size_t t, std::size_t m) {
    if (std::isfinite(plain[cell]) || std::isfinite(turn[t]) || std::isfinite(mirror[m]))
      worst = std::max({worst, std::abs(turn[t] - plain[cell]), std::abs(mirror[m] - plain[cell])});
  });
  return worst;
}

RC_GTEST_PROP(TravelDistanceProperty, TurnsAndMirrorsWithTheGround, ()) {
  RandomStream random(*rc::gen::arbitrary<std::uint64_t>(), "ground");
  TravelScene scene(4.1, 0.2);  // 41 cells: the source in the middle
  for (const Block& b : random_blocks(random, 9, 4.1, 0.2)) scene.lay(0, b.x0, b.y0, b.x1, b.y1);
  RC_ASSERT(asymmetry(scene, middle_of(scene)) < 1e-9);
}

// In mixed ground what comes first of two equals may differ, and with it the differences taken.
RC_GTEST_PROP(TravelDistanceProperty, TurnsAndMirrorsWithMixedGroundWithinACell, ()) {
  RandomStream random(*rc::gen::arbitrary<std::uint64_t>(), "ground");
  TravelScene scene = random_ground(random, 4.1, 0.2, 14);
  RC_ASSERT(asymmetry(scene, middle_of(scene)) < scene.grid.cell);
}

// ---- the way back -------------------------------------------------------------------------------

RC_GTEST_PROP(WayBack, IsAsLongAsTheTravelDistanceAmongBlocks, ()) {
  RandomStream random(*rc::gen::arbitrary<std::uint64_t>(), "blocks");
  TravelScene scene(5, 0.2);
  for (const Block& b : random_blocks(random, 9, 5, 0.2)) scene.lay(0, b.x0, b.y0, b.x1, b.y1);
  const Point source{0.1, 0.1};
  const TravelMap map = travel_from(source, scene.grid, scene.speed);
  for (int i = 0; i < 20; ++i) {
    const Point from{random.uniform(-4.99, 4.99), random.uniform(-4.99, 4.99)};
    const Line way = map.way_back(from);
    const double distance = map.at(from);
    RC_ASSERT(way.empty() == !std::isfinite(distance));
    if (way.empty()) continue;
    RC_ASSERT(way.front() == from);
    RC_ASSERT(way.back() == source);
    for (const Point& p : way) RC_ASSERT(scene.open(p));
    const double length = length_of(way).metres();
    RC_ASSERT(length >= distance - 0.5 * scene.grid.cell);
    RC_ASSERT(length <= 1.05 * distance + 2 * scene.grid.cell);
  }
}

RC_GTEST_PROP(WayBack, EndsAtTheSourceInMixedGroundToo, ()) {
  RandomStream random(*rc::gen::arbitrary<std::uint64_t>(), "ground");
  TravelScene scene = random_ground(random, 5, 0.2, 20);
  const Point source = centre_of(scene, middle_of(scene));
  const TravelMap map = travel_from(source, scene.grid, scene.speed);
  for (int i = 0; i < 20; ++i) {
    const Point from{random.uniform(-4.99, 4.99), random.uniform(-4.99, 4.99)};
    const Line way = map.way_back(from);
    RC_ASSERT(way.empty() == !std::isfinite(map.at(from)));
    if (!way.empty()) RC_ASSERT(way.back() == source);
  }
}

}  // namespace
}  // namespace rootstead
