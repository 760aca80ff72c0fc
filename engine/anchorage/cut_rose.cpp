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

double square(double x) {
  return x * x;
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

Length search_reach(const Trunk& trunk) {
  return Length::metres(trunk.face + kReachUnits * trunk.unit);
}

CutRose::CutRose(const Point& stem, const Trunk& trunk, const std::vector<AnchorageCut>& cuts)
    : trunk_(trunk) {
  const double reach = search_reach(trunk).metres();
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

double depth_share(double depth, const AnchorageShares& shares) {
  const double scale = shares.depth_scale.metres();
  const auto above = [&](double d) { return -std::expm1(-d / scale); };
  if (!shares.deepest) return above(depth);
  const double deepest = shares.deepest->metres();
  return depth >= deepest ? 1 : above(depth) / above(deepest);
}

KeptByWind::KeptByWind(const CutRose& rose, const AnchorageShares& shares,
                       const std::vector<MeasuredRoot>& measured)
    : rose_(rose), shares_(shares) {
  const Trunk& trunk = rose.trunk();
  // For palms the plate reaches as many units beyond the face as for a tree whose unit is D.
  plate_radius_ = shares.unit ? trunk.face + (shares.plate_radius_per_unit - 0.5) * trunk.unit
                              : std::min(structural_root_zone(trunk.unit),
                                         shares.plate_radius_per_unit * trunk.unit);
  for (int i = 0; i < kRoseRays; ++i) {
    const double cosine = std::cos(azimuth_of(i));
    even_whole_.tension += std::max(0.0, shares.hinge_offset + cosine);
    even_whole_.hinge += square(std::max(0.0, -cosine));
    plate_whole_ += plate_up_to(plate_end(cosine), cosine);
    const CutRose::Ray& ray = rose.rays()[static_cast<std::size_t>(i)];
    if (ray.empty()) continue;
    roots_.push_back({azimuth_of(i), 1, lost_of(ray, shares.u0), lost_of(ray, shares.u0_hinge)});
    cut_rays_.push_back({azimuth_of(i), {}});
    double above = 0;
    for (const CutRose::Step& step : ray) {
      const double share = depth_share(step.depth, shares_);
      cut_rays_.back().severed.emplace_back(step.distance, share - above);
      above = share;
    }
  }
  even_ = measured.empty();
  if (even_) return;
  roots_.clear();
  for (const MeasuredRoot& root : measured)
    roots_.push_back({azimuth_of(root.ray), root.area, lost_of(root, shares.u0),
                      lost_of(root, shares.u0_hinge)});
}

// A root severed at this distance from the centre holds 1 - exp(-(u / u0)^1.5).
double KeptByWind::lost_by(double distance, double u0) const {
  const Trunk& trunk = rose_.trunk();
  const double u = std::max(0.0, distance - trunk.face) / trunk.unit;
  return std::exp(-std::pow(u / u0, kHoldingExponent));
}

// Roots at each depth hold by the length left up to the nearest cut that is deep enough.
double KeptByWind::lost_of(const CutRose::Ray& ray, double u0) const {
  double lost = 0, above = 0;
  for (const CutRose::Step& step : ray) {
    const double share = depth_share(step.depth, shares_);
    lost += (share - above) * lost_by(step.distance, u0);
    above = share;
  }
  return lost;
}

// One root at a known depth: the nearest cut that reaches it decides.
double KeptByWind::lost_of(const MeasuredRoot& root, double u0) const {
  const CutRose::Ray& ray = rose_.rays()[static_cast<std::size_t>(root.ray)];
  if (!root.depth) return lost_of(ray, u0);
  const auto cut = std::find_if(
      ray.begin(), ray.end(), [&](const CutRose::Step& step) { return step.depth >= *root.depth; });
  return cut == ray.end() ? 0 : lost_by(cut->distance, u0);
}

// The moment of the ground about the tilting axis along one ray: the integral over r of arm * r,
// arm = c0 R + r cos, where the arm is positive.
double KeptByWind::plate_up_to(double r, double cosine) const {
  return shares_.hinge_offset * plate_radius_ * r * r / 2 + cosine * r * r * r / 3;
}

double KeptByWind::plate_end(double cosine) const {
  return cosine < 0 ? std::min(plate_radius_, shares_.hinge_offset * plate_radius_ / -cosine)
                    : plate_radius_;
}

// Ground beyond a cut counts only with the roots below it.
double KeptByWind::plate_lost(const CutRay& ray, double cosine) const {
  const double end = plate_end(cosine);
  double lost = 0;
  for (const auto& [distance, share] : ray.severed) {
    if (distance >= end) break;
    lost += share * (plate_up_to(end, cosine) - plate_up_to(distance, cosine));
  }
  return lost;
}

KeptByWind::Sums KeptByWind::whole(Angle wind_from) const {
  if (even_) return even_whole_;
  Sums sums;
  for (const Roots& roots : roots_) {
    const double windward = std::cos(roots.azimuth - wind_from.radians());
    sums.tension += roots.weight * std::max(0.0, shares_.hinge_offset + windward);
    sums.hinge += roots.weight * square(std::max(0.0, -windward));
  }
  return sums;
}

KeptParts KeptByWind::parts(Angle wind_from) const {
  Sums lost;
  double plate = 0;
  for (const Roots& roots : roots_) {
    const double windward = std::cos(roots.azimuth - wind_from.radians());
    lost.tension +=
        roots.weight * roots.tension_lost * std::max(0.0, shares_.hinge_offset + windward);
    lost.hinge += roots.weight * roots.hinge_lost * square(std::max(0.0, -windward));
  }
  for (const CutRay& ray : cut_rays_)
    plate += plate_lost(ray, std::cos(ray.azimuth - wind_from.radians()));
  const Sums all = whole(wind_from);
  // Where no measured root pulls (or bends) against this wind, none of them can be lost.
  const auto left = [](double gone, double of) {
    return of > 0 ? std::max(0.0, 1 - gone / of) : 1;
  };
  return {left(lost.tension, all.tension), 1 - depth_share(rose_.depth_under_stem(), shares_),
          left(plate, plate_whole_), left(lost.hinge, all.hinge)};
}

double KeptByWind::operator()(Angle wind_from) const {
  const KeptParts left = parts(wind_from);
  const double lost = shares_.tension * (1 - left.tension) + shares_.hinge * (1 - left.hinge) +
                      shares_.plate * (1 - left.plate) + shares_.central * (1 - left.central);
  return std::clamp(1 - lost, 0.0, 1.0);
}

}  // namespace rootstead
