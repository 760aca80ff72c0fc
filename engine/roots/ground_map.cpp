#include "engine/roots/ground_map.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <utility>

#include "engine/geom/measure.hpp"
#include "engine/roots/ground_feature.hpp"

namespace rootstead {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr double kOneDepth = 0.1;     // m: undersides no further apart count as one
constexpr std::size_t kMostCuts = 3;  // so four layers

Box box_of(const PlanGrid& grid) {
  return {grid.corner.x, grid.corner.y, grid.corner.x + grid.columns * grid.cell,
          grid.corner.y + grid.rows * grid.cell};
}

// Undersides at which the ground is cut into layers, from the top down. Of those that count as one
// the deepest stands for all, so that no barrier is made shallower than it is.
std::vector<double> cuts_at(std::vector<double> undersides, double limit) {
  std::erase_if(undersides, [&](double depth) { return !(depth > 0) || depth >= limit; });
  std::sort(undersides.rbegin(), undersides.rend());
  std::vector<double> cuts;
  for (const double depth : undersides)
    if (cuts.empty() || cuts.back() - depth > kOneDepth) cuts.push_back(depth);
  std::reverse(cuts.begin(), cuts.end());
  while (cuts.size() > kMostCuts) {
    std::size_t closest = 0;
    for (std::size_t i = 1; i + 1 < cuts.size(); ++i)
      if (cuts[i + 1] - cuts[i] < cuts[closest + 1] - cuts[closest]) closest = i;
    cuts.erase(cuts.begin() + static_cast<std::ptrdiff_t>(closest));
  }
  return cuts;
}

// Layers with all ground open, cut at those depths. To come up into a layer a root climbs from its
// underside, where it passed below the barrier, to its middle.
std::vector<GroundLayer> open_layers(const std::vector<double>& cuts, double climb,
                                     std::size_t cells) {
  std::vector<GroundLayer> layers;
  double top = 0;
  for (const double cut : cuts) {
    layers.push_back({top, cut, {}, {}, climb * (cut - top) / 2});
    top = cut;
  }
  layers.push_back({top, kInfinite, {}, {}, 0});
  for (GroundLayer& layer : layers) {
    layer.speed.assign(cells, 1);
    layer.rooting.assign(cells, 1);
  }
  return layers;
}

// The cells of an opening round the stem.
std::vector<unsigned char> opening_round(const Tree& tree, const PlanGrid& grid,
                                         const Tables& tables) {
  Length diameter;
  for (const Stem& stem : tree.stems) diameter = std::max(diameter, stem.diameter());
  const double radius = tables.parameter("barriers.stem_opening").best + diameter.metres() / 2;
  std::vector<unsigned char> cells(grid.count(), 0);
  for (int row = 0; row < grid.rows; ++row)
    for (int column = 0; column < grid.columns; ++column)
      if (distance(grid.centre(column, row), tree.position->at).metres() <= radius)
        cells[grid.index(column, row)] = 1;
  return cells;
}

// Where the feature passes and lets grow less than what is there already.
void lay(const std::vector<std::size_t>& cells, const Ease& ease, GroundLayer& layer) {
  for (const std::size_t cell : cells) {
    layer.speed[cell] = std::min(layer.speed[cell], ease.speed);
    layer.rooting[cell] = std::min(layer.rooting[cell], ease.rooting);
  }
}

struct Laid {
  GroundFeature feature;
  std::vector<std::size_t> cells;
};

// The features that take a cell of the grid, less the opening round a stem they cover. All paving
// opens as one: a street may be drawn in many pieces.
class Laying {
 public:
  Laying(const Tree& tree, const Tables& tables, const PlanGrid& grid,
         std::vector<GroundFeature> features)
      : grid_(grid) {
    const auto covers = [&](const GroundFeature& feature) {
      return contains(feature.area, tree.position->at);
    };
    const bool paved = std::any_of(
        features.begin(), features.end(),
        [&](const GroundFeature& feature) { return !feature.solid && covers(feature); });
    for (GroundFeature& feature : features) {
      const bool opens = feature.solid ? covers(feature) : paved;
      if (opens && opening_.empty()) opening_ = opening_round(tree, grid, tables);
      add(std::move(feature), opens);
    }
  }

