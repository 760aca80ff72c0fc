#include "engine/protection/along.hpp"

#include <algorithm>
#include <set>

namespace rootstead {
namespace {

constexpr double kSame = 1e-6;  // m: chainages closer than this are one

// ---- slivers ------------------------------------------------------------------------------------

bool touch(const TreeStretch& one, const TreeStretch& next) {
  return next.on.first - one.on.second <= kSame;
}

bool is_sliver(const TreeStretch& one, double least) {
  return one.on.second - one.on.first < least - kSame;
}

bool as_careful(const TreeStretch& one, const TreeStretch& as) {
  return one.near_stem || !as.near_stem;
}

void join(TreeStretch& one, const TreeStretch& other) {
  one.on = {std::min(one.on.first, other.on.first), std::max(one.on.second, other.on.second)};
  std::set<std::size_t> trees(one.trees.begin(), one.trees.end());
  trees.insert(other.trees.begin(), other.trees.end());
  one.trees.assign(trees.begin(), trees.end());
}

// Each to the one it touches that is dug in the same way, or else with more care.
void join_slivers(std::vector<TreeStretch>& all, double least) {
  for (std::size_t i = 0; i < all.size();) {
    const auto takes = [&](std::size_t other, bool touches) {
      return touches && as_careful(all[other], all[i]);
    };
    const bool before = i > 0 && takes(i - 1, touch(all[i - 1], all[i]));
    const bool after = i + 1 < all.size() && takes(i + 1, touch(all[i], all[i + 1]));
    if (!is_sliver(all[i], least) || !(before || after)) {
      ++i;
      continue;
    }
    const bool alike_before = before && all[i - 1].near_stem == all[i].near_stem;
    const std::size_t into = before && (alike_before || !after) ? i - 1 : i + 1;
    join(all[into], all[i]);
    all.erase(all.begin() + static_cast<std::ptrdiff_t>(i));
    i = std::min(i, into);
  }
}

// About its middle, within the line; what it then overlaps ends there.
void grow_sliver(std::vector<TreeStretch>& all, std::size_t i, double length, double least) {
  Interval& on = all[i].on;
  const double from =
      std::clamp((on.first + on.second - least) / 2, 0.0, std::max(0.0, length - least));
  on = {from, std::min(length, from + least)};
  if (i > 0) all[i - 1].on.second = std::min(all[i - 1].on.second, on.first);
  if (i + 1 < all.size()) all[i + 1].on.first = std::max(all[i + 1].on.first, on.second);
}

}  // namespace

std::vector<TreeStretch> stretches_of(const std::vector<TreeInterval>& intervals) {
  std::vector<double> breaks;
  for (const TreeInterval& one : intervals) {
    breaks.push_back(one.on.first);
    breaks.push_back(one.on.second);
  }
  std::sort(breaks.begin(), breaks.end());
  std::vector<TreeStretch> found;
  for (std::size_t i = 0; i + 1 < breaks.size(); ++i) {
    if (breaks[i + 1] - breaks[i] <= kSame) continue;
    const double middle = (breaks[i] + breaks[i + 1]) / 2;
    TreeStretch stretch{{breaks[i], breaks[i + 1]}, {}, false};
    std::set<std::size_t> trees;
    for (const TreeInterval& one : intervals) {
      if (one.on.first > middle || one.on.second < middle) continue;
      trees.insert(one.tree);
      stretch.near_stem = stretch.near_stem || one.near_stem;
    }
    stretch.trees.assign(trees.begin(), trees.end());
    if (stretch.trees.empty()) continue;
    const bool same = !found.empty() && found.back().trees == stretch.trees &&
                      found.back().near_stem == stretch.near_stem &&
                      stretch.on.first - found.back().on.second <= kSame;
    if (same)
      found.back().on.second = stretch.on.second;
    else
      found.push_back(std::move(stretch));
  }
  return found;
}

std::vector<TreeStretch> without_slivers(std::vector<TreeStretch> stretches, double length,
                                         double least) {
  join_slivers(stretches, least);
  for (const bool careful : {false, true}) {
    for (std::size_t i = 0; i < stretches.size(); ++i) {
      if (stretches[i].near_stem == careful && is_sliver(stretches[i], least))
        grow_sliver(stretches, i, length, least);
    }
  }
  join_slivers(stretches, least);
  return stretches;
}

}  // namespace rootstead
