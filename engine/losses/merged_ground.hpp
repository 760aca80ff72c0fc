// MergedGround: the union of many plan areas, made once for a site and asked many times. Its
// polygons overlap nowhere, so their areas inside a zone simply add up.
#pragma once

#include <vector>

#include "engine/geom/box_index.hpp"
#include "engine/geom/shapes.hpp"

namespace rootstead {

class MergedGround {
 public:
  MergedGround() = default;
  explicit MergedGround(const std::vector<MultiPolygon>& parts);

  const MultiPolygon& all() const { return polygons_; }
  // The polygons, whole, that come within `reach` of a place.
  MultiPolygon near(const Point& at, Length reach) const;
  // As exact as common_area.
  Area common(const Circle& circle) const;

 private:
  MultiPolygon polygons_;
  BoxIndex places_;
};

}  // namespace rootstead
