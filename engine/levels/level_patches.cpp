#include "engine/levels/level_patches.hpp"

#include <algorithm>
#include <cmath>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/levels/piece_walk.hpp"

namespace rootstead {
namespace {

constexpr Length kLattice = Length::millimetres(0.1);  // closes the slits that rounding leaves

// The parts of one side, tile by tile; a tile that is full becomes one box.
class Side {
 public:
  explicit Side(Point origin) : origin_(origin) {}

  void add(const Corners& part) {
    const double area = sum_over(part).area;
    if (!(area > 1e-9)) return;
    tile_area_ += area;
    Polygon polygon;
    for (const Corner& corner : part)
      polygon.outer.push_back({corner.x + origin_.x, corner.y + origin_.y});
    of_tile_.push_back({polygon});
  }

  void tile_done(const Box& tile) {
    const double whole = (tile.max_x - tile.min_x) * (tile.max_y - tile.min_y);
    if (of_tile_.size() > 1 && tile_area_ >= whole * (1 - 1e-9)) {
      const double x = origin_.x, y = origin_.y;
      parts_.push_back({Polygon{{{tile.min_x + x, tile.min_y + y},
                                 {tile.max_x + x, tile.min_y + y},
                                 {tile.max_x + x, tile.max_y + y},
                                 {tile.min_x + x, tile.max_y + y}},
                                {}}});
    } else {
      std::move(of_tile_.begin(), of_tile_.end(), std::back_inserter(parts_));
    }
    of_tile_.clear();
    tile_area_ = 0;
  }

  const std::vector<MultiPolygon>& parts() const { return parts_; }

 private:
  Point origin_;
  std::vector<MultiPolygon> of_tile_, parts_;
  double tile_area_ = 0;
};

class PatchCollector : public PieceVisitor {
 public:
  PatchCollector(Point origin, double least) : raised(origin), lowered(origin), least_(least) {}

  void piece(const PieceView& view) override {
    clip_above(view.ring, least_, part_);
    raised.add(part_);
    clip_below(view.ring, -least_, part_);
    lowered.add(part_);
  }
  void tile_done(const Box& tile) override {
    raised.tile_done(tile);
    lowered.tile_done(tile);
  }

  Side raised, lowered;

 private:
  double least_;
  Corners part_;
};

void fill_small_holes(Polygon& patch, double least_area) {
  std::erase_if(patch.holes,
                [&](const Ring& hole) { return std::abs(signed_area(hole)) < least_area; });
}

// Grown a little, so that leaving corners out never cuts into the true area. The chords of the
// round corners lie up to 2 % of the tolerance inside, hence the smaller step back.
MultiPolygon outlined(const MultiPolygon& patch, double tolerance) {
  constexpr int kChords = 4;
  constexpr double kWithin = 0.95;
  const MultiPolygon wider = grown(patch, Length::metres(tolerance), kChords);
  return simplified(wider, Length::metres(tolerance * kWithin));
}

std::vector<Polygon> patches_of(const Side& side, const PatchRule& rule) {
  std::vector<Polygon> patches;
  for (Polygon& patch : union_on_lattice(side.parts(), kLattice)) {
    if (area_of(patch).square_metres() < rule.least_area) continue;
    fill_small_holes(patch, rule.least_area);
    for (Polygon& outline : outlined({patch}, rule.tolerance))
      patches.push_back(std::move(outline));
  }
  std::sort(patches.begin(), patches.end(), [](const Polygon& a, const Polygon& b) {
    return area_of(a).square_metres() > area_of(b).square_metres();
  });
  return patches;
}

// The differences of an area that an outline cuts are rings that may run back along themselves:
// patches are found on the whole ground first, and cut afterwards.
std::vector<Polygon> cut_to(std::vector<Polygon> patches, const MultiPolygon* area,
                            const PatchRule& rule) {
  if (area == nullptr) return patches;
  std::vector<Polygon> kept;
  for (const Polygon& patch : patches) {
    for (Polygon& part : intersection_of({patch}, *area)) {
      if (area_of(part).square_metres() >= rule.least_area) kept.push_back(std::move(part));
    }
  }
  return kept;
}

}  // namespace

LevelPatches level_patches(const PreparedLevels& before, const PreparedLevels& after,
                           const MultiPolygon* area, const PatchRule& rule) {
  // Only the ground round the area is looked at; a box of it has no outline that runs back.
  MultiPolygon near;
  if (area != nullptr) {
    const Box box = box_of(*area);
    if (box.empty()) return {};
    near = {Polygon{{{box.min_x, box.min_y},
                     {box.max_x, box.min_y},
                     {box.max_x, box.max_y},
                     {box.min_x, box.max_y}},
                    {}}};
  }
  const PieceWalk walk{before, &after, area == nullptr ? nullptr : &near};
  PatchCollector collector(walk.origin(), rule.least);
  walk.visit(collector);
  return {cut_to(patches_of(collector.lowered, rule), area, rule),
          cut_to(patches_of(collector.raised, rule), area, rule)};
}

}  // namespace rootstead
