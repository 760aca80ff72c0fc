// TimeBuckets: hands out entries by rising time, in no order within a bucket. Entries whose time is
// further off than the ring of buckets reaches wait in its last bucket and are sorted in again.
// Cost: a few nanoseconds an entry, whatever their number. Times must not be negative.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace rootstead {

class TimeBuckets {
 public:
  struct Entry {
    double time = 0;
    std::uint32_t cell = 0;
  };

  explicit TimeBuckets(double width) : buckets_per_time_(1 / width), first_(kBuckets, kNone) {}

  bool empty() const { return waiting_ == 0; }

  // A time before that of the entry taken last counts as now.
  void push(const Entry& entry) {
    const std::size_t ahead =
        static_cast<std::size_t>(std::max(0.0, entry.time * buckets_per_time_ - now_));
    std::uint32_t& first = first_[(at_ + std::min(ahead, kBuckets - 1)) % kBuckets];
    const std::uint32_t link = new_link();
    links_[link] = {entry, first};
    first = link;
    ++waiting_;
  }

  // Requires: not empty.
  Entry pop() {
    for (;;) {
      while (first_[at_] == kNone) {
        at_ = (at_ + 1) % kBuckets;
        now_ += 1;
      }
      const std::uint32_t link = first_[at_];
      const Entry entry = links_[link].entry;
      first_[at_] = links_[link].next;
      links_[link].next = unused_;
      unused_ = link;
      --waiting_;
      if (entry.time * buckets_per_time_ < now_ + 1) return entry;
      push(entry);
    }
  }

 private:
  static constexpr std::size_t kBuckets = 1024;
  static constexpr std::uint32_t kNone = UINT32_MAX;
  struct Link {
    Entry entry;
    std::uint32_t next = kNone;
  };

  std::uint32_t new_link() {
    if (unused_ == kNone) {
      links_.emplace_back();
      return static_cast<std::uint32_t>(links_.size() - 1);
    }
    const std::uint32_t link = unused_;
    unused_ = links_[link].next;
    return link;
  }

  double buckets_per_time_;
  double now_ = 0;      // number of the bucket at hand, in buckets since time 0
  std::size_t at_ = 0;  // and its place in the ring
  std::size_t waiting_ = 0;
  std::vector<std::uint32_t> first_;  // link of each bucket
  std::vector<Link> links_;
  std::uint32_t unused_ = kNone;
};

}  // namespace rootstead
