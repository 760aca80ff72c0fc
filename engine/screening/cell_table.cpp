#include "engine/screening/cell_table.hpp"

#include <algorithm>
#include <bit>
#include <cassert>

namespace rootstead {
namespace {

constexpr int kTileShift = 2;  // cells to tiles: log2 of kSide

std::uint64_t packed(CellTable::Cell tile) {
  return (static_cast<std::uint64_t>(static_cast<std::uint32_t>(tile.x)) << 32) |
         static_cast<std::uint32_t>(tile.y);
}

CellTable::Cell tile_of(CellTable::Cell cell) {
  return {cell.x >> kTileShift, cell.y >> kTileShift};
}

std::uint64_t mixed(std::uint64_t key) {
  key *= 0x9E3779B97F4A7C15u;
  return key ^ (key >> 29);
}

template <class Visit>
void for_cells(const CellTable::Range& range, const Visit& visit) {
  for (std::int32_t y = range.low.y; y <= range.high.y; ++y)
    for (std::int32_t x = range.low.x; x <= range.high.x; ++x) visit(CellTable::Cell{x, y});
}

}  // namespace

CellTable::CellTable(std::span<const Box> boxes, double cell_size) : per_metre_(1 / cell_size) {
  assert(boxes.size() < kMostPieces && cell_size > 0);
  const auto each_cell = [&](const auto& visit) {
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      if (boxes[i].empty()) continue;
      const Range range = cells_of(boxes[i]);
      for_cells(range, [&](Cell cell) { visit(i, range, cell); });
    }
  };
  std::vector<std::uint64_t> tiles;
  each_cell([&](std::size_t, const Range&, Cell cell) {
    const std::uint64_t tile = packed(tile_of(cell));
    if (tiles.empty() || tiles.back() != tile) tiles.push_back(tile);
  });
  std::sort(tiles.begin(), tiles.end());
  tiles.erase(std::unique(tiles.begin(), tiles.end()), tiles.end());
  if (tiles.empty()) return;
  tiles_.resize(std::bit_ceil(2 * tiles.size()));
  each_cell([&](std::size_t, const Range&, Cell cell) {
    Tile& tile = tiles_[tile_at(cell)];
    tile.at = tile_of(cell);
    tile.used = true;
    ++tile.slots[slot_of(cell)].count;
  });
  std::uint32_t next = 0;
  for (Tile& tile : tiles_) {
    for (Slot& slot : tile.slots) {
      slot.first = next;
      next += slot.count;
      slot.count = 0;
    }
  }
  entries_.resize(next);
  each_cell([&](std::size_t piece, const Range& range, Cell cell) {
    Slot& slot = tiles_[tile_at(cell)].slots[slot_of(cell)];
    entries_[slot.first + slot.count++] =
        Entry(piece, cell.x == range.low.x, cell.y == range.low.y);
  });
}

std::size_t CellTable::tile_at(Cell cell) const {
  const std::size_t mask = tiles_.size() - 1;
  const Cell wanted = tile_of(cell);
  std::size_t at = mixed(packed(wanted)) & mask;
  while (tiles_[at].used && tiles_[at].at != wanted) at = (at + 1) & mask;
  return at;
}

}  // namespace rootstead
