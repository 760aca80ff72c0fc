#include "engine/levels/facet_list.hpp"

#include <algorithm>
#include <numeric>

#include "engine/geom/measure.hpp"

namespace rootstead {

// Steep slivers, as the faces of walls are, would magnify the rounding of a place: held to the
// heights of the corners.
double LocalFacet::at(double x, double y) const {
  const double z = height + slope_x * (x - corners[0].x) + slope_y * (y - corners[0].y);
  return std::clamp(z, lowest, highest);
}

LocalFacet local_facet(const Facet& facet, const Point& origin) {
  LocalFacet local;
  for (std::size_t i = 0; i < 3; ++i)
    local.corners[i] = {facet[i].at.x - origin.x, facet[i].at.y - origin.y};
  const auto& [a, b, c] = local.corners;
  const double bx = b.x - a.x, by = b.y - a.y, cx = c.x - a.x, cy = c.y - a.y;
  const double bz = facet[1].height - facet[0].height, cz = facet[2].height - facet[0].height;
  const double turn = bx * cy - by * cx;  // above zero: PreparedLevels keeps no others
  local.height = facet[0].height;
  local.slope_x = (bz * cy - cz * by) / turn;
  local.slope_y = (bx * cz - cx * bz) / turn;
  local.lowest = std::min({facet[0].height, facet[1].height, facet[2].height});
  local.highest = std::max({facet[0].height, facet[1].height, facet[2].height});
  local.box = {std::min({a.x, b.x, c.x}), std::min({a.y, b.y, c.y}), std::max({a.x, b.x, c.x}),
               std::max({a.y, b.y, c.y})};
  return local;
}

FacetList::FacetList(const PreparedLevels& levels, const Point& origin, const Box& tile)
    : levels_(&levels), origin_(origin), tile_(tile) {
  if (levels.grid() != nullptr) return;
  auto all = std::make_shared<std::vector<LocalFacet>>();
  for (const Facet& facet : levels.facets_meeting(moved(tile, origin.x, origin.y)))
    all->push_back(local_facet(facet, origin));
  numbers_.resize(all->size());
  std::iota(numbers_.begin(), numbers_.end(), 0U);
  all_ = std::move(all);
}

FacetList FacetList::within(const Box& tile) const {
  FacetList list;
  list.levels_ = levels_;
  list.origin_ = origin_;
  list.tile_ = tile;
  list.all_ = all_;
  for (const std::uint32_t number : numbers_) {
    if (meet((*all_)[number].box, tile)) list.numbers_.push_back(number);
  }
  return list;
}

std::size_t FacetList::count() const {
  if (all_) return numbers_.size();
  return 4 * levels_->cells_meeting(moved(tile_, origin_.x, origin_.y)).count();
}

std::vector<LocalFacet> FacetList::facets() const {
  std::vector<LocalFacet> facets;
  if (all_) {
    for (const std::uint32_t number : numbers_) facets.push_back((*all_)[number]);
    return facets;
  }
  for (const Facet& facet : levels_->facets_meeting(moved(tile_, origin_.x, origin_.y)))
    facets.push_back(local_facet(facet, origin_));
  return facets;
}

}  // namespace rootstead
