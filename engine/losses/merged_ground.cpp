#include "engine/losses/merged_ground.hpp"

#include "engine/geom/circle_area.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {

MergedGround::MergedGround(const std::vector<MultiPolygon>& parts) : polygons_(union_of(parts)) {
  std::vector<Box> boxes;
  boxes.reserve(polygons_.size());
  for (const Polygon& polygon : polygons_) boxes.push_back(box_of(polygon.outer));
  places_ = BoxIndex(boxes);
}

MultiPolygon MergedGround::near(const Point& at, Length reach) const {
  MultiPolygon found;
  for (const std::size_t i : places_.near(at, reach)) found.push_back(polygons_[i]);
  return found;
}

Area MergedGround::common(const Circle& circle) const {
  Area sum;
  for (const std::size_t i : places_.near(circle.centre, circle.radius)) {
    sum += common_area(circle, polygons_[i]);
  }
  return sum;
}

}  // namespace rootstead
