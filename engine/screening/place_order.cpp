#include "engine/screening/place_order.hpp"

#include <algorithm>
#include <array>
#include <numeric>
#include <vector>

#include "engine/screening/network_ground.hpp"

namespace rootstead {
namespace {

// The bits of the cell's number, each with a free one before it. No place is far from the origin of
// a grid; what is, or is none, comes to the ends.
std::uint64_t spread(double at) {
  const double cell = at / kCellSize + 1e9;
  std::uint64_t v = cell > 0 ? static_cast<std::uint64_t>(std::min(cell, 4e9)) : 0;
  v = (v | (v << 16)) & 0x0000FFFF0000FFFFu;
  v = (v | (v << 8)) & 0x00FF00FF00FF00FFu;
  v = (v | (v << 4)) & 0x0F0F0F0F0F0F0F0Fu;
  v = (v | (v << 2)) & 0x3333333333333333u;
  return (v | (v << 1)) & 0x5555555555555555u;
}

struct Placed {
  std::uint64_t key;
  std::uint32_t number;
};

// By digits from the lowest, equals as they stood; digits in which all agree are passed over, which
// are most where all is one town. Comparing would cost a tree a quarter of its whole answer.
void sort_by_key(std::vector<Placed>& placed) {
  constexpr int kBits = 11;
  constexpr std::uint64_t kDigits = std::uint64_t{1} << kBits;
  std::uint64_t differing = 0;
  for (const Placed& one : placed) differing |= one.key ^ placed.front().key;
  std::vector<Placed> sorted(placed.size());
  for (int shift = 0; shift < 64; shift += kBits) {
    if (((differing >> shift) & (kDigits - 1)) == 0) continue;
    const auto digit = [shift](const Placed& one) { return (one.key >> shift) & (kDigits - 1); };
    std::array<std::uint32_t, kDigits> next{};
    for (const Placed& one : placed) ++next[digit(one)];
    std::exclusive_scan(next.begin(), next.end(), next.begin(), std::uint32_t{0});
    for (const Placed& one : placed) sorted[next[digit(one)]++] = one;
    placed.swap(sorted);
  }
}

}  // namespace

std::uint64_t place_on_curve(const Point& place) {
  return spread(place.x) | (spread(place.y) << 1);
}

std::vector<std::uint32_t> in_order_of_place(std::span<const Point> places) {
  std::vector<Placed> order(places.size());
  for (std::size_t i = 0; i < places.size(); ++i)
    order[i] = {place_on_curve(places[i]), static_cast<std::uint32_t>(i)};
  sort_by_key(order);
  std::vector<std::uint32_t> numbers;
  numbers.reserve(order.size());
  for (const Placed& one : order) numbers.push_back(one.number);
  return numbers;
}

}  // namespace rootstead
