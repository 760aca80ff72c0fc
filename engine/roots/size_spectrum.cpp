#include "engine/roots/size_spectrum.hpp"

#include <algorithm>
#include <cmath>

namespace rootstead {
namespace {

constexpr double kThickest = SizeSpectrum::kThickestPerStem / SizeSpectrum::kReferencePerStem;

// Gauss-Legendre of order 8 on [-1, 1], the positive half (Abramowitz & Stegun 1964, table 25.4).
constexpr std::array<double, 4> kPlaces = {0.1834346424956498049, 0.5255324099163289858,
                                           0.7966664774136267396, 0.9602898564975362317};
constexpr std::array<double, 4> kWeights = {0.3626837833783619830, 0.3137066458778872873,
                                            0.2223810344533744706, 0.1012285362903762592};

}  // namespace

// By parts: - integral of s^2 dN = N(1) - S^2 N(S) + integral of 2 s N ds, and in ln s the last
// integrand is 2 s^(2 - q) exp(-u s^p), smooth over the whole span.
SizeSpectrum::SizeSpectrum(double size_exponent, double reach_exponent)
    : q_(size_exponent), p_(reach_exponent) {
  const double half = std::log(kThickest) / 2;
  for (std::size_t i = 0; i < kNodes; ++i) {
    const std::size_t pair = i / 2;
    const double place = i % 2 == 0 ? -kPlaces[pair] : kPlaces[pair];
    const double s = std::exp(half * (1 + place));
    nodes_[i] = {std::pow(s, p_), half * kWeights[pair] * 2 * std::pow(s, 2 - q_)};
  }
  thickest_ = size(kThickest);
  thickest_wood_ = kThickest * kThickest * thickest_.power;
}

SizeSpectrum::Size SizeSpectrum::size(double s) const {
  return {std::pow(s, -q_), std::pow(s, p_)};
}

double SizeSpectrum::number_above(const Size& size, double u) const {
  return std::max(
      0.0, size.power * std::exp(-u * size.fall) - thickest_.power * std::exp(-u * thickest_.fall));
}

double SizeSpectrum::wood(double u) const {
  double sum = std::exp(-u) - thickest_wood_ * std::exp(-u * thickest_.fall);
  for (const Node& node : nodes_) sum += node.weight * std::exp(-u * node.fall);
  return sum;
}

}  // namespace rootstead
