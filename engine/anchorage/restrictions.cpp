#include "engine/anchorage/restrictions.hpp"

#include <algorithm>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

constexpr Length kThinBarrier = Length::millimetres(100);  // a line without width; our assumption

Box box_of(const Shape& shape) {
  Box box = rootstead::box_of(shape.areas);
  for (const Line& line : shape.lines) box = joined(box, rootstead::box_of(line));
  return box;
}

MultiPolygon ground_of(const Barrier& barrier, const Point& stem) {
  std::vector<MultiPolygon> parts;
  for (const Polygon& area : barrier.shape.areas)
    if (!contains(area, stem)) parts.push_back({area});
  const Length width = barrier.width ? barrier.width->length() : kThinBarrier;
  for (const Line& line : barrier.shape.lines) parts.push_back(corridor(line, width / 2));
  return union_of(parts);
}

}  // namespace

std::vector<AnchorageCut> restrictions_near(const Tree& tree, Length reach,
                                            std::span<const Barrier> barriers) {
  std::vector<AnchorageCut> cuts;
  const Point& stem = tree.position->at;
  for (const Barrier& barrier : barriers) {
    const Box box = box_of(barrier.shape);
    if (box.empty() || distance(stem, box) > reach) continue;
    AnchorageCut cut{barrier.id, ground_of(barrier, stem), depth_of(barrier), false, true};
    if (!cut.area.empty() && distance_between(stem, cut.area) <= reach)
      cuts.push_back(std::move(cut));
  }
  return cuts;
}

}  // namespace rootstead
