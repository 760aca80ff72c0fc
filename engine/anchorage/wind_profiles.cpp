// The two wind profiles themselves: formulas of the standards, nothing else.
#include <algorithm>
#include <cmath>

#include "engine/anchorage/wind.hpp"

namespace rootstead {
namespace {

// EN 1991-1-4:2005, formula numbers beside their use.
constexpr double kOpenRoughness = 0.05;  // z0 of terrain II, m (4.5)
constexpr double kTerrainFactor = 0.19;  // (4.5)
constexpr double kTerrainExponent = 0.07;
constexpr double kPeakFactor = 7;                       // 2 x 3.5 (4.8)
constexpr double kReferenceReturn = 50;                 // years
constexpr double kSizeHeightShare = 0.6;                // z_s over h (Figure 6.1)
constexpr double kSizeLength = 300, kSizeHeight = 200;  // L_t, z_t (B.1)
constexpr double kSizeExponent = 0.67, kSizeRoughness = 0.05;
constexpr double kBackground = 0.9, kBackgroundExponent = 0.63;  // (B.3)

// ASCE 7, 26.10.
constexpr double kHalfDensity = 0.613;      // kg/m3
constexpr double kLeastHeight = 4.6;        // m, 15 ft
constexpr double kAltitudeRate = 0.000119;  // per m

// The fractile of the yearly extremes as Gumbel has it.
double gumbel(double yearly_chance) {
  return std::log(-std::log1p(-yearly_chance));
}

}  // namespace

double probability_factor(double return_years, const Tables& tables) {
  assert(return_years > 1);
  const double shape = tables.parameter("wind.en1991.probability_shape").best;
  const double exponent = tables.parameter("wind.en1991.probability_exponent").best;
  const auto speed_of = [&](double years) { return 1 - shape * gumbel(1 / years); };
  return std::pow(speed_of(return_years) / speed_of(kReferenceReturn), exponent);
}

En1991Wind::En1991Wind(double basic_speed, Terrain terrain, double air_density)
    : basic_speed_(basic_speed), terrain_(terrain), air_density_(air_density) {}

double En1991Wind::effective(Length z) const {
  return std::max(z.metres(), terrain_.least_height);
}

double En1991Wind::terrain_factor() const {
  return kTerrainFactor * std::pow(terrain_.roughness / kOpenRoughness, kTerrainExponent);
}

double En1991Wind::roughness_factor(Length z) const {
  return terrain_factor() * std::log(effective(z) / terrain_.roughness);
}

double En1991Wind::mean_speed(Length z) const {
  return roughness_factor(z) * basic_speed_;
}

double En1991Wind::turbulence(Length z) const {
  return 1 / std::log(effective(z) / terrain_.roughness);
}

Pressure En1991Wind::basic_pressure() const {
  return Pressure::pascals(air_density_ * basic_speed_ * basic_speed_ / 2);
}

Pressure En1991Wind::peak_pressure(Length z) const {
  const double mean = mean_speed(z);
  return Pressure::pascals((1 + kPeakFactor * turbulence(z)) * air_density_ * mean * mean / 2);
}

double En1991Wind::exposure(Length z) const {
  return peak_pressure(z) / basic_pressure();
}

double En1991Wind::gust_speed(Length z) const {
  return mean_speed(z) * std::sqrt(1 + kPeakFactor * turbulence(z));
}

SizeFactor En1991Wind::size_factor(Length whole_height, Length crown_width,
                                   Length crown_height) const {
  SizeFactor size;
  size.reference_height =
      std::max(whole_height * kSizeHeightShare, Length::metres(terrain_.least_height));
  const double exponent = kSizeExponent + kSizeRoughness * std::log(terrain_.roughness);
  size.length_scale =
      kSizeLength * std::pow(size.reference_height.metres() / kSizeHeight, exponent);
  const double size_over_scale = (crown_width + crown_height).metres() / size.length_scale;
  size.background = 1 / (1 + kBackground * std::pow(size_over_scale, kBackgroundExponent));
  size.turbulence = turbulence(size.reference_height);
  const double gusts = kPeakFactor * size.turbulence;
  size.factor = (1 + gusts * std::sqrt(size.background)) / (1 + gusts);
  return size;
}

Asce7Wind::Asce7Wind(double speed, Exposure exposure, double elevation, double directionality)
    : speed_(speed), exposure_(exposure), elevation_(elevation), directionality_(directionality) {}

double Asce7Wind::exposure_factor(Length z) const {
  const double height = std::max(z.metres(), kLeastHeight);
  return exposure_.coefficient *
         std::pow(height / exposure_.gradient_height, 2 / exposure_.exponent);
}

double Asce7Wind::altitude_factor() const {
  return std::exp(-kAltitudeRate * elevation_);
}

Pressure Asce7Wind::pressure(Length z) const {
  return Pressure::pascals(kHalfDensity * exposure_factor(z) * directionality_ * altitude_factor() *
                           speed_ * speed_);
}

double Asce7Wind::gust_speed(Length z) const {
  return speed_ * std::sqrt(exposure_factor(z));
}

}  // namespace rootstead
