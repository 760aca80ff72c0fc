// CellTable: which pieces of ground meet which square cell of the plan. Only cells that hold
// something take room, so a network may be spread over a country.
#pragma once

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
    std::uint64_t cells() const {
      return (static_cast<std::uint64_t>(high.x - low.x) + 1) *
             (static_cast<std::uint64_t>(high.y - low.y) + 1);
    }
  };
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
  static constexpr std::size_t kMostPieces = std::size_t{1} << 30;

  CellTable() = default;
  // Boxes by the number of the piece; within a cell pieces stand in the order of their numbers.
  // Requires: cells_of(box) of each is small.
  CellTable(std::span<const Box> boxes, double cell_size);

  Range cells_of(const Box& box) const;
  std::span<const Entry> at(Cell cell) const;

  // Visits each piece that shares a cell with `box` once, in an order that depends on cells alone.
  template <class Visit>
  void meeting(const Box& box, const Visit& visit) const {
    const Range range = cells_of(box);
    for (std::int32_t y = range.low.y; y <= range.high.y; ++y) {
      for (std::int32_t x = range.low.x; x <= range.high.x; ++x) {
        for (const Entry entry : at({x, y})) {
          if ((x == range.low.x || entry.first_column()) && (y == range.low.y || entry.first_row()))
            visit(entry.piece());
        }
      }
    }
  }

 private:
  struct Slot {
    Cell cell;
    std::uint32_t first = 0, count = 0;
  };
  std::size_t slot_of(Cell cell) const;

  double cell_size_ = 1;
  std::vector<Slot> slots_;  // a power of two of them, at most half full
  std::vector<Entry> entries_;
};

}  // namespace rootstead
