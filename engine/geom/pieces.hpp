// A large polygon in pieces, so that whoever asks about one place walks round little of it.
//
// Cut across the longer side of its box, again and again, until every piece keeps the limits or is
// less than 1 m wide. The pieces touch and their areas add up to the polygon's (accuracy of the
// overlay); a polygon within the limits is its own only piece.
#pragma once

#include <cstddef>
#include <limits>

#include "engine/geom/shapes.hpp"

namespace rootstead {

struct PieceLimits {
  std::size_t most_corners;
  // Along the longer side of its box.
  Length widest = Length::metres(std::numeric_limits<double>::infinity());
};

MultiPolygon pieces_of(const Polygon& polygon, const PieceLimits& limits);

}  // namespace rootstead
