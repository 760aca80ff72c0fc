// BoxIndex: finds, among many boxes, those near a place. A packed tree built once: boxes sorted
// into square tiles, sixteen to a node; long and short boxes mix freely.
// Cost: building n log n; a query log n plus what it finds. Queries may run in many threads.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "engine/geom/shapes.hpp"

namespace rootstead {

class BoxIndex {
 public:
  BoxIndex() = default;
  // Empty boxes keep their number but are never found.
  explicit BoxIndex(const std::vector<Box>& boxes);

  // Numbers of the boxes that come within `reach` of `at`, touching included, ascending.
  std::vector<std::size_t> near(const Point& at, Length reach) const;
  // Numbers of the boxes that meet `box`, touching included, ascending.
  std::vector<std::size_t> meeting(const Box& box) const;

 private:
  struct Node {
    Box box;
    std::uint32_t first = 0;  // of its children one level down, or of its items
    std::uint32_t count = 0;
  };
  struct Item {
    Box box;
    std::uint32_t number = 0;
  };

  template <class Wanted>
  std::vector<std::size_t> found(const Wanted& wanted) const;

  std::vector<Item> items_;
  std::vector<std::vector<Node>> levels_;  // from the leaves to the root
};

}  // namespace rootstead
