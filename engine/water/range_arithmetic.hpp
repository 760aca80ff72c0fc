// Products and quotients of ranges by their ends: low meets whatever makes the answer lowest. Wider
// than a simulation would be, and never too narrow. Private to this room. Ends are not negative.
#pragma once

#include "engine/base/range.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead::water {

inline Range range_of(const Parameter& parameter) {
  return {parameter.low, parameter.best, parameter.high};
}
inline Range same(double value) {
  return {value, value, value};
}
inline Range times(const Range& a, const Range& b) {
  return {a.low * b.low, a.best * b.best, a.high * b.high};
}
inline Range times(const Range& a, double factor) {
  return times(a, same(factor));
}
// Requires: b.low > 0.
inline Range over(const Range& a, const Range& b) {
  return {a.low / b.high, a.best / b.best, a.high / b.low};
}
// 1 less a share.
inline Range rest_of(const Range& share) {
  return {1 - share.high, 1 - share.best, 1 - share.low};
}

}  // namespace rootstead::water
