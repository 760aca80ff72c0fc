#include "engine/roots/taken_ground.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>

#include "engine/geom/ray.hpp"

namespace rootstead {
namespace {

Range larger(const Range& a, const Range& b) {
  return {std::max(a.low, b.low), std::max(a.best, b.best), std::max(a.high, b.high)};
}

// The share at a place in its range: -1 low, 0 best, 1 high. Never less for a larger range.
double at_place(const Range& range, double place) {
  const double end = place < 0 ? range.low : range.high;
  return range.best + (end - range.best) * std::abs(place);
}

// Two sums at a time, which the processor can do side by side.
double dot(const Sectors& a, const Sectors& b) {
  std::array<double, 2> sums{};
  for (std::size_t i = 0; i < kSectors; i += 2) {
    sums[0] += a[i] * b[i];
    sums[1] += a[i + 1] * b[i + 1];
  }
  return sums[0] + sums[1];
}

}  // namespace

RayedTaking rayed(const Point& stem, const MultiPolygon& area, double reach) {
  RayedTaking taking;
  taking.by_ray.reserve(kRays);
  for (int ray = 0; ray < kRays; ++ray)
    taking.by_ray.push_back(ray_crossings(stem, ray_azimuth(ray), reach, area));
  return taking;
}

std::vector<double> depths_of(const std::vector<RayedTaking>& takings, const Ways& ways) {
  std::vector<double> depths = ways.boundaries();
  depths.insert(depths.end(), {0, std::numeric_limits<double>::infinity()});
  for (const RayedTaking& taking : takings)
    if (taking.severs) depths.push_back(taking.depth);
  std::sort(depths.begin(), depths.end());
  depths.erase(std::unique(depths.begin(), depths.end()), depths.end());
  return depths;
}

namespace {

bool met(const std::vector<std::uint64_t>& counted, const std::uint64_t* marked) {
  for (std::size_t block = 0; block < counted.size(); ++block)
    if (counted[block] & marked[block]) return true;
  return false;
}

}  // namespace

TakenGround::TakenGround(const std::vector<RayedTaking>& takings,
                         const std::vector<std::size_t>& subset, const Ways& ways,
                         const WayMarks& marks, const Rings& rings,
                         const std::vector<double>& depths) {
  std::vector<std::uint64_t> counted(marks.blocks, 0);
  for (const std::size_t i : subset)
    if (!counted.empty()) counted[i / kBitsPerBlock] |= std::uint64_t{1} << (i % kBitsPerBlock);
  for (std::size_t l = 0; l < ways.layers().size(); ++l) {
    const Ways::Layer& layer = ways.layers()[l];
    for (int ray = 0; ray < kRays; ++ray) {
      const Sectors& weights = ray_sectors(ray);
      for (const Stretch& stretch :
           stretches(takings, subset, static_cast<std::size_t>(ray), layer))
        add(stretch, weights, rings);
    }
    for (std::size_t i = 0; i < layer.traced.size(); ++i) {
      const std::uint64_t* severed = &marks.layers[l].severed[i * marks.blocks];
      const std::uint64_t* pressed = &marks.layers[l].pressed[i * marks.blocks];
      if (!met(counted, severed) && !met(counted, pressed)) continue;
      add(layer.traced[i], state_of(takings, counted, severed, pressed, layer), rings);
    }
  }
  finish(depths);
}

TakenGround TakenGround::everything(const Ways& ways, const Rings& rings,
                                    const std::vector<double>& depths, double down_to) {
  TakenGround all;
  for (const Ways::Layer& layer : ways.layers()) {
    if (layer.top >= down_to) continue;
    const State whole{layer.top, std::min(layer.bottom, down_to), layer.bottom, {}};
    for (int ray = 0; ray < kRays; ++ray) {
      const double straight = layer.straight_to[static_cast<std::size_t>(ray)];
      if (straight > 0) all.add({0, straight, whole}, ray_sectors(ray), rings);
    }
    for (const TracedCell& cell : layer.traced) all.add(cell, whole, rings);
  }
  all.finish(depths);
  return all;
}

// The ray from the stem outward as far as roots run straight, cut wherever something changes;
// untouched stretches left out.
std::vector<TakenGround::Stretch> TakenGround::stretches(const std::vector<RayedTaking>& takings,
                                                         const std::vector<std::size_t>& subset,
                                                         std::size_t ray,
                                                         const Ways::Layer& layer) {
  const double end = layer.straight_to[ray];
  std::vector<double> edges;
  for (const std::size_t i : subset)
    for (const auto& [enter, leave] : takings[i].by_ray[ray]) {
      if (enter < end) edges.push_back(enter);
      if (!takings[i].severs && leave < end) edges.push_back(leave);
    }
  if (edges.empty()) return {};
  edges.push_back(end);
  std::sort(edges.begin(), edges.end());
  edges.erase(std::unique(edges.begin(), edges.end()), edges.end());

  std::vector<Stretch> found;
  for (std::size_t e = 0; e + 1 < edges.size(); ++e) {
    Stretch stretch{edges[e], edges[e + 1], {layer.top, layer.top, layer.bottom, {}}};
    for (const std::size_t i : subset) {
      const RayedTaking& taking = takings[i];
      for (const auto& [enter, leave] : taking.by_ray[ray]) {
        if (enter > stretch.from) break;
        if (taking.severs)
          stretch.state.cut = std::clamp(taking.depth, stretch.state.cut, layer.bottom);
        else if (leave > stretch.from)
          stretch.state.pressed = larger(stretch.state.pressed, taking.pressed);
      }
    }
    if (!stretch.state.untouched()) found.push_back(stretch);
  }
  return found;
}

TakenGround::State TakenGround::state_of(const std::vector<RayedTaking>& takings,
                                         const std::vector<std::uint64_t>& subset,
                                         const std::uint64_t* severed, const std::uint64_t* pressed,
                                         const Ways::Layer& layer) {
  State state{layer.top, layer.top, layer.bottom, {}};
  const auto each = [&](const std::uint64_t* met, const auto& use) {
    for (std::size_t block = 0; block < subset.size(); ++block)
      for (std::uint64_t bits = met[block] & subset[block]; bits != 0; bits &= bits - 1)
        use(takings[block * kBitsPerBlock + static_cast<std::size_t>(std::countr_zero(bits))]);
  };
  each(severed, [&](const RayedTaking& taking) {
    state.cut = std::clamp(taking.depth, state.cut, layer.bottom);
  });
  each(pressed,
       [&](const RayedTaking& taking) { state.pressed = larger(state.pressed, taking.pressed); });
  return state;
}

void TakenGround::add(const Stretch& stretch, const Sectors& weights, const Rings& rings) {
  std::vector<Sectors>& taken = dense(stretch.state, rings);
  for (std::size_t i = rings.ring_of(stretch.from);
       i < rings.count() && rings.edges()[i] < stretch.to; ++i) {
    const double part = rings.part(i, stretch.from, stretch.to) / kRays;
    for (std::size_t s = 0; s < kSectors; ++s) taken[i][s] += part * weights[s];
  }
}

void TakenGround::add(const TracedCell& cell, const State& state, const Rings& rings) {
  Sectors& taken = dense(state, rings)[cell.ring];
  const Sectors& weights = ray_sectors(cell.ray);
  for (std::size_t s = 0; s < kSectors; ++s) taken[s] += cell.share * weights[s];
}

std::vector<Sectors>& TakenGround::dense(const State& state, const Rings& rings) {
  const auto found = std::find(states_.begin(), states_.end(), state);
  if (found != states_.end()) return dense_[static_cast<std::size_t>(found - states_.begin())];
  states_.push_back(state);
  dense_.emplace_back(rings.count());
  return dense_.back();
}

void TakenGround::finish(const std::vector<double>& depths) {
  for (std::size_t state = 0; state < dense_.size(); ++state)
    for (std::size_t ring = 0; ring < dense_[state].size(); ++ring)
      if (dense_[state][ring] != Sectors{}) cells_.push_back({ring, state, dense_[state][ring]});
  dense_.clear();
  const auto place_of = [&](double depth) {
    const auto found = std::lower_bound(depths.begin(), depths.end(), depth);
    return static_cast<std::size_t>(found - depths.begin());
  };
  for (const State& state : states_)
    state_depths_.push_back({place_of(state.top), place_of(state.cut), place_of(state.bottom)});
}

double TakenGround::taken(const RingedField& field) const {
  std::vector<double> pressed;
  for (const State& state : states_) pressed.push_back(at_place(state.pressed, field.pressing()));
  double sum = 0;
  for (const Cell& cell : cells_) {
    const StateDepths& depths = state_depths_[cell.state];
    const double cut = field.share_above(depths.cut, cell.ring);
    const double severed = cut - field.share_above(depths.top, cell.ring);
    const double remaining = field.share_above(depths.bottom, cell.ring) - cut;
    const double share = severed + remaining * pressed[cell.state];
    sum += field.mass(cell.ring) * share * dot(cell.weight, field.sectors());
  }
  return sum;
}

}  // namespace rootstead
