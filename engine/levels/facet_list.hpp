// The planes of one surface near a tile, in the walk's own coordinates. Inside this room only.
#pragma once

#include <memory>
#include <vector>

#include "engine/levels/piece_walk.hpp"

namespace rootstead {

// z = at[0].height + slope_x (x - at[0].x) + slope_y (y - at[0].y), never beyond its corners.
struct LocalFacet {
  std::array<Point, 3> corners;
  double height = 0, slope_x = 0, slope_y = 0, lowest = 0, highest = 0;
  Box box;
  double at(double x, double y) const;
};
LocalFacet local_facet(const Facet& facet, const Point& origin);

// Triangles are made once and handed down by number; the tents of a grid are made where needed.
class FacetList {
 public:
  FacetList(const PreparedLevels& levels, const Point& origin, const Box& tile);

  FacetList within(const Box& tile) const;
  std::size_t count() const;
  // Those that meet the tile this list was made for.
  std::vector<LocalFacet> facets() const;

 private:
  FacetList() = default;
  const PreparedLevels* levels_ = nullptr;
  Point origin_;
  Box tile_;
  std::shared_ptr<const std::vector<LocalFacet>> all_;  // null of a grid
  std::vector<std::uint32_t> numbers_;
};

inline bool meet(const Box& a, const Box& b) {
  return a.min_x <= b.max_x && b.min_x <= a.max_x && a.min_y <= b.max_y && b.min_y <= a.max_y;
}
inline Box moved(const Box& box, double dx, double dy) {
  return {box.min_x + dx, box.min_y + dy, box.max_x + dx, box.max_y + dy};
}

}  // namespace rootstead
