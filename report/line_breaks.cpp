#include "report/line_breaks.hpp"

#include <algorithm>
#include <array>

namespace rootstead::layout {
namespace {

constexpr std::string_view kFixedSpace = "\u00A0";
constexpr std::array<std::string_view, 25> kUnits{
    "%", "m",  "mm", "cm", "km",  "m²", "m³",  "ft",  "in", "ft²", "yd³", "L",  "gal",
    "g", "kg", "lb", "t",  "ton", "kN", "kPa", "psi", "°C", "°F",  "°",   "kNm"};
constexpr std::string_view kUnitEnds = " ,;:.)(–\n";

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// Does a unit begin here, and end as a word does?
bool begins_with_unit(std::string_view rest) {
  const std::string_view word = rest.substr(0, rest.find_first_of(" ,;:)(\n"));
  return std::any_of(kUnits.begin(), kUnits.end(), [&](std::string_view unit) {
    if (!word.starts_with(unit)) return false;
    const std::string_view after = word.substr(unit.size());
    // "m." at the end of a sentence, "%–", and the raised letter of a status.
    return after.empty() || kUnitEnds.find(after[0]) != std::string_view::npos ||
           static_cast<unsigned char>(after[0]) >= 0x80;
  });
}

// "E 480004.0", "N 4880053.2"
bool is_coordinate(std::string_view text, std::size_t space) {
  const bool letter = space > 0 && (text[space - 1] == 'E' || text[space - 1] == 'N');
  const bool alone = space == 1 || (space > 1 && text[space - 2] == ' ');
  return letter && alone && space + 1 < text.size() && is_digit(text[space + 1]);
}

}  // namespace

std::string kept_together(std::string_view text) {
  std::string kept;
  kept.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool fixed =
        text[i] == ' ' && i > 0 &&
        ((is_digit(text[i - 1]) && begins_with_unit(text.substr(i + 1))) || is_coordinate(text, i));
    if (fixed)
      kept += kFixedSpace;
    else
      kept += text[i];
  }
  return kept;
}

}  // namespace rootstead::layout
