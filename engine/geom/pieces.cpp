#include "engine/geom/pieces.hpp"

#include <algorithm>
#include <utility>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

constexpr double kSmallest = 1;  // m: many corners in so little room are left together

std::size_t corners_of(const Polygon& polygon) {
  std::size_t corners = polygon.outer.size();
  for (const Ring& hole : polygon.holes) corners += hole.size();
  return corners;
}

Polygon polygon_of(const Box& box) {
  return {{{box.min_x, box.min_y},
           {box.max_x, box.min_y},
           {box.max_x, box.max_y},
           {box.min_x, box.max_y}},
          {}};
}

// Across the longer side.
std::pair<Box, Box> halves(const Box& box) {
  Box low = box, high = box;
  const Point middle = box.centre();
  if (box.max_x - box.min_x > box.max_y - box.min_y) {
    low.max_x = high.min_x = middle.x;
  } else {
    low.max_y = high.min_y = middle.y;
  }
  return {low, high};
}

void add_pieces(const Polygon& polygon, const PieceLimits& limits, MultiPolygon& pieces) {
  const Box box = box_of(polygon.outer);
  const double size = std::max(box.max_x - box.min_x, box.max_y - box.min_y);
  const bool fits = corners_of(polygon) <= limits.most_corners && size <= limits.widest.metres();
  if (fits || size < kSmallest) {
    pieces.push_back(polygon);
    return;
  }
  const auto [low, high] = halves(box);
  for (const Box& half : {low, high})
    for (const Polygon& piece : intersection_of({polygon}, {polygon_of(half)}))
      add_pieces(piece, limits, pieces);
}

}  // namespace

MultiPolygon pieces_of(const Polygon& polygon, const PieceLimits& limits) {
  if (polygon.outer.size() < 3 || box_of(polygon.outer).empty()) return {};
  MultiPolygon pieces;
  add_pieces(polygon, limits, pieces);
  return pieces;
}

}  // namespace rootstead
