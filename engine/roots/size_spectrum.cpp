#include "engine/roots/size_spectrum.hpp"

#include <cmath>

namespace rootstead {
namespace {

constexpr double kThickest = SizeSpectrum::kThickestPerStem / SizeSpectrum::kReferencePerStem;

// Gauss-Legendre nodes and weights of order 16 on [-1, 1]; the positive half (Abramowitz & Stegun
// 1964, table 25.4).
constexpr std::array<double, 8> kPlaces = {
    0.0950125098376374402, 0.2816035507792589132, 0.4580167776572273863, 0.6178762444026437484,
    0.7554044083550030339, 0.8656312023878317439, 0.9445750230732325761, 0.9894009349916499326};
constexpr std::array<double, 8> kWeights = {
    0.1894506104550684963, 0.1826034150449235889, 0.1691565193950025382, 0.1495959888165767321,
    0.1246289712555338720, 0.0951585116824927848, 0.0622535239386478929, 0.0271524594117540949};

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
  end_power_ = std::pow(kThickest, p_);
  end_weight_ = std::pow(kThickest, 2 - q_);
}

double SizeSpectrum::reach_power(double s) const {
  return std::pow(s, p_);
}

double SizeSpectrum::size_power(double s) const {
  return std::pow(s, -q_);
}

double SizeSpectrum::number_above(double s, double u) const {
  return size_power(s) * std::exp(-u * reach_power(s));
}

double SizeSpectrum::wood(double u) const {
  double sum = std::exp(-u) - end_weight_ * std::exp(-u * end_power_);
  for (const Node& node : nodes_) sum += node.weight * std::exp(-u * node.reach_power);
  return sum;
}

}  // namespace rootstead
