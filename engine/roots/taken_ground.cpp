#include "engine/roots/taken_ground.hpp"

#include <algorithm>
#include <cmath>

#include "engine/geom/ray.hpp"

namespace rootstead {
namespace {

constexpr std::size_t kRings = 64;
constexpr double kRingGrading = 1.4;  // 1 would be even rings; more is finer near the stem
constexpr std::size_t kDepthNodes = 5;

Range larger(const Range& a, const Range& b) {
  return {std::max(a.low, b.low), std::max(a.best, b.best), std::max(a.high, b.high)};
}

// The share at a place in its range: -1 low, 0 best, 1 high. Never less for a larger range.
double at_place(const Range& range, double place) {
  const double end = place < 0 ? range.low : range.high;
  return range.best + (end - range.best) * std::abs(place);
}

// The depth law hardly bends outward, so it is evaluated at a few distances and joined straight.
using DepthNodes = std::array<double, kDepthNodes>;

DepthNodes depth_nodes(const DepthLaw& law, double depth) {
  DepthNodes nodes{};
  for (std::size_t i = 0; i < kDepthNodes; ++i)
    nodes[i] = law.share_above(depth, static_cast<double>(i) / (kDepthNodes - 1));
  return nodes;
}

double at_ring(const DepthNodes& nodes, const RingedField::Ring& ring) {
  return nodes[ring.node] * (1 - ring.part) + nodes[ring.node + 1] * ring.part;
}

double dot(const Sectors& a, const Sectors& b) {
  double sum = 0;
  for (std::size_t i = 0; i < kSectors; ++i) sum += a[i] * b[i];
  return sum;
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

Rings::Rings(double reach, RadialSpread central) : central_(central) {
  for (std::size_t i = 0; i <= kRings; ++i) {
    edges_.push_back(reach * std::pow(static_cast<double>(i) / kRings, kRingGrading));
    within_.push_back(share_within(central_, edges_.back()));
  }
}

std::size_t Rings::ring_of(double r) const {
  const auto above = std::upper_bound(edges_.begin(), edges_.end(), r);
  return static_cast<std::size_t>(above - edges_.begin()) - 1;
}

double Rings::part(std::size_t ring, double from, double to) const {
  const double start = edges_[ring], end = edges_[ring + 1];
  if (from <= start && to >= end) return 1;
  const double mass = within_[ring + 1] - within_[ring];
  const double inner = std::max(from, start), outer = std::min(to, end);
  if (mass <= 0) return (outer - inner) / (end - start);
  return (share_within(central_, outer) - share_within(central_, inner)) / mass;
}

RingedField::RingedField(const RootField& the_field, const Rings& all)
    : field(the_field), rings(all.count()) {
  const double extent = extent_of(field.spread);
  const std::vector<double>& edges = all.edges();
  double inside = 0;
  for (std::size_t i = 0; i < rings.size(); ++i) {
    const double next = share_within(field.spread, edges[i + 1]);
    const double middle = std::min(1.0, (edges[i] + edges[i + 1]) / 2 / extent);
    const double place = middle * (kDepthNodes - 1);
    const std::size_t node = std::min(static_cast<std::size_t>(place), kDepthNodes - 2);
    rings[i] = {next - inside, node, place - static_cast<double>(node)};
    inside = next;
  }
}

double RingedField::share_above(double depth) const {
  const DepthNodes nodes = depth_nodes(field.depth, depth);
  double sum = 0;
  for (const Ring& ring : rings) sum += ring.mass * at_ring(nodes, ring);
  return sum;
}

TakenGround::TakenGround(const std::vector<const RayedTaking*>& takings, const Rings& rings) {
  for (int ray = 0; ray < kRays; ++ray) {
    const Sectors weights = sector_weights(ray_azimuth(ray));
    for (const Stretch& stretch : stretches(takings, static_cast<std::size_t>(ray), rings.reach()))
      add(stretch, weights, rings);
  }
  for (std::size_t state = 0; state < dense_.size(); ++state)
    for (std::size_t ring = 0; ring < dense_[state].size(); ++ring)
      if (dense_[state][ring] != Sectors{}) cells_.push_back({ring, state, dense_[state][ring]});
  dense_.clear();
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

double TakenGround::lost(const RingedField& ringed) const {
  std::vector<DepthNodes> severed;
  std::vector<double> pressed;
  for (const State& state : states_) {
    severed.push_back(depth_nodes(ringed.field.depth, state.depth));
    pressed.push_back(at_place(state.pressed, ringed.field.pressing));
  }
  double sum = 0;
  for (const Cell& cell : cells_) {
    const RingedField::Ring& ring = ringed.rings[cell.ring];
    const double cut = at_ring(severed[cell.state], ring);
    const double share = cut + (1 - cut) * pressed[cell.state];
    sum += ring.mass * share * dot(cell.weight, ringed.field.sectors);
  }
  return std::clamp(sum, 0.0, 1.0);
}

}  // namespace rootstead
