#include "engine/screening/place_order.hpp"

#include <algorithm>
#include <utility>
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

}  // namespace

std::uint64_t place_on_curve(const Point& place) {
  return spread(place.x) | (spread(place.y) << 1);
}

std::vector<std::uint32_t> in_order_of_place(std::span<const Point> places) {
  std::vector<std::pair<std::uint64_t, std::uint32_t>> order(places.size());
  for (std::size_t i = 0; i < places.size(); ++i)
    order[i] = {place_on_curve(places[i]), static_cast<std::uint32_t>(i)};
  std::sort(order.begin(), order.end());
  std::vector<std::uint32_t> numbers;
  numbers.reserve(order.size());
  for (const auto& [place, number] : order) numbers.push_back(number);
  return numbers;
}

}  // namespace rootstead
