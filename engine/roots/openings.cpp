#include "engine/roots/openings.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/geom/ray.hpp"

namespace rootstead {
namespace {

constexpr int kOpeningRays = 720;  // a pit of half a metre, ten metres away, is met by six of them
constexpr double kUnbounded = std::numeric_limits<double>::infinity();
// Roots are told apart by thickness in classes that double: from the counted thickness, twice, four
// times, without end.
constexpr std::array<double, 4> kClassEdges = {1, 2, 4, kUnbounded};
// Depths of found roots are told apart in layers of this thickness.
constexpr double kDepthClass = 0.2;  // m

Angle opening_azimuth(int ray) {
  return Angle::degrees((ray + 0.5) * 360.0 / kOpeningRays);
}

double counted_from(const Evidence& evidence) {
  return evidence.counted_from.length().metres();
}

// The place of a single root, where the record has no opening.
MultiPolygon ground_of(const Evidence& evidence) {
  MultiPolygon ground = footprint(evidence);
  if (!ground.empty()) return ground;
  Evidence at_roots = evidence;
  for (const FoundRoot& root : evidence.roots)
    if (root.at) at_roots.shape.points.push_back(*root.at);
  return footprint(at_roots);
}

double log_chance_of_depths(const Evidence& evidence, double dug, const ThickRootLaw& law) {
  double sum = 0;
  const double within = law.share_above(dug, 0);
  for (const FoundRoot& root : evidence.roots) {
    if (!root.depth || !root.alive || within <= 0) continue;
    const double depth = root.depth->length().metres();
    const double top = std::floor(depth / kDepthClass) * kDepthClass;
    const double share = law.share_above(std::min(top + kDepthClass, dug), 0) -
                         law.share_above(std::min(top, dug), 0);
    if (share > 0) sum += std::log(share / within);
  }
  return sum;
}

int count_alive(const Evidence& evidence, double from, double below) {
  return static_cast<int>(
      std::count_if(evidence.roots.begin(), evidence.roots.end(), [&](const FoundRoot& root) {
        const double thickness = root.diameter.length().metres();
        return root.alive && thickness >= from && thickness < below;
      }));
}

double dug_depth(const Evidence& evidence) {
  return evidence.depth.value_or(kDefaultOpeningDepth).length().metres();
}

}  // namespace

OpeningFace::OpeningFace(const Point& stem, const MultiPolygon& opening, Length depth, double reach)
    : depth_(depth.metres()) {
  const double angle = 2 * std::numbers::pi / kOpeningRays;
  for (int ray = 0; ray < kOpeningRays; ++ray) {
    const auto met = ray_crossings(stem, opening_azimuth(ray), reach, opening);
    if (met.empty()) continue;
    const double distance = met.front().first;
    rays_.push_back({distance, distance * angle, sector_weights(opening_azimuth(ray))});
  }
}

double OpeningFace::expected(const ThickRootLaw& law, double thinnest, double thickest) const {
  double sum = 0;
  for (const Ray& ray : rays_) {
    const double x = std::max(0.0, ray.distance - law.face);
    double per_area = law.count_per_area(thinnest, x);
    if (std::isfinite(thickest)) per_area -= law.count_per_area(thickest, x);
    const double sector =
        std::inner_product(ray.weights.begin(), ray.weights.end(), law.sectors.begin(), 0.0);
    const double metre = law.share_above(1, x);  // counts per area are of the upper metre
    if (metre > 0)
      sum += std::max(0.0, per_area) * ray.width * sector * law.share_above(depth_, x) / metre;
  }
  return sum;
}

std::vector<const Evidence*> evidence_for(const Tree& tree, const Site& site) {
  std::vector<const Evidence*> found;
  for (const Evidence& evidence : site.evidence) {
    if (evidence.tree == tree.id) found.push_back(&evidence);
    if (!evidence.tree.empty() || !tree.position) continue;
    const MultiPolygon ground = ground_of(evidence);
    const Length from_this = distance_between(tree.position->at, ground);
    const bool nearest = std::all_of(site.trees.begin(), site.trees.end(), [&](const Tree& other) {
      return !other.position || other.id == tree.id ||
             distance_between(other.position->at, ground) > from_this;
    });
    if (nearest && !ground.empty()) found.push_back(&evidence);
  }
  return found;
}

double log_chance_of(const Evidence& evidence, const OpeningFace& face, const ThickRootLaw& law) {
  if (!face.met()) return 0;
  double sum = log_chance_of_depths(evidence, dug_depth(evidence), law);
  if (evidence.kind == EvidenceKind::dug_root) {  // what else was there is not known
    for (const FoundRoot& root : evidence.roots) {
      if (!root.alive) continue;
      const double mean = face.expected(law, root.diameter.length().metres(), kUnbounded);
      sum += std::log(std::max(chance_of_any(mean, law.crowding), 1e-300));
    }
    return sum;
  }
  const double unit = counted_from(evidence);
  for (std::size_t i = 0; i + 1 < kClassEdges.size(); ++i) {
    const double from = kClassEdges[i] * unit, below = kClassEdges[i + 1] * unit;
    sum += log_chance_of_count(count_alive(evidence, from, below), face.expected(law, from, below),
                               law.crowding);
  }
  return sum;
}

DrawWeights weigh_draws(const Tree& tree, const Site& site, const std::vector<ThickRootLaw>& laws) {
  assert(tree.position);
  DrawWeights result;
  double reach = 0;
  for (const ThickRootLaw& law : laws) reach = std::max(reach, law.extent);
  std::vector<double> logs(laws.size(), 0);
  for (const Evidence* evidence : evidence_for(tree, site)) {
    const OpeningFace face(tree.position->at, ground_of(*evidence),
                           Length::metres(dug_depth(*evidence)), reach);
    (face.met() ? result.used : result.apart).push_back(evidence->id);
    for (std::size_t i = 0; i < laws.size(); ++i)
      logs[i] += log_chance_of(*evidence, face, laws[i]);
  }
  if (result.used.empty()) return result;
  const double largest = *std::max_element(logs.begin(), logs.end());
  double sum = 0, squares = 0;
  for (const double log : logs) {
    const double weight = std::exp(log - largest);
    result.weights.push_back(weight);
    sum += weight;
    squares += weight * weight;
  }
  for (double& weight : result.weights) weight *= static_cast<double>(laws.size()) / sum;
  result.effective_draws = sum * sum / squares;
  return result;
}

}  // namespace rootstead