  bool opened() const { return !opening_.empty(); }
  const std::vector<Laid>& all() const { return laid_; }

 private:
  void add(GroundFeature feature, bool opens) {
    const auto taken =
        feature.solid ? cells_touched(grid_, feature.area) : cells_inside(grid_, feature.area);
    std::vector<std::size_t> cells;
    for (std::size_t i = 0; i < taken.size(); ++i)
      if (taken[i] != 0 && !(opens && opening_[i] != 0)) cells.push_back(i);
    if (!cells.empty()) laid_.push_back({std::move(feature), std::move(cells)});
  }

  const PlanGrid& grid_;
  std::vector<unsigned char> opening_;
  std::vector<Laid> laid_;
};

}  // namespace

GroundMap ground_round(const Tree& tree, const Site& site, const Tables& tables, Length reach,
                       Length cell, double leak) {
  assert(tree.position);
  GroundMap ground;
  ground.grid = PlanGrid::around(tree.position->at, reach, cell);
  const Laying laying(tree, tables, ground.grid,
                      features_round(site, tables, box_of(ground.grid), cell.metres(), leak));
  std::vector<double> undersides;
  for (const Laid& laid : laying.all()) {
    undersides.push_back(laid.feature.depth);
    ground.barriers.push_back(laid.feature.name);
  }
  ground.stem_covered = laying.opened();
  ground.layers = open_layers(cuts_at(undersides, rootable_depth(site.soil, tables)),
                              tables.parameter("barriers.climb").best, ground.grid.count());
  for (const Laid& laid : laying.all()) {
    for (GroundLayer& layer : ground.layers) {
      const bool below = laid.feature.depth <= layer.top;
      lay(laid.cells, below ? laid.feature.below : laid.feature.above, layer);
    }
  }
  return ground;
}

namespace {

TravelMap straight_travel(const PlanGrid& grid, const Point& stem) {
  std::vector<double> times(grid.count());
  for (int row = 0; row < grid.rows; ++row)
    for (int column = 0; column < grid.columns; ++column)
      times[grid.index(column, row)] = distance(grid.centre(column, row), stem).metres();
  return {grid, std::move(times), stem};
}

// Through the layer itself, or up from the one below wherever that is the shorter way.
TravelMap with_climbing(const TravelMap& own, const TravelMap& below, const GroundLayer& layer,
                        const Point& stem) {
  std::vector<TravelStart> starts;
  for (std::size_t i = 0; i < own.times().size(); ++i) {
    const double up = below.times()[i] + layer.climb;
    if (layer.speed[i] > 0 && up < own.times()[i]) starts.push_back({i, up});
  }
  if (starts.empty()) return own;
  const TravelMap climbed = travel_from(stem, starts, own.grid(), layer.speed);
  std::vector<double> times = own.times();
  for (std::size_t i = 0; i < times.size(); ++i) times[i] = std::min(times[i], climbed.times()[i]);
  return {own.grid(), std::move(times), stem};
}

}  // namespace

std::vector<TravelMap> root_travel(const GroundMap& ground, const Point& stem) {
  if (ground.open()) return {straight_travel(ground.grid, stem)};
  std::vector<TravelMap> from_below = {travel_from(stem, ground.grid, ground.layers.back().speed)};
  for (std::size_t i = ground.layers.size() - 1; i-- > 0;) {
    const GroundLayer& layer = ground.layers[i];
    const bool same = layer.speed == ground.layers[i + 1].speed;
    from_below.push_back(same ? from_below.back()
                              : with_climbing(travel_from(stem, ground.grid, layer.speed),
                                              from_below.back(), layer, stem));
  }
  std::reverse(from_below.begin(), from_below.end());
  return from_below;
}

}  // namespace rootstead
