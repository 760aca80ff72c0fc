#include "engine/anchorage/cut_rose.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/geom/measure.hpp"
#include "engine/geom/ray.hpp"

namespace rootstead {
namespace {

// Beyond this a severed root holds as if whole: 1 - exp(-(10 / 1.4)^1.5) is 1 within 6e-9.
constexpr double kReachUnits = 10;
constexpr double kHoldingExponent = 1.5;

// Structural root zone of AS 4970-2009 clause 3.3.5: R = 0.64 (50 D)^0.42 without its minimum,
// since the plate never exceeds 4 D here.
double structural_root_zone(double diameter) {
  return 0.64 * std::pow(50 * diameter, 0.42);
}

double azimuth_of(int ray) {
  return ray * 2 * std::numbers::pi / kRoseRays;
}

CutRose::Ray running_maximum(std::vector<CutRose::Step> steps) {
  std::sort(steps.begin(), steps.end(),
            [](const auto& a, const auto& b) { return a.distance < b.distance; });
  CutRose::Ray deepening;
  for (const CutRose::Step& step : steps)
    if (deepening.empty() || step.depth > deepening.back().depth) deepening.push_back(step);
  return deepening;
}

}  // namespace

Trunk trunk_of(Length diameter, const AnchorageShares& shares) {
  return {diameter.metres() / 2, shares.unit.value_or(diameter).metres()};
}

CutRose::CutRose(const Point& stem, const Trunk& trunk, const std::vector<AnchorageCut>& cuts)
    : trunk_(trunk) {
  const double reach = trunk.face + kReachUnits * trunk.unit;
  for (const AnchorageCut& cut : cuts)
    if (contains(cut.area, stem))
      depth_under_stem_ = std::max(depth_under_stem_, cut.depth.metres());
  for (int ray = 0; ray < kRoseRays; ++ray) {
    std::vector<Step> steps;
    for (const AnchorageCut& cut : cuts) {
      if (cut.depth.metres() <= 0) continue;
      const auto met = ray_crossings(stem, Angle::radians(azimuth_of(ray)), reach, cut.area);
      if (!met.empty()) steps.push_back({met.front().first, cut.depth.metres()});
    }
    rays_[static_cast<std::size_t>(ray)] = running_maximum(std::move(steps));
  }
}

bool CutRose::uncut() const {
  return std::all_of(rays_.begin(), rays_.end(), [](const Ray& ray) { return ray.empty(); });
}

KeptByWind::KeptByWind(const CutRose& rose, const AnchorageShares& shares)
    : rose_(rose), shares_(shares) {
  const Trunk& trunk = rose.trunk();
  // For palms the plate reaches as many units beyond the face as for a tree whose unit is D.
  plate_radius_ = shares.unit ? trunk.face + (shares.plate_radius_per_unit - 0.5) * trunk.unit
                              : std::min(structural_root_zone(trunk.unit),
                                         shares.plate_radius_per_unit * trunk.unit);
  for (std::size_t i = 0; i < kRoseRays; ++i) {
    tension_[i] = holding(rose.rays()[i], shares.u0);
    hinge_[i] = holding(rose.rays()[i], shares.u0_hinge);
  }
}

double KeptByWind::depth_share(double depth) const {
  return -std::expm1(-depth / shares_.depth_scale.metres());
}

// Roots at each depth hold by the length left up to the nearest cut that is deep enough:
// 1 - sum over steps of their share times exp(-(u / u0)^1.5).
double KeptByWind::holding(const CutRose::Ray& ray, double u0) const {
  const Trunk& trunk = rose_.trunk();
  double lost = 0, above = 0;
  for (const CutRose::Step& step : ray) {
    const double share = depth_share(step.depth);
    const double u = std::max(0.0, step.distance - trunk.face) / trunk.unit;
    lost += (share - above) * std::exp(-std::pow(u / u0, kHoldingExponent));
    above = share;
  }
  return 1 - lost;
}

// Integral over r of arm * keep * r along one ray, arm = c0 R + r cos, where the arm is positive.
double KeptByWind::plate_moment(double cosine, const CutRose::Ray* cuts) const {
  const double axis = shares_.hinge_offset * plate_radius_;
  const double end = cosine < 0 ? std::min(plate_radius_, axis / -cosine) : plate_radius_;
  const auto up_to = [&](double r) { return axis * r * r / 2 + cosine * r * r * r / 3; };
  double moment = up_to(end);
  if (!cuts) return moment;
  double above = 0;
  for (const CutRose::Step& step : *cuts) {
    if (step.distance >= end) break;
    const double share = depth_share(step.depth);
    moment -= (share - above) * (up_to(end) - up_to(step.distance));
    above = share;
  }
  return moment;
}

double KeptByWind::operator()(Angle wind_from) const {
  double tension = 0, tension_whole = 0, hinge = 0, hinge_whole = 0, plate = 0, plate_whole = 0;
  for (int ray = 0; ray < kRoseRays; ++ray) {
    const auto i = static_cast<std::size_t>(ray);
    const double windward = std::cos(azimuth_of(ray) - wind_from.radians());
    const double pull = std::max(0.0, shares_.hinge_offset + windward);
    const double lee = std::max(0.0, -windward);
    tension += pull * tension_[i];
    tension_whole += pull;
    hinge += lee * lee * hinge_[i];
    hinge_whole += lee * lee;
    plate += plate_moment(windward, &rose_.rays()[i]);
    plate_whole += plate_moment(windward, nullptr);
  }
  const double lost = shares_.tension * (1 - tension / tension_whole) +
                      shares_.hinge * (1 - hinge / hinge_whole) +
                      shares_.plate * (1 - plate / plate_whole) +
                      shares_.central * depth_share(rose_.depth_under_stem());
  return std::clamp(1 - lost, 0.0, 1.0);
}

}  // namespace rootstead
