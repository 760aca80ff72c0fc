// The checks behind the lines of the checklist that are answered by data. Private to the room.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/submittal/submittal.hpp"

namespace rootstead {

struct SubmittalData {
  const Site& site;
  const Assessment& assessment;
};

struct CheckAnswer {
  SubmittalState state = SubmittalState::yours;
  std::string text;
  std::vector<std::string> subjects;
};

// A check that only says whether the line applies leaves the rest to the output of the line, or to
// the person where the line has none: it answers `yours` with an empty text.
using SubmittalCheck = CheckAnswer (*)(const SubmittalData&);

// Null where no check has this name.
SubmittalCheck submittal_check(std::string_view name);

}  // namespace rootstead
