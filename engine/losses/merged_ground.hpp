// MergedGround: the union of many plan areas, made once for a site and asked many times. Its
// polygons overlap nowhere, so their areas inside a zone simply add up. Polygons of very many
// corners are asked piece by piece; areas then agree with those of the whole to about 1e-12.
#pragma once

#include <vector>

#include "engine/geom/box_index.hpp"
#include "engine/geom/shapes.hpp"

namespace rootstead {

class MergedGround {
 public:
  MergedGround() = default;
  explicit MergedGround(const std::vector<MultiPolygon>& parts);

  const MultiPolygon& all() const { return whole_; }
  // The polygons, or pieces of them, that come within `reach` of a place.
  MultiPolygon near(const Point& at, Length reach) const;
  // As exact as common_area.
  Area common(const Circle& circle) const;

 private:
  MultiPolygon whole_, pieces_;
  BoxIndex places_;
};

}  // namespace rootstead
