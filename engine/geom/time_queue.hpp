// TimeQueue: hands out cells by rising time. A heap with four children to a node; an entry is the
// time as a float above the cell's number, one word, so that comparing words compares times
// (times are never negative). A cell may be in it several times: whoever takes one out looks
// whether it is done already.
#pragma once

#include <bit>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace rootstead {

class TimeQueue {
 public:
  bool empty() const { return heap_.empty(); }
  void reserve(std::size_t entries) { heap_.reserve(entries); }

  void push(double time, std::uint32_t cell) {
    const Entry entry =
        (static_cast<Entry>(std::bit_cast<std::uint32_t>(static_cast<float>(time))) << kCellBits) |
        cell;
    std::size_t at = heap_.size();
    heap_.push_back(entry);
    while (at > 0) {
      const std::size_t parent = (at - 1) / kChildren;
      if (heap_[parent] <= entry) break;
      heap_[at] = heap_[parent];
      at = parent;
    }
    heap_[at] = entry;
  }

  // Requires: not empty.
  std::uint32_t pop() {
    const auto first = static_cast<std::uint32_t>(heap_.front());
    const Entry last = heap_.back();
    heap_.pop_back();
    if (!heap_.empty()) sink(last);
    return first;
  }

 private:
  using Entry = std::uint64_t;
  static constexpr int kCellBits = 32;
  static constexpr std::size_t kChildren = 4;

  void sink(Entry entry) {
    std::size_t at = 0;
    const std::size_t size = heap_.size();
    for (;;) {
      const std::size_t child = at * kChildren + 1;
      if (child >= size) break;
      std::size_t least = child;
      const std::size_t end = child + kChildren < size ? child + kChildren : size;
      for (std::size_t other = child + 1; other < end; ++other)
        if (heap_[other] < heap_[least]) least = other;
      if (entry <= heap_[least]) break;
      heap_[at] = heap_[least];
      at = least;
    }
    heap_[at] = entry;
  }

  std::vector<Entry> heap_;
};

}  // namespace rootstead
