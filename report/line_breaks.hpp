// Where a line of text must not break. Private to the report room.
#pragma once

#include <string>
#include <string_view>

namespace rootstead::layout {

// The text with fixed spaces between a number and its unit ("92 %", "100 mm") and between a letter
// and its coordinate ("N 4880053.2"), so that no line parts them.
std::string kept_together(std::string_view text);

}  // namespace rootstead::layout
