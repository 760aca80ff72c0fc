#include "engine/levels/piece_walk.hpp"

#include <algorithm>
#include <cmath>

#include "engine/geom/measure.hpp"
#include "engine/levels/facet_list.hpp"

namespace rootstead {
namespace {

constexpr std::size_t kFewFacets = 48;  // planes of one surface in a tile that is not halved
constexpr std::size_t kFewCells = 16;
constexpr double kNoChange = 1e-9;  // m: what rounding leaves where two surfaces are the same
constexpr int kMostHalvings = 60;
constexpr int kMostInVain = 4;  // halvings that hardly shorten the lists, as in a stack of slivers

Box common(const Box& a, const Box& b) {
  return {std::max(a.min_x, b.min_x), std::max(a.min_y, b.min_y), std::min(a.max_x, b.max_x),
          std::min(a.max_y, b.max_y)};
}

// The part of a ring in a box.
Corners clipped(Corners ring, const Box& box) {
  Corners out;
  clip(ring, 1, 0, 0, box.min_x, out);
  clip(out, -1, 0, 0, -box.max_x, ring);
  clip(ring, 0, 1, 0, box.min_y, out);
  clip(out, 0, -1, 0, -box.max_y, ring);
  return ring;
}

Corners corners_of(const Box& box) {
  return {{box.min_x, box.min_y, 0},
          {box.max_x, box.min_y, 0},
          {box.max_x, box.max_y, 0},
          {box.min_x, box.max_y, 0}};
}

// What a tile has of the area: its whole, nothing, or rings.
struct Region {
  bool whole = true;
  std::vector<Corners> rings;
  bool nothing() const { return !whole && rings.empty(); }
};

Region within(const Region& region, const Box& tile) {
  if (region.whole) return region;
  constexpr double kWhole = 1 - 1e-13;
  Region part{false, {}};
  double area = 0;
  for (const Corners& ring : region.rings) {
    Corners kept = clipped(ring, tile);
    if (kept.empty()) continue;
    area += sum_over(kept).area;
    part.rings.push_back(std::move(kept));
  }
  const double tile_area = (tile.max_x - tile.min_x) * (tile.max_y - tile.min_y);
  if (area >= tile_area * kWhole) return {};
  if (area <= tile_area * (1 - kWhole)) part.rings.clear();  // in a hole, say
  return part;
}

// How far a tile was halved, and how often to little use.
struct Halving {
  int depth = 0, in_vain = 0;
  bool enough() const { return depth >= kMostHalvings || in_vain >= kMostInVain; }
  Halving next(std::size_t had, std::size_t have) const {
    const bool little = 10 * have > 9 * had;
    return {depth + 1, little ? in_vain + 1 : 0};
  }
};

// Steps through the tiles and hands out their pieces.
class Walker {
 public:
  Walker(const PieceWalk& walk, PieceVisitor& visitor)
      : walk_(walk),
        visitor_(visitor),
        origin_(walk.origin()),
        by_cells_(walk.after != nullptr && same_cells(walk.before, *walk.after)) {}

  void start() {
    Box box = walk_.before.extent();
    if (walk_.after != nullptr) box = common(box, walk_.after->extent());
    if (walk_.area != nullptr) box = common(box, box_of(*walk_.area));
    if (box.empty()) return;
    tile_ = moved(box, -origin_.x, -origin_.y);
    const Region region = within(region_of_area(), tile_);
    if (region.nothing()) return;
    if (by_cells_) return descend_cells(tile_, region, 0);
    if (walk_.after == nullptr) {
      return descend(tile_, region, FacetList(walk_.before, origin_, tile_), nullptr, {});
    }
    const FacetList after(*walk_.after, origin_, tile_);
    descend(tile_, region, FacetList(walk_.before, origin_, tile_), &after, {});
  }

