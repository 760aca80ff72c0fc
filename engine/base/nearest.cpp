#include "engine/base/nearest.hpp"

#include <algorithm>

#include "engine/base/text.hpp"

namespace rootstead {

int edit_distance(std::string_view first, std::string_view second) {
  const std::string a = lower_case(first), b = lower_case(second);
  const auto columns = b.size() + 1;
  std::vector<int> before(columns), last(columns), row(columns);  // two rows back, one back, this
  for (std::size_t j = 0; j < columns; ++j) last[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = static_cast<int>(i);
    for (std::size_t j = 1; j < columns; ++j) {
      const int change = a[i - 1] == b[j - 1] ? 0 : 1;
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, row);
  }
  return last.back();
}

std::string nearest(std::string_view word, const std::vector<std::string>& known) {
  std::string best;
  int best_distance = 0;
  for (const std::string& candidate : known) {
    const int distance = edit_distance(word, candidate);
    if (best.empty() || distance < best_distance) {
      best = candidate;
      best_distance = distance;
    }
  }
  if (best_distance <= std::max(2, static_cast<int>(word.size()) / 3)) return best;
  const std::string wanted = lower_case(word);
  for (const std::string& candidate : known) {
    if (!wanted.empty() && lower_case(candidate).find(wanted) != std::string::npos) {
      return candidate;
    }
  }
  return {};
}

std::string suggestion(std::string_view word, const std::vector<std::string>& known) {
  const std::string near = nearest(word, known);
  if (!near.empty()) return "perhaps \"" + near + "\" is meant";
  return "known are: " + joined(known, ", ");
}

}  // namespace rootstead
