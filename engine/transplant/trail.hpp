// Trail: builds a figure and its birth certificate step by step. The status is the weakest of the
// parameters used, and the source that of the first with this status.
#pragma once

#include <string>
#include <string_view>
#include <utility>

#include "engine/base/figure.hpp"
#include "engine/base/quantity.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

class Trail {
 public:
  Trail(std::string name, std::string unit);

  Trail& formula(std::string text);
  Trail& given(std::string symbol, std::string meaning, std::string value);
  Trail& length(std::string symbol, std::string meaning, Length value);  // in mm
  Trail& by(const Parameter& parameter, std::string symbol);
  Trail& by(const Citation& from);

  Figure is(double value);
  Figure is(const Range& range);  // value: its best

 private:
  Figure figure_;
  bool cited_ = false;
};

constexpr Range times(const Range& a, double k) {
  return {a.low * k, a.best * k, a.high * k};
}
// Low with low and high with high. Requires: none below zero.
constexpr Range times(const Range& a, const Range& b) {
  return {a.low * b.low, a.best * b.best, a.high * b.high};
}
constexpr Range plus(const Range& a, const Range& b) {
  return {a.low + b.low, a.best + b.best, a.high + b.high};
}
constexpr Range range_of(const Parameter& parameter) {
  return {parameter.low, parameter.best, parameter.high};
}
constexpr Range same(double value) {
  return {value, value, value};
}

// The row "<start>.<species>", else "<start>.<genus>", else null.
const Parameter* taxon_row(const Tables& tables, std::string_view start,
                           std::string_view botanical_name);

inline constexpr double kMetresPerInch = 0.0254;

}  // namespace rootstead
