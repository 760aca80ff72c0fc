// CellTable: which pieces of ground meet which square cell of the plan. Only ground that holds
// something takes room, so a network may be spread over a country. Cells stand in tiles of four by
// four, so that what is near in the plan is near in memory.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "engine/geom/shapes.hpp"

namespace rootstead {

class CellTable {
 public:
  struct Cell {
    std::int32_t x = 0, y = 0;
    friend bool operator==(const Cell&, const Cell&) = default;
  };
  struct Range {
    Cell low, high;
  };
  static constexpr std::size_t kMostPieces = std::size_t{1} << 30;

  CellTable() = default;
  // Boxes by the number of the piece; within a cell pieces stand in the order of their numbers.
  // Requires: each box meets few cells; a cell size above 0.
  CellTable(std::span<const Box> boxes, double cell_size);

  Range cells_of(const Box& box) const {
    return {{number(box.min_x), number(box.min_y)}, {number(box.max_x), number(box.max_y)}};
  }

  // Visits each piece that shares a cell with `box` once, in an order that depends on cells alone.
  template <class Visit>
  void meeting(const Box& box, const Visit& visit) const {
    if (tiles_.empty()) return;
    const Range range = cells_of(box);
    for (std::int32_t y = range.low.y; y <= range.high.y; ++y) {
      const Tile* tile = nullptr;
      for (std::int32_t x = range.low.x; x <= range.high.x; ++x) {
        if (tile == nullptr || (x & (kSide - 1)) == 0) tile = &tiles_[tile_at({x, y})];
        const Slot slot = tile->slots[slot_of({x, y})];
        for (std::uint32_t i = slot.first; i < slot.first + slot.count; ++i) {
          const Entry entry = entries_[i];
          if ((x == range.low.x || entry.first_column()) && (y == range.low.y || entry.first_row()))
            visit(entry.piece());
        }
      }
    }
  }

 private:
  static constexpr std::int32_t kSide = 4;  // cells of a tile, each way; a power of two

  // A piece in a cell, and whether the cell is the first column and row of the piece's box: a walk
  // over several cells then takes every piece once.
  class Entry {
   public:
    Entry() = default;
    Entry(std::size_t piece, bool first_column, bool first_row)
        : bits_(static_cast<std::uint32_t>(piece << 2) | (first_column ? 2u : 0u) |
                (first_row ? 1u : 0u)) {}
    std::uint32_t piece() const { return bits_ >> 2; }
    bool first_column() const { return (bits_ & 2u) != 0; }
    bool first_row() const { return (bits_ & 1u) != 0; }

   private:
    std::uint32_t bits_ = 0;
  };
  struct Slot {
    std::uint32_t first = 0, count = 0;
  };
  struct Tile {
    Cell at;
    bool used = false;
    std::array<Slot, kSide * kSide> slots;
  };

  // Cells are numbered from the origin of the grid, not of the data: the same in every part of a
  // network. Far beyond any grid on earth, numbers stop.
  std::int32_t number(double at) const {
    const double cell = at * per_metre_;
    if (!(cell > -kLastCell)) return -static_cast<std::int32_t>(kLastCell);
    if (cell > kLastCell) return static_cast<std::int32_t>(kLastCell);
    const auto whole = static_cast<std::int32_t>(cell);
    return whole - (cell < whole ? 1 : 0);
  }
  static std::size_t slot_of(Cell cell) {
    const auto row = static_cast<std::size_t>(cell.y & (kSide - 1));
    const auto column = static_cast<std::size_t>(cell.x & (kSide - 1));
    return row * kSide + column;
  }
  // Where the tile of the cell stands, or a free one.
  std::size_t tile_at(Cell cell) const;

  static constexpr double kLastCell = 1e9;
  double per_metre_ = 1;
  std::vector<Tile> tiles_;  // a power of two of them, at most half used
  std::vector<Entry> entries_;
};

}  // namespace rootstead
