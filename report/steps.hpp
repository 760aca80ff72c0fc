// How far the making of a document is, told while it is made.
#pragma once

#include <functional>
#include <string_view>

#include "engine/base/result.hpp"

namespace rootstead {

// Is told the step at hand, and how many of its parts are done; false stops the making, which then
// fails and leaves no file.
using Steps = std::function<bool(std::string_view step, int done, int of)>;

inline Outcome tell(const Steps& steps, std::string_view step, int done, int of) {
  if (!steps || steps(step, done, of)) return Nothing{};
  return Error{Code::wrong_use, std::string(step), "it was given up", "begin again"};
}

}  // namespace rootstead
