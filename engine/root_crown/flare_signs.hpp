// FlareSigns: what the record of a trunk's base says of its flare, sign by sign. Internal to this
// room.
#pragma once

#include <string>
#include <vector>

#include "engine/root_crown/root_crown.hpp"

namespace rootstead {

struct SignsSay {
  FlareAnswer answer = FlareAnswer::cannot_tell;
  std::vector<std::string> reasons;  // those for burial first
  bool disagree = false;             // the flare is called visible, and something says otherwise
  bool taper_used = false;
};

// Without what was found where the base was uncovered. `taper` may be null.
SignsSay signs_say(const Flare& flare, const TaperFit* taper, UnitSystem units);

}  // namespace rootstead
