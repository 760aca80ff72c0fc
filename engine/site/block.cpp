#include "engine/site/block.hpp"

#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

constexpr double kTrafficThickness = 0.05;  // m, only to be seen

MultiPolygon corridors_of(const std::vector<Line>& lines, Length half, MultiPolygon areas = {}) {
  std::vector<MultiPolygon> parts{std::move(areas)};
  for (const Line& line : lines) parts.push_back(corridor(line, half));
  return union_of(parts);
}

void add(std::vector<Block>& blocks, Block block) {
  if (!block.areas.empty()) blocks.push_back(std::move(block));
}

}  // namespace

Length bore_diameter_of(const Work& work) {
  return work.bore_diameter ? work.bore_diameter->length() : default_width(work.kind).length();
}

std::vector<Block> blocks_of(const Work& work) {
  std::vector<Block> blocks;
  if (work.shape.empty()) return blocks;
  const double depth = depth_of(work).metres();
  if (work.kind == WorkKind::bore) {
    const Length diameter = bore_diameter_of(work);
    const double under = depth + diameter.metres();
    add(blocks, {footprint(work), 0, under});
    add(blocks, {corridors_of(work.shape.lines, diameter / 2), depth, under, true});
    return blocks;
  }
  if (work.kind == WorkKind::fill)
    add(blocks, {footprint(work), -depth, 0});
  else if (work.kind == WorkKind::traffic)
    add(blocks, {footprint(work), -kTrafficThickness, 0});
  else
    add(blocks, {footprint(work), 0, depth});
  return blocks;
}

std::vector<Block> blocks_of(const Barrier& barrier) {
  std::vector<Block> blocks;
  if (barrier.shape.empty()) return blocks;
  const Length half = (barrier.width ? barrier.width->length() : kBarrierThickness) / 2;
  add(blocks, {corridors_of(barrier.shape.lines, half, barrier.shape.areas), 0,
               depth_of(barrier).metres()});
  return blocks;
}

}  // namespace rootstead
