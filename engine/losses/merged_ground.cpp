#include "engine/losses/merged_ground.hpp"

#include <algorithm>
#include <utility>

#include "engine/geom/circle_area.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

constexpr std::size_t kMostCorners = 1'000;
constexpr double kSmallestPiece = 1;  // m: many corners in so little room are left together

std::size_t corners_of(const Polygon& polygon) {
  std::size_t corners = polygon.outer.size();
  for (const Line& hole : polygon.holes) corners += hole.size();
  return corners;
}

Polygon box_polygon(const Box& box) {
  return {{{box.min_x, box.min_y},
           {box.max_x, box.min_y},
           {box.max_x, box.max_y},
           {box.min_x, box.max_y}},
          {}};
}

// The two halves of a box, across its longer side.
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

// The paving of a whole campus may be one polygon; cut up, each zone meets only what is near.
void add_pieces(const Polygon& polygon, MultiPolygon& pieces) {
  const Box box = box_of(polygon.outer);
  const double size = std::max(box.max_x - box.min_x, box.max_y - box.min_y);
  if (corners_of(polygon) <= kMostCorners || size < kSmallestPiece) {
    pieces.push_back(polygon);
    return;
  }
  const auto [low, high] = halves(box);
  for (const Box& half : {low, high})
    for (const Polygon& piece : intersection_of({polygon}, {box_polygon(half)}))
      add_pieces(piece, pieces);
}

}  // namespace

MergedGround::MergedGround(const std::vector<MultiPolygon>& parts) : whole_(union_of(parts)) {
  for (const Polygon& polygon : whole_) add_pieces(polygon, pieces_);
  std::vector<Box> boxes;
  boxes.reserve(pieces_.size());
  for (const Polygon& piece : pieces_) boxes.push_back(box_of(piece.outer));
  places_ = BoxIndex(boxes);
}

MultiPolygon MergedGround::near(const Point& at, Length reach) const {
  MultiPolygon found;
  for (const std::size_t i : places_.near(at, reach)) found.push_back(pieces_[i]);
  return found;
}

Area MergedGround::common(const Circle& circle) const {
  Area sum;
  for (const std::size_t i : places_.near(circle.centre, circle.radius)) {
    sum += common_area(circle, pieces_[i]);
  }
  return sum;
}

}  // namespace rootstead
