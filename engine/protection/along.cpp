#include "engine/protection/along.hpp"

#include <algorithm>
#include <set>

namespace rootstead {
namespace {

constexpr double kSame = 1e-6;  // m: chainages closer than this are one

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

}  // namespace rootstead
