#include "engine/roots/rings.hpp"

#include <algorithm>
#include <cmath>

namespace rootstead {
namespace {

constexpr std::size_t kRings = 64;
constexpr double kRingGrading = 1.4;  // 1 would be even rings; more is finer near the stem

}  // namespace

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

RingedField::RingedField(const RootField& field, const Rings& rings,
                         const std::vector<double>& depths)
    : rings_(rings.count()),
      above_(depths.size()),
      sectors_(field.sectors),
      pressing_(field.pressing) {
  const double extent = extent_of(field.spread);
  const std::vector<double>& edges = rings.edges();
  double inside = 0;
  for (std::size_t i = 0; i < rings_.size(); ++i) {
    const double next = share_within(field.spread, edges[i + 1]);
    const double middle = std::min(1.0, (edges[i] + edges[i + 1]) / 2 / extent);
    const double place = middle * (kNodes - 1);
    const std::size_t node = std::min(static_cast<std::size_t>(place), kNodes - 2);
    rings_[i] = {next - inside, node, place - static_cast<double>(node)};
    inside = next;
  }
  for (std::size_t node = 0; node < kNodes; ++node) {
    const auto profile = field.depth.at(static_cast<double>(node) / (kNodes - 1));
    for (std::size_t d = 0; d < depths.size(); ++d)
      above_[d][node] = profile.share_above(depths[d]);
  }
}

double RingedField::share_above(std::size_t depth) const {
  double sum = 0;
  for (std::size_t i = 0; i < rings_.size(); ++i) sum += rings_[i].mass * share_above(depth, i);
  return sum;
}

}  // namespace rootstead
