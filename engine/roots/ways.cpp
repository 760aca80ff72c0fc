#include "engine/roots/ways.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "engine/geom/measure.hpp"

namespace rootstead {
namespace {

// A number in [0, 1) that depends on the cell alone (SplitMix64's mixing).
double lot_of(std::size_t cell) {
  std::uint64_t z = (cell + 1) * 0x9E3779B97F4A7C15ULL;
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
  return static_cast<double>((z ^ (z >> 31)) >> 11) * 0x1.0p-53;
}

bool hinders(const GroundLayer& ground, std::size_t cell) {
  return ground.speed[cell] < 1 || ground.rooting[cell] < 1;
}

}  // namespace

Angle ray_azimuth(int ray) {
  return Angle::degrees((ray + 0.5) * 360.0 / kRays);
}

const Sectors& ray_sectors(int ray) {
  static const auto sectors = [] {
    std::array<Sectors, kRays> of_rays{};
    for (int i = 0; i < kRays; ++i)
      of_rays[static_cast<std::size_t>(i)] = sector_weights(ray_azimuth(i));
    return of_rays;
  }();
  return sectors[static_cast<std::size_t>(ray)];
}

Ways::Ways(const Rings& rings) {
  layers_.emplace_back();
  layers_.back().straight_to.assign(kRays, rings.reach());
}

Ways::Ways(const GroundMap& ground, const Point& stem, const Rings& rings)
    : stem_(stem), grid_(ground.grid) {
  const std::vector<TravelMap> travel = root_travel(ground, stem);
  for (std::size_t l = 0; l < ground.layers.size(); ++l) {
    Layer layer;
    layer.top = ground.layers[l].top;
    layer.bottom = ground.layers[l].bottom;
    for (int ray = 0; ray < kRays; ++ray) add_ray(layer, ground.layers[l], travel[l], ray, rings);
    layers_.push_back(std::move(layer));
    const bool deepest = l + 1 == ground.layers.size();
    onward_.push_back(
        onward_of(travel[l], deepest ? nullptr : &travel[l + 1], ground.layers[l].climb));
  }
}

std::vector<double> Ways::boundaries() const {
  std::vector<double> depths;
  for (std::size_t l = 1; l < layers_.size(); ++l) depths.push_back(layers_[l].top);
  return depths;
}

// How far the ray runs through ground that hinders nothing; `reach` where the grid ends first.
double Ways::open_along(const GroundLayer& ground, int ray, double reach) const {
  const double step = grid_.cell / 2;
  for (double r = step; r < reach; r += step) {
    const auto place = grid_.index_at(offset(stem_, ray_azimuth(ray), Length::metres(r)));
    if (!place) return reach;
    if (hinders(ground, *place)) return r - step;
  }
  return reach;
}

void Ways::add_ray(Layer& layer, const GroundLayer& ground, const TravelMap& travel, int ray,
                   const Rings& rings) const {
  const double straight = open_along(ground, ray, rings.reach());
  layer.straight_to.push_back(straight);
  const std::vector<double>& edges = rings.edges();
  struct {
    double r = 0, travelled = std::numeric_limits<double>::infinity();
    std::size_t place = 0;
  } last;  // in the grid; beyond it, roots run on from there
  for (std::size_t i = straight < rings.reach() ? rings.ring_of(straight) : rings.count();
       i < rings.count(); ++i) {
    const double from = std::max(edges[i], straight), to = edges[i + 1], r = (from + to) / 2;
    const Point at = offset(stem_, ray_azimuth(ray), Length::metres(r));
    const auto place = grid_.index_at(at);
    if (place) last = {r, travel.at(at), *place};
    const double travelled = std::max(r, last.travelled + (r - last.r));
    const double rooting = place ? ground.rooting[*place] : 1;
    if (!(travelled < rings.reach()) || rooting <= 0) continue;
    const std::size_t ring = rings.ring_of(travelled);
    const double area = to * to - from * from;
    const double whole = edges[ring + 1] * edges[ring + 1] - edges[ring] * edges[ring];
    layer.traced.push_back({ray, ring, rooting * area / whole / kRays, last.place});
  }
}

// Where each cell hangs: on a neighbour the front came from, or on the cell beneath it where the
// root climbed out of the layer below.
std::vector<Ways::Onward> Ways::onward_of(const TravelMap& travel, const TravelMap* below,
                                          double climb) const {
  constexpr double kSame = 1e-9;  // of a time and itself, added up in two ways
  const std::vector<double>& time = travel.times();
  std::vector<Onward> onward(time.size(), Onward::none);
  const auto gain = [&](std::size_t cell, bool exists, std::size_t neighbour) {
    return exists && time[neighbour] < time[cell] ? time[cell] - time[neighbour] : 0;
  };
  for (int row = 0; row < grid_.rows; ++row)
    for (int column = 0; column < grid_.columns; ++column) {
      const std::size_t cell = grid_.index(column, row);
      if (!std::isfinite(time[cell])) continue;
      if (below && time[cell] >= below->times()[cell] + climb - kSame) {
        onward[cell] = Onward::below;
        continue;
      }
      const auto width = static_cast<std::size_t>(grid_.columns);
      const double west = gain(cell, column > 0, cell - 1);
      const double east = gain(cell, column + 1 < grid_.columns, cell + 1);
      const double south = gain(cell, row > 0, cell - width);
      const double north = gain(cell, row + 1 < grid_.rows, cell + width);
      const double across = std::max(west, east), along = std::max(south, north);
      if (across + along <= 0) continue;
      const bool sideways = lot_of(cell) * (across + along) < across;
      if (sideways) onward[cell] = west >= east ? Onward::west : Onward::east;
      if (!sideways) onward[cell] = south >= north ? Onward::south : Onward::north;
    }
  return onward;
}

std::size_t Ways::next(std::size_t cell, Onward onward) const {
  const auto width = static_cast<std::size_t>(grid_.columns);
  switch (onward) {
    case Onward::west:
      return cell - 1;
    case Onward::east:
      return cell + 1;
    case Onward::south:
      return cell - width;
    case Onward::north:
      return cell + width;
    case Onward::none:
    case Onward::below:
      break;
  }
  return cell;
}

namespace {

// A word a grid cell: what lies on it, then, followed from the stem outward, what lies on its way.
using Words = std::vector<std::uint64_t>;

Words words_of(std::size_t cells, const std::vector<const LaidTaking*>& takings, std::size_t first,
               bool severing, double deeper_than) {
  Words words(cells, 0);
  for (std::size_t i = first; i < std::min(first + kBitsPerBlock, takings.size()); ++i) {
    const LaidTaking& taking = *takings[i];
    if (taking.severs != severing || (severing && taking.depth <= deeper_than)) continue;
    for (const std::size_t cell : taking.cells) words[cell] |= std::uint64_t{1} << (i - first);
  }
  return words;
}

}  // namespace

LaidTaking Ways::laid(const GroundTaking& taking) const {
  LaidTaking laid{taking.effect == GroundTaking::Effect::severs, taking.depth.metres(), {}};
  if (open()) return laid;
  const auto met =
      laid.severs ? cells_touched(grid_, taking.area) : cells_inside(grid_, taking.area);
  for (std::size_t cell = 0; cell < met.size(); ++cell)
    if (met[cell]) laid.cells.push_back(cell);
  return laid;
}

// Follows ways back for one block of takings, each cell once.
class Ways::Tracer {
 public:
  Tracer(const Ways& ways, const std::vector<const LaidTaking*>& takings, std::size_t first)
      : ways_(ways) {
    for (const Layer& layer : ways.layers_)
      layers_.push_back({words_of(ways.grid_.count(), takings, first, true, layer.top),
                         std::vector<bool>(ways.grid_.count(), false)});
  }

