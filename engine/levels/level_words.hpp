// Words about surfaces that several files of this room use.
#pragma once

#include <string>

#include "engine/base/text.hpp"
#include "engine/levels/prepared_levels.hpp"

namespace rootstead {

inline std::string surface_words(const PreparedLevels& levels) {
  return levels.name().empty() ? "a surface without a name" : "surface " + levels.name();
}

inline std::string signed_metres(Length length) {
  const std::string number = fixed_number(length.metres(), 3);
  return (length.metres() > 0 ? "+" : "") + number + " m";
}

}  // namespace rootstead
