#include "engine/geom/box_index.hpp"

#include <algorithm>
#include <cmath>

#include "engine/geom/measure.hpp"

namespace rootstead {
namespace {

constexpr std::size_t kPerNode = 16;

double middle_x(const Box& box) {
  return box.min_x / 2 + box.max_x / 2;
}
double middle_y(const Box& box) {
  return box.min_y / 2 + box.max_y / 2;
}

// Sorts into vertical strips of whole nodes, each strip from south to north.
template <class Item>
void sort_into_tiles(std::vector<Item>& items) {
  const auto by_x = [](const Item& a, const Item& b) { return middle_x(a.box) < middle_x(b.box); };
  const auto by_y = [](const Item& a, const Item& b) { return middle_y(a.box) < middle_y(b.box); };
  std::sort(items.begin(), items.end(), by_x);
  const double nodes = std::ceil(static_cast<double>(items.size()) / kPerNode);
  const std::size_t strip = static_cast<std::size_t>(std::ceil(std::sqrt(nodes))) * kPerNode;
  for (std::size_t start = 0; start < items.size(); start += strip) {
    const auto begin = items.begin() + static_cast<std::ptrdiff_t>(start);
    const std::size_t size = std::min(strip, items.size() - start);
    std::sort(begin, begin + static_cast<std::ptrdiff_t>(size), by_y);
  }
}

bool meet(const Box& a, const Box& b) {
  return a.min_x <= b.max_x && b.min_x <= a.max_x && a.min_y <= b.max_y && b.min_y <= a.max_y;
}

// One node for every run of kPerNode boxes.
template <class Node, class Child>
std::vector<Node> nodes_over(const std::vector<Child>& children) {
  std::vector<Node> nodes;
  for (std::size_t first = 0; first < children.size(); first += kPerNode) {
    const std::size_t last = std::min(first + kPerNode, children.size());
    Node node{{}, static_cast<std::uint32_t>(first), static_cast<std::uint32_t>(last - first)};
    for (std::size_t i = first; i < last; ++i) node.box = joined(node.box, children[i].box);
    nodes.push_back(node);
  }
  return nodes;
}

}  // namespace

BoxIndex::BoxIndex(const std::vector<Box>& boxes) {
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    const Box& box = boxes[i];
    if (box.min_x <= box.max_x && box.min_y <= box.max_y)  // false for not-a-number too
      items_.push_back({box, static_cast<std::uint32_t>(i)});
  }
  if (items_.empty()) return;
  sort_into_tiles(items_);
  levels_.push_back(nodes_over<Node>(items_));
  while (levels_.back().size() > 1) levels_.push_back(nodes_over<Node>(levels_.back()));
}

template <class Wanted>
std::vector<std::size_t> BoxIndex::found(const Wanted& wanted) const {
  std::vector<std::size_t> numbers;
  struct Visit {
    std::size_t level, node;
  };
  std::vector<Visit> open;
  if (!levels_.empty()) open.push_back({levels_.size() - 1, 0});
  while (!open.empty()) {
    const auto [level, at] = open.back();
    open.pop_back();
    const Node& node = levels_[level][at];
    if (!wanted(node.box)) continue;
    for (std::size_t i = node.first; i < node.first + node.count; ++i) {
      if (level > 0) {
        open.push_back({level - 1, i});
      } else if (wanted(items_[i].box)) {
        numbers.push_back(items_[i].number);
      }
    }
  }
  std::sort(numbers.begin(), numbers.end());
  return numbers;
}

std::vector<std::size_t> BoxIndex::near(const Point& at, Length reach) const {
  return found([&](const Box& box) { return distance(at, box) <= reach; });
}

std::vector<std::size_t> BoxIndex::meeting(const Box& wanted) const {
  if (wanted.empty()) return {};
  return found([&](const Box& box) { return meet(box, wanted); });
}

}  // namespace rootstead
