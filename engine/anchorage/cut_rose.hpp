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

// Anchorage kept for wind from each direction asked, one architecture.
class KeptByWind {
 public:
  KeptByWind(const CutRose& rose, const AnchorageShares& shares);
  double operator()(Angle wind_from) const;

 private:
  double plate_moment(double cosine, const CutRose::Ray* cuts) const;
  double depth_share(double depth) const;
  double holding(const CutRose::Ray& ray, double u0) const;

  const CutRose& rose_;
  AnchorageShares shares_;
  double plate_radius_ = 0;
  std::array<double, kRoseRays> tension_{}, hinge_{};  // holding of each ray's roots, 0 to 1
};

}  // namespace rootstead