  // The takings on the way from the stem to the cell, its own ground included.
  std::uint64_t severed(std::size_t layer, std::size_t cell) {
    auto& [met, known] = layers_[layer];
    const std::vector<Onward>& onward = ways_.onward_[layer];
    std::vector<std::size_t> open;
    for (; !known[cell]; cell = ways_.next(cell, onward[cell])) {
      known[cell] = true;
      open.push_back(cell);
      if (onward[cell] == Onward::below) met[cell] |= severed(layer + 1, cell);
    }
    std::uint64_t before = met[cell];
    for (; !open.empty(); open.pop_back()) before = met[open.back()] |= before;
    return before;
  }

 private:
  const Ways& ways_;
  std::vector<std::pair<Words, std::vector<bool>>> layers_;
};

WayMarks Ways::marks(const std::vector<const LaidTaking*>& takings) const {
  WayMarks marks;
  marks.blocks = (takings.size() + kBitsPerBlock - 1) / kBitsPerBlock;
  for (const Layer& layer : layers_)
    marks.layers.push_back({Words(layer.traced.size() * marks.blocks, 0),
                            Words(layer.traced.size() * marks.blocks, 0)});
  for (std::size_t block = 0; block < marks.blocks; ++block) {
    const std::size_t first = block * kBitsPerBlock;
    Tracer tracer(*this, takings, first);
    const Words pressed = words_of(grid_.count(), takings, first, false, 0);
    for (std::size_t l = 0; l < layers_.size(); ++l)
      for (std::size_t i = 0; i < layers_[l].traced.size(); ++i) {
        const std::size_t place = layers_[l].traced[i].place;
        marks.layers[l].severed[i * marks.blocks + block] = tracer.severed(l, place);
        marks.layers[l].pressed[i * marks.blocks + block] = pressed[place];
      }
  }
  return marks;
}

}  // namespace rootstead
