// Numbers as the page writes them: fixed digits, so that the page has the same bytes everywhere.
#pragma once

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "engine/base/text.hpp"
#include "validation/target.hpp"

namespace rootstead::validation {

// A target with what was observed; what the model says of it is filled in next.
inline Target observed(std::string id, std::string observation, std::string source,
                       Status status = Status::published) {
  Target target;
  target.id = std::move(id);
  target.observation = std::move(observation);
  target.source = std::move(source);
  target.status = status;
  return target;
}

// "0.54, 0.59, 0.77"
inline std::string listed(const std::vector<double>& values, int decimals) {
  std::vector<std::string> words;
  for (const double value : values) words.push_back(fixed_number(value, decimals));
  return joined(words, ", ");
}

inline bool all_between(const std::vector<double>& values, double low, double high) {
  for (const double value : values)
    if (value < low || value > high) return false;
  return true;
}

// Requires: as many values as wanted.
inline bool each_within(const std::vector<double>& values, const std::vector<double>& wanted,
                        double by) {
  for (std::size_t i = 0; i < values.size(); ++i)
    if (std::abs(values[i] - wanted[i]) > by) return false;
  return true;
}
inline bool each_within_share(const std::vector<double>& values, const std::vector<double>& wanted,
                              double share) {
  for (std::size_t i = 0; i < values.size(); ++i)
    if (std::abs(values[i] - wanted[i]) > share * std::abs(wanted[i])) return false;
  return true;
}

}  // namespace rootstead::validation
