#include "engine/roots/thick_roots.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rootstead {
namespace {

constexpr double kUpperMetre = 1.0;
constexpr double kReferenceThickness = 0.002;  // m, of the depth law
// The stem and trunk face that `counts` per metre speaks of.
constexpr double kReferenceFace = 0.75 * 0.350;  // m
constexpr double kReferenceFarShare = 0.3;
constexpr double kLeastClumping = 0.5;  // k of the negative binomial

double area_of(double thickness) {
  return std::numbers::pi / 4 * thickness * thickness;
}

}  // namespace

ThickDepthLaw::Depth::Depth(double depth) : metres(depth), log(depth > 0 ? std::log(depth) : 0) {}

ThickDepthLaw::Profile::Profile(double shape, double scale, double limit)
    : shape_(shape), log_scale_(std::log(scale)), limit_(limit) {
  total_ = -std::expm1(-std::pow(limit / scale, shape));
}

double ThickDepthLaw::Profile::share_above(const Depth& depth) const {
  if (depth.metres <= 0) return 0;
  if (depth.metres >= limit_) return 1;
  return -std::expm1(-std::exp(shape_ * (depth.log - log_scale_))) / total_;
}

double ThickDepthLaw::Profile::depth_of(double share) const {
  if (share <= 0) return 0;
  if (share >= 1) return limit_;
  const double log_depth = log_scale_ + std::log(-std::log1p(-share * total_)) / shape_;
  return std::min(limit_, std::exp(log_depth));
}

ThickDepthLaw::Profile ThickDepthLaw::at(double thickness, double relative_distance) const {
  const double relative = std::max(thickness, kReferenceThickness) / kReferenceThickness;
  return {shape * std::pow(relative, shape_growth),
          scale * std::pow(relative, scale_growth) * std::exp(-outward * relative_distance), limit};
}

double RootRing::count(double thicker_than) const {
  return law ? count(law->counted(thicker_than)) : 0;
}

double RootRing::count(const CountedThickness& thicker_than) const {
  if (many <= 0) return 0;
  double roots = many * law->spectrum.number_above(thicker_than.size, fall);
  const double above = thicker_than.log - log_main_thickness;  // the share of mains thicker
  if (mains > 0) roots += mains * std::erfc(above / law->main_spread / std::numbers::sqrt2) / 2;
  return roots;
}

CountedThickness ThickRootLaw::counted(double thickness) const {
  return {std::log(thickness),
          spectrum.size(thickness / (SizeSpectrum::kReferencePerStem * diameter))};
}

double ThickRootLaw::cross_section(double x) const {
  if (x + face >= extent) return 0;
  const double near = near_share * std::exp(-x / (near_length * diameter));
  const double far = (1 - near_share) * std::exp(-x / (far_length * extent));
  return base * area_of(diameter) * (near + far);
}

// The spectrum gives the many, the wood law the sum. Wood that the many do not account for is in
// the main roots; where the many would hold more than there is, there are fewer of them.
RootRing ThickRootLaw::ring(double x) const {
  x = std::max(0.0, x);
  RootRing ring;
  const double radius = x + face;
  ring.law = this;
  ring.length = 2 * std::numbers::pi * radius;
  ring.wood = cross_section(x);
  if (ring.wood <= 0) return ring;
  const double at_face = counts * count_factor * 2 * std::numbers::pi * kReferenceFace *
                         (1 - near_share) / kReferenceFarShare;
  ring.many = at_face * radius / face;
  ring.fall = x / (count_reach * extent);
  const double reference = SizeSpectrum::kReferencePerStem * diameter;
  const double in_many = ring.many * area_of(reference) * spectrum.wood(ring.fall);
  if (in_many >= ring.wood) {
    ring.many *= ring.wood / in_many;
    return ring;
  }
  ring.mains = main_roots;
  const double mean_square = (ring.wood - in_many) / main_roots / area_of(1);
  ring.log_main_thickness = std::log(mean_square) / 2 - main_spread * main_spread;
  return ring;
}

double ThickRootLaw::count_per_metre(double thicker_than, double x) const {
  return ring(x).per_metre(thicker_than);
}

double ThickRootLaw::count_per_area(double thicker_than, double x) const {
  return count_per_metre(thicker_than, x) * share_above(kUpperMetre, thicker_than, x) / kUpperMetre;
}

double ThickRootLaw::relative_distance(double x) const {
  return std::clamp((x + face) / extent, 0.0, 1.0);
}

double ThickRootLaw::share_above(double depth_below, double x) const {
  return share_above(depth_below, kSpokenThickness.front(), x);
}

double ThickRootLaw::share_above(double depth_below, double thicker_than, double x) const {
  return depth.share_above(depth_below, thicker_than, relative_distance(x));
}

double clumping(double mean, double crowding) {
  return std::max(mean / (crowding - 1), kLeastClumping);
}

double chance_of_any(double mean, double crowding) {
  if (mean <= 0) return 0;
  if (crowding <= 1) return -std::expm1(-mean);
  const double k = clumping(mean, crowding);
  return -std::expm1(-k * std::log1p(mean / k));
}

double log_chance_of_count(int count, double mean, double crowding) {
  if (mean <= 0) return count == 0 ? 0 : -std::numeric_limits<double>::infinity();
  double log_chance = 0;
  if (crowding <= 1) {
    log_chance = -mean + count * std::log(mean);
    for (int i = 1; i <= count; ++i) log_chance -= std::log(i);
    return log_chance;
  }
  const double k = clumping(mean, crowding);
  log_chance = -k * std::log1p(mean / k) - count * std::log1p(k / mean);
  for (int i = 0; i < count; ++i) log_chance += std::log((k + i) / (i + 1));
  return log_chance;
}

}  // namespace rootstead
