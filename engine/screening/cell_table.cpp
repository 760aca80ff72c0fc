#include "engine/screening/cell_table.hpp"

#include <algorithm>
#include <bit>
#include <cassert>
#include <cmath>

namespace rootstead {
namespace {

// Cells are numbered from the origin of the grid, not of the data: the same in every part of a
// network. Far beyond any grid on earth, numbers stop.
constexpr double kLastCell = 1e9;

std::int32_t cell_number(double at, double size) {
  return static_cast<std::int32_t>(std::clamp(std::floor(at / size), -kLastCell, kLastCell));
}

std::uint64_t mixed(std::int32_t x, std::int32_t y) {
  std::uint64_t key = (static_cast<std::uint64_t>(static_cast<std::uint32_t>(x)) << 32) |
                      static_cast<std::uint32_t>(y);
  key *= 0x9E3779B97F4A7C15u;
  return key ^ (key >> 29);
}

template <class Visit>
void for_cells(const CellTable::Range& range, const Visit& visit) {
  for (std::int32_t y = range.low.y; y <= range.high.y; ++y)
    for (std::int32_t x = range.low.x; x <= range.high.x; ++x) visit(CellTable::Cell{x, y});
}

}  // namespace

CellTable::CellTable(std::span<const Box> boxes, double cell_size) : cell_size_(cell_size) {
  assert(boxes.size() < kMostPieces);
  std::size_t all = 0;
  for (const Box& box : boxes)
    if (!box.empty()) all += cells_of(box).cells();
  slots_.resize(std::bit_ceil(std::max<std::size_t>(2 * all, 2)));
  const auto each_cell = [&](const auto& visit) {
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      if (boxes[i].empty()) continue;
      const Range range = cells_of(boxes[i]);
      for_cells(range, [&](Cell cell) { visit(i, range, cell); });
    }
  };
  each_cell([&](std::size_t, const Range&, Cell cell) {
    Slot& slot = slots_[slot_of(cell)];
    slot.cell = cell;
    ++slot.count;
  });
  std::uint32_t next = 0;
  for (Slot& slot : slots_) {
    slot.first = next;
    next += slot.count;
    slot.count =
        slot.count > 0 ? 1 : 0;  // one more than what is filled in, so that none seems free
  }
  entries_.resize(all);
  each_cell([&](std::size_t piece, const Range& range, Cell cell) {
    Slot& slot = slots_[slot_of(cell)];
    entries_[slot.first + slot.count - 1] =
        Entry(piece, cell.x == range.low.x, cell.y == range.low.y);
    ++slot.count;
  });
  for (Slot& slot : slots_)
    if (slot.count > 0) --slot.count;
}

CellTable::Range CellTable::cells_of(const Box& box) const {
  return {{cell_number(box.min_x, cell_size_), cell_number(box.min_y, cell_size_)},
          {cell_number(box.max_x, cell_size_), cell_number(box.max_y, cell_size_)}};
}

// Where the cell stands, or the free slot where it would.
std::size_t CellTable::slot_of(Cell cell) const {
  const std::size_t mask = slots_.size() - 1;
  std::size_t at = mixed(cell.x, cell.y) & mask;
  while (slots_[at].count > 0 && slots_[at].cell != cell) at = (at + 1) & mask;
  return at;
}

std::span<const CellTable::Entry> CellTable::at(Cell cell) const {
  if (slots_.empty()) return {};
  const Slot& slot = slots_[slot_of(cell)];
  return {entries_.data() + slot.first, slot.count};
}

}  // namespace rootstead
