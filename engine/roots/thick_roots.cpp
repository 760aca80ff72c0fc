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

// Share of a lognormal population above x; all of it where the spread is nothing and x below.
double share_thicker(double median, double spread, double x) {
  if (median <= 0) return 0;
  if (x <= 0) return 1;
  if (spread <= 0) return x <= median ? 1 : 0;
  return std::erfc(std::log(x / median) / spread / std::numbers::sqrt2) / 2;
}

double clumping(double mean, double crowding) {
  return std::max(mean / (crowding - 1), kLeastClumping);
}

}  // namespace

ThickDepthLaw::Profile::Profile(double shape, double scale, double limit)
    : shape_(shape), per_scale_(1 / scale), limit_(limit) {
  total_ = -std::expm1(-std::pow(limit_ * per_scale_, shape_));
}

double ThickDepthLaw::Profile::share_above(double depth) const {
  if (depth <= 0) return 0;
  if (depth >= limit_) return 1;
  return -std::expm1(-std::pow(depth * per_scale_, shape_)) / total_;
}

double ThickDepthLaw::Profile::depth_of(double share) const {
  if (share <= 0) return 0;
  if (share >= 1) return limit_;
  return std::min(limit_, std::pow(-std::log1p(-share * total_), 1 / shape_) / per_scale_);
}

ThickDepthLaw::Profile ThickDepthLaw::at(double thickness, double relative_distance) const {
  const double relative = std::max(thickness, kReferenceThickness) / kReferenceThickness;
  return {shape * std::pow(relative, shape_growth),
          scale * std::pow(relative, scale_growth) * std::exp(-outward * relative_distance), limit};
}

double RootRing::count(double thicker_than) const {
  if (many <= 0) return 0;
  constexpr double kEnd = SizeSpectrum::kThickestPerStem / SizeSpectrum::kReferencePerStem;
  const double s = thicker_than / reference;
  const double small =
      s >= kEnd ? 0 : many * (spectrum.number_above(s, fall) - spectrum.number_above(kEnd, fall));
  return small + mains * share_thicker(main_thickness, main_spread, thicker_than);
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
  RootRing ring;
  const double radius = std::max(0.0, x) + face;
  ring.length = 2 * std::numbers::pi * radius;
  ring.wood = cross_section(std::max(0.0, x));
  if (ring.wood <= 0) return ring;
  ring.spectrum = spectrum;
  ring.reference = SizeSpectrum::kReferencePerStem * diameter;
  ring.fall = std::max(0.0, x) / (count_reach * extent);
  const double at_face = counts * count_factor * 2 * std::numbers::pi * kReferenceFace *
                         (1 - near_share) / kReferenceFarShare;
  ring.many = at_face * radius / face;
  const double in_many = ring.many * area_of(ring.reference) * spectrum.wood(ring.fall);
  if (in_many > ring.wood) {
    ring.many *= ring.wood / in_many;
    return ring;
  }
  ring.mains = main_roots;
  ring.main_spread = main_spread;
  const double mean_square = (ring.wood - in_many) / main_roots / area_of(1);
  ring.main_thickness = std::sqrt(mean_square) * std::exp(-main_spread * main_spread);
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