 private:
  Region region_of_area() const {
    if (walk_.area == nullptr) return {};
    Region region{false, {}};
    const auto add = [&](const Ring& points) {
      Corners ring;
      for (const Point& p : points) ring.push_back({p.x - origin_.x, p.y - origin_.y, 0});
      region.rings.push_back(std::move(ring));
    };
    for (const Polygon& polygon : *walk_.area) {
      add(polygon.outer);
      for (const Ring& hole : polygon.holes) add(hole);
    }
    return region;
  }

  // Two halves across the longer side.
  static std::array<Box, 2> halves(const Box& tile) {
    Box first = tile, second = tile;
    if (tile.max_x - tile.min_x >= tile.max_y - tile.min_y) {
      first.max_x = second.min_x = tile.min_x / 2 + tile.max_x / 2;
    } else {
      first.max_y = second.min_y = tile.min_y / 2 + tile.max_y / 2;
    }
    return {first, second};
  }

  void descend(const Box& tile, const Region& region, const FacetList& before,
               const FacetList* after, Halving halving) {
    const std::size_t count = before.count(), other = after == nullptr ? 1 : after->count();
    if (count == 0 || other == 0) return;
    if (std::max(count, other) <= kFewFacets || halving.enough()) {
      return tile_of_facets(tile, region, before, after);
    }
    for (const Box& half : halves(tile)) {
      const Region part = within(region, half);
      if (part.nothing()) continue;
      const FacetList fewer = before.within(half);
      if (after == nullptr) {
        descend(half, part, fewer, nullptr, halving.next(count, fewer.count()));
        continue;
      }
      const FacetList fewer_after = after->within(half);
      descend(half, part, fewer, &fewer_after,
              halving.next(count + other, fewer.count() + fewer_after.count()));
    }
  }

  void tile_of_facets(const Box& tile, const Region& region, const FacetList& before,
                      const FacetList* after) {
    const auto first = before.facets();
    const auto second = after == nullptr ? std::vector<LocalFacet>{} : after->facets();
    for (const LocalFacet& a : first) {
      if (!meet(a.box, tile)) continue;
      Corners triangle;
      for (const Point& corner : a.corners) triangle.push_back({corner.x, corner.y, 0});
      triangle = clipped(std::move(triangle), tile);
      if (triangle.empty()) continue;
      if (after == nullptr) {
        give(triangle, region, a, nullptr);
        continue;
      }
      for (const LocalFacet& b : second) {
        if (meet(a.box, b.box) && meet(b.box, tile)) give_common(triangle, region, a, b);
      }
    }
    visitor_.tile_done(tile);
  }

  void give_common(const Corners& triangle, const Region& region, const LocalFacet& a,
                   const LocalFacet& b) {
    piece_ = triangle;
    for (std::size_t i = 0; i < 3 && !piece_.empty(); ++i) {
      const Point &p = b.corners[i], &q = b.corners[(i + 1) % 3];
      // Left of the edge from p to q.
      const double nx = p.y - q.y, ny = q.x - p.x;
      clip(piece_, nx, ny, 0, nx * p.x + ny * p.y, scratch_);
      std::swap(piece_, scratch_);
    }
    if (!piece_.empty()) give(piece_, region, a, &b);
  }

  void give(Corners piece, const Region& region, const LocalFacet& a, const LocalFacet* b) {
    const auto measure = [&](Corners& ring) {
      for (Corner& c : ring) {
        c.d = (b == nullptr ? 0 : b->at(c.x, c.y)) - a.at(c.x, c.y);
        if (std::abs(c.d) < kNoChange) c.d = 0;
      }
    };
    measure(piece);
    if (region.whole) return visitor_.piece({piece, nullptr});
    for (const Corners& ring : region.rings) {
      Corners cut = clipped_by(ring, piece);
      if (cut.empty()) continue;
      measure(cut);
      visitor_.piece({cut, &piece});
    }
  }

