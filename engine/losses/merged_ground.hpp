// MergedGround: the union of many plan areas, made once for a site and asked many times. Its
// polygons overlap nowhere, so their areas inside a zone simply add up. Polygons of very many
// corners are asked piece by piece; areas then agree with those of the whole to about 1e-12.
#pragma once

#include <memory>
#include <vector>

#include "engine/geom/box_index.hpp"
#include "engine/geom/shapes.hpp"

namespace rootstead {

class MergedGround {
 public:
  MergedGround() = default;
  // Parts far from each other never meet, so they are merged group by group. A group that stood
  // just so in `before` is taken from there: same bits, less work where one part of many moved.
  explicit MergedGround(const std::vector<MultiPolygon>& parts, const MergedGround& before = {});

  const MultiPolygon& all() const { return whole_; }
  // The polygons, or pieces of them, that come within `reach` of a place.
  MultiPolygon near(const Point& at, Length reach) const;
  // The polygons, or pieces of them, whose boxes meet `box`.
  MultiPolygon meeting(const Box& box) const;
  // Boxes of the pieces that this has and `before` had not, or the other way round.
  std::vector<Box> changed_since(const MergedGround& before) const;
  // As exact as common_area.
  Area common(const Circle& circle) const;

 private:
  // Parts whose boxes hang together, in the order they were given.
  struct Group {
    std::vector<MultiPolygon> parts;
    MultiPolygon merged, pieces;
  };
  static std::shared_ptr<const Group> merged(std::vector<MultiPolygon> parts);
  MultiPolygon picked(const std::vector<std::size_t>& which) const;

  std::vector<std::shared_ptr<const Group>> groups_;
  MultiPolygon whole_, pieces_;
  BoxIndex places_;
};

}  // namespace rootstead
