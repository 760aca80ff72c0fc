#include "engine/roots/root_picture.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/geom/measure.hpp"
#include "engine/roots/taken_ground.hpp"

namespace rootstead {
namespace {

constexpr double kAllDepths = std::numeric_limits<double>::infinity();

}  // namespace

RootPicture::RootPicture(const RootSubject& subject)
    : stem_(subject.stem()),
      field_(subject.fields->central()),
      ground_(ground_round(subject.tree, subject.site, subject.tables, subject.likely_extent(),
                           kGridCell)) {
  if (ground_.open()) return;
  travel_ = root_travel(ground_, stem_);
  const Rings rings(extent_of(field_.spread), field_.spread);
  const Ways ways(ground_, travel_, stem_, rings);
  const auto depths = depths_of({}, ways);
  held_ = TakenGround::everything(ways, rings, depths, kAllDepths)
              .taken(RingedField(field_, rings, depths));
}

double RootPicture::from_stem(const Point& at) const {
  return distance(stem_, at).metres();
}

// Layer by layer: roots of each come their own way.
double RootPicture::density_above(const Point& at, double depth) const {
  const double extent = extent_of(field_.spread);
  const auto in_layer = [&](double travelled, double top, double bottom) {
    const auto profile = field_.depth.at(std::min(1.0, travelled / extent));
    return density(field_.spread, travelled) *
           (profile.share_above(bottom) - profile.share_above(top));
  };
  if (ground_.open()) return in_layer(from_stem(at), 0, depth);
  const auto cell = ground_.grid.index_at(at);
  if (!cell) return 0;
  double sum = 0;
  for (std::size_t l = 0; l < travel_.size() && ground_.layers[l].top < depth; ++l) {
    const GroundLayer& layer = ground_.layers[l];
    const double travelled = travel_[l].at(at);
    if (!std::isfinite(travelled)) continue;
    sum += layer.rooting[*cell] *
           in_layer(std::max(travelled, from_stem(at)), layer.top, std::min(layer.bottom, depth));
  }
  return held_ > 0 ? sum / held_ : 0;
}

double RootPicture::plan_density(const Point& at) const {
  return density_above(at, kAllDepths);
}

double RootPicture::share_above(const Point& at, double depth) const {
  const double all = plan_density(at);
  if (all > 0) return density_above(at, depth) / all;
  const double relative = std::min(1.0, from_stem(at) / extent_of(field_.spread));
  return field_.depth.share_above(depth, relative);  // no roots here: the law of open ground
}

}  // namespace rootstead
