#include "engine/roots/root_field.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace rootstead {
namespace {

constexpr double kCentimetresPerMetre = 100;
constexpr double kEvenBelow = 1e-7;  // |ln beta| per metre under which roots are evenly spread

// Share of an exp(-r/L) plan density inside q = r/L, before truncation.
double gamma_two(double q) {
  return 1 - (1 + q) * std::exp(-q);
}

}  // namespace

double WoodySpread::share_within(double r) const {
  if (r >= extent) return 1;
  if (r <= 0) return 0;
  return gamma_two(r / decay) / gamma_two(extent / decay);
}

double WoodySpread::density(double r) const {
  if (r > extent || r < 0) return 0;
  const double total = 2 * std::numbers::pi * decay * decay * gamma_two(extent / decay);
  return std::exp(-r / decay) / total;
}

double FibrousSpread::ends_before(double length) const {
  return -near_share * std::expm1(-length / near_length) -
         (1 - near_share) * std::expm1(-length / far_length);
}

double FibrousSpread::share_within(double r) const {
  if (r >= extent) return 1;
  if (r <= face) return 0;
  return ends_before(r - face) / ends_before(extent - face);
}

double FibrousSpread::density(double r) const {
  if (r > extent || r < face) return 0;
  const double length = r - face;
  const double per_metre = near_share / near_length * std::exp(-length / near_length) +
                           (1 - near_share) / far_length * std::exp(-length / far_length);
  return per_metre / ends_before(extent - face) / (2 * std::numbers::pi * r);
}

double extent_of(const RadialSpread& spread) {
  return std::visit([](const auto& s) { return s.extent; }, spread);
}

double share_within(const RadialSpread& spread, double r) {
  return std::visit([r](const auto& s) { return s.share_within(r); }, spread);
}

double density(const RadialSpread& spread, double r) {
  return std::visit([r](const auto& s) { return s.density(r); }, spread);
}

DepthLaw::Profile::Profile(double beta, double limit, const std::vector<DepthStep>& steps)
    : log_beta_(kCentimetresPerMetre * std::log(beta)), limit_(limit), scale_(0), steps_(steps) {
  scale_ = 1 / weighted_above(limit_);
}

double DepthLaw::Profile::amount_above(double depth) const {
  return std::abs(log_beta_) < kEvenBelow ? depth : -std::expm1(depth * log_beta_);
}

double DepthLaw::Profile::weighted_above(double depth) const {
  if (steps_.empty()) return amount_above(depth);
  double sum = 0, top = 0;
  for (std::size_t i = 0; i < steps_.size() && top < depth; ++i) {
    const bool last = i + 1 == steps_.size();
    const double bottom = last ? depth : std::min(depth, steps_[i].bottom);
    sum += steps_[i].weight * (amount_above(bottom) - amount_above(top));
    top = bottom;
  }
  return sum;
}

double DepthLaw::Profile::share_above(double depth) const {
  if (depth <= 0) return 0;
  if (depth >= limit_) return 1;
  return weighted_above(depth) * scale_;
}

double beta_of_top_share(double top_share) {
  assert(top_share >= 0.5 && top_share < 1);
  // (1 - b^30) / (1 - b^60) = 1 / (1 + b^30)
  return std::pow((1 - top_share) / top_share, 1.0 / 30);
}

Sectors sector_weights(Angle azimuth) {
  const double place = azimuth.degrees() / (360.0 / kSectors) - 0.5;
  const double below = std::floor(place);
  const auto wrapped = [](double i) {
    const int n = static_cast<int>(i) % kSectors;
    return static_cast<std::size_t>(n < 0 ? n + kSectors : n);
  };
  Sectors weights{};
  weights[wrapped(below)] += 1 - (place - below);
  weights[wrapped(below + 1)] += place - below;
  return weights;
}

}  // namespace rootstead