  // The part of a ring of the area in a convex piece.
  static Corners clipped_by(Corners ring, const Corners& piece) {
    Corners out;
    for (std::size_t i = 0; i < piece.size() && !ring.empty(); ++i) {
      const Corner &p = piece[i], &q = piece[(i + 1) % piece.size()];
      if (p.x == q.x && p.y == q.y) continue;
      const double nx = p.y - q.y, ny = q.x - p.x;
      clip(ring, nx, ny, 0, nx * p.x + ny * p.y, out);
      std::swap(ring, out);
    }
    return ring;
  }

  void descend_cells(const Box& tile, const Region& region, int depth) {
    const CellRange cells = walk_.before.cells_meeting(moved(tile, origin_.x, origin_.y));
    if (cells.count() == 0) return;
    if (region.whole || cells.count() <= kFewCells || depth >= kMostHalvings) {
      return tile_of_cells(tile, region, cells);
    }
    for (const Box& half : halves(tile)) {
      const Region part = within(region, half);
      if (!part.nothing()) descend_cells(half, part, depth + 1);
    }
  }

  void tile_of_cells(const Box& tile, const Region& region, const CellRange& cells) {
    const HeightGrid& grid = *walk_.before.grid();
    const HeightGrid& other = *walk_.after->grid();
    const auto shift_x = std::llround((grid.north_west.x - other.north_west.x) / grid.cell);
    const auto shift_y = std::llround((other.north_west.y - grid.north_west.y) / grid.cell);
    for (std::uint32_t row = cells.row0; row < cells.row1; ++row) {
      for (std::uint32_t column = cells.column0; column < cells.column1; ++column) {
        const std::int64_t c = column + shift_x, r = row + shift_y;
        if (c < 0 || r < 0 || c >= other.columns || r >= other.rows) continue;
        const auto before = walk_.before.cell_height(column, row);
        const auto after =
            walk_.after->cell_height(static_cast<std::uint32_t>(c), static_cast<std::uint32_t>(r));
        if (!before || !after) continue;
        const double west = grid.north_west.x + column * grid.cell - origin_.x;
        const double north = grid.north_west.y - row * grid.cell - origin_.y;
        const Box box = common({west, north - grid.cell, west + grid.cell, north}, tile);
        if (!box.empty()) give_cell(box, region, *after - *before);
      }
    }
    visitor_.tile_done(tile);
  }

  void give_cell(const Box& box, const Region& region, double difference) {
    const auto measure = [&](Corners& ring) {
      for (Corner& corner : ring) corner.d = difference;
    };
    Corners cell = corners_of(box);
    measure(cell);
    if (region.whole) return visitor_.piece({cell, nullptr});
    for (const Corners& ring : region.rings) {
      Corners cut = clipped(ring, box);
      if (cut.empty()) continue;
      measure(cut);
      visitor_.piece({cut, &cell});
    }
  }

  const PieceWalk& walk_;
  PieceVisitor& visitor_;
  Point origin_;
  bool by_cells_;
  Box tile_;
  Corners piece_, scratch_;
};

}  // namespace

Point PieceWalk::origin() const {
  const Box box = before.extent();
  return {std::round(box.min_x / 2 + box.max_x / 2), std::round(box.min_y / 2 + box.max_y / 2)};
}

void PieceWalk::visit(PieceVisitor& visitor) const {
  Walker(*this, visitor).start();
}

bool same_cells(const PreparedLevels& a, const PreparedLevels& b) {
  const HeightGrid *first = a.grid(), *second = b.grid();
  if (first == nullptr || second == nullptr) return false;
  constexpr double kHair = 1e-6;  // of a cell
  const double cell = first->cell;
  if (std::abs(first->cell - second->cell) * std::max(first->columns, first->rows) > kHair * cell)
    return false;
  const auto whole = [&](double metres) {
    return std::abs(metres / cell - std::round(metres / cell)) <= kHair;
  };
  return whole(first->north_west.x - second->north_west.x) &&
         whole(first->north_west.y - second->north_west.y);
}

}  // namespace rootstead
