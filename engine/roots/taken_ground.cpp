#include "engine/roots/taken_ground.hpp"

#include <algorithm>
#include <cmath>

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

Angle ray_azimuth(int ray) {
  return Angle::degrees((ray + 0.5) * 360.0 / kRays);
}

RayedTaking rayed(const Point& stem, const MultiPolygon& area, double reach) {
  RayedTaking taking;
  taking.by_ray.reserve(kRays);
  for (int ray = 0; ray < kRays; ++ray)
    taking.by_ray.push_back(ray_crossings(stem, ray_azimuth(ray), reach, area));
  return taking;
}

std::vector<double> depths_of(const std::vector<RayedTaking>& takings) {
  std::vector<double> depths = {0};
  for (const RayedTaking& taking : takings)
    if (taking.severs) depths.push_back(taking.depth);
  std::sort(depths.begin(), depths.end());
  depths.erase(std::unique(depths.begin(), depths.end()), depths.end());
  return depths;
}

TakenGround::TakenGround(const std::vector<const RayedTaking*>& takings, const Rings& rings,
                         const std::vector<double>& depths) {
  for (int ray = 0; ray < kRays; ++ray) {
    const Sectors weights = sector_weights(ray_azimuth(ray));
    for (const Stretch& stretch : stretches(takings, static_cast<std::size_t>(ray), rings.reach()))
      add(stretch, weights, rings);
  }
  for (std::size_t state = 0; state < dense_.size(); ++state)
    for (std::size_t ring = 0; ring < dense_[state].size(); ++ring)
      if (dense_[state][ring] != Sectors{}) cells_.push_back({ring, state, dense_[state][ring]});
  dense_.clear();
  for (const State& state : states_) {
    const auto found = std::lower_bound(depths.begin(), depths.end(), state.depth);
    state_depths_.push_back(static_cast<std::size_t>(found - depths.begin()));
  }
}

// The ray from the stem outward, cut wherever something changes; untouched stretches left out.
std::vector<TakenGround::Stretch> TakenGround::stretches(
    const std::vector<const RayedTaking*>& takings, std::size_t ray, double reach) {
  std::vector<double> edges;
  for (const RayedTaking* taking : takings)
    for (const auto& [enter, leave] : taking->by_ray[ray]) {
      edges.push_back(enter);
      if (!taking->severs) edges.push_back(leave);
    }
  if (edges.empty()) return {};
  edges.push_back(reach);
  std::sort(edges.begin(), edges.end());
  edges.erase(std::unique(edges.begin(), edges.end()), edges.end());

  std::vector<Stretch> found;
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
    Stretch stretch{edges[i], edges[i + 1], {}};
    for (const RayedTaking* taking : takings)
      for (const auto& [enter, leave] : taking->by_ray[ray]) {
        if (enter > stretch.from) break;
        if (taking->severs)
          stretch.state.depth = std::max(stretch.state.depth, taking->depth);
        else if (leave > stretch.from)
          stretch.state.pressed = larger(stretch.state.pressed, taking->pressed);
      }
    if (stretch.state != State{}) found.push_back(stretch);
  }
  return found;
}

void TakenGround::add(const Stretch& stretch, const Sectors& weights, const Rings& rings) {
  std::vector<Sectors>& taken = dense_[index_of(stretch.state)];
  taken.resize(rings.count());
  for (std::size_t i = rings.ring_of(stretch.from);
       i < rings.count() && rings.edges()[i] < stretch.to; ++i) {
    const double part = rings.part(i, stretch.from, stretch.to) / kRays;
    for (std::size_t s = 0; s < kSectors; ++s) taken[i][s] += part * weights[s];
  }
}

std::size_t TakenGround::index_of(const State& state) {
  const auto found = std::find(states_.begin(), states_.end(), state);
  if (found != states_.end()) return static_cast<std::size_t>(found - states_.begin());
  states_.push_back(state);
  dense_.emplace_back();
  return states_.size() - 1;
}

double TakenGround::lost(const RingedField& field) const {
  std::vector<double> pressed;
  for (const State& state : states_) pressed.push_back(at_place(state.pressed, field.pressing()));
  double sum = 0;
  for (const Cell& cell : cells_) {
    const double cut = field.share_above(state_depths_[cell.state], cell.ring);
    const double share = cut + (1 - cut) * pressed[cell.state];
    sum += field.mass(cell.ring) * share * dot(cell.weight, field.sectors());
  }
  return std::clamp(sum, 0.0, 1.0);
}

}  // namespace rootstead
