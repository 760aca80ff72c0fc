// CutRose: what cuts do to the roots of one stem, direction by direction. Geometry is done once;
// every wind direction and every architecture then reads the same rose.
#pragma once

#include <array>
#include <vector>

#include "engine/anchorage/anchorage.hpp"

namespace rootstead {

inline constexpr int kRoseRays = 360;

// Everything anchorage counts distances with: the trunk face and the unit of distance.
struct Trunk {
  double face = 0;  // m, radius of the trunk
  double unit = 1;  // m: stem diameter, or 0.30 m for palms
};
Trunk trunk_of(Length diameter, const AnchorageShares& shares);
// Beyond this from the centre a severed root holds as if whole.
Length search_reach(const Trunk& trunk);

class CutRose {
 public:
  CutRose(const Point& stem, const Trunk& trunk, const std::vector<AnchorageCut>& cuts);

  // The severing met on a ray from the stem outward: at `distance` the ground is cut down to
  // `depth`, deeper than anything nearer.
  struct Step {
    double distance = 0;
    double depth = 0;
  };
  using Ray = std::vector<Step>;

  const std::array<Ray, kRoseRays>& rays() const { return rays_; }
  const Trunk& trunk() const { return trunk_; }
  bool uncut() const;
  double depth_under_stem() const { return depth_under_stem_; }  // m, 0 where nothing is dug there

 private:
  Trunk trunk_;
  double depth_under_stem_ = 0;
  std::array<Ray, kRoseRays> rays_;
};

// A root that was laid bare near the stem.
struct MeasuredRoot {
  int ray = 0;                  // nearest ray of the rose
  double area = 0;              // m2, cross-section
  std::optional<double> depth;  // m, of its middle
};

// Share of the structural roots above a depth in metres.
double depth_share(double depth, const AnchorageShares& shares);

// Anchorage kept for wind from each direction asked, one architecture. Roots are even all round
// unless some were measured.
class KeptByWind {
 public:
  KeptByWind(const CutRose& rose, const AnchorageShares& shares,
             const std::vector<MeasuredRoot>& measured = {});
  double operator()(Angle wind_from) const;
  KeptParts parts(Angle wind_from) const;

 private:
  // Roots in one direction: how many of all, and how much of their hold is lost.
  struct Roots {
    double azimuth = 0;
    double weight = 1;
    double tension_lost = 0, hinge_lost = 0;
  };
  // One ray that meets cuts: the share of the depth that each of them severs, beyond the nearer.
  struct CutRay {
    double azimuth = 0;
    std::vector<std::pair<double, double>> severed;  // distance, share
  };
  struct Sums {
    double tension = 0, hinge = 0;
  };

  double plate_up_to(double radius, double cosine) const;
  double plate_end(double cosine) const;
  double plate_lost(const CutRay& ray, double cosine) const;
  double lost_of(const CutRose::Ray& ray, double u0) const;
  double lost_of(const MeasuredRoot& root, double u0) const;
  double lost_by(double distance, double u0) const;
  Sums whole(Angle wind_from) const;

  const CutRose& rose_;
  AnchorageShares shares_;
  double plate_radius_ = 0;
  bool even_ = true;          // no root was measured
  std::vector<Roots> roots_;  // measured: all; even: those on rays that meet cuts
  std::vector<CutRay> cut_rays_;
  Sums even_whole_;  // of even roots, alike for every wind
  double plate_whole_ = 0;
};

}  // namespace rootstead
