#include "engine/base/units.hpp"

#include <array>
#include <utility>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

using Name = std::pair<std::string_view, LengthUnit>;
constexpr std::array<Name, 27> kNames{{
    {"m", LengthUnit::metre},
    {"metre", LengthUnit::metre},
    {"metres", LengthUnit::metre},
    {"meter", LengthUnit::metre},
    {"meters", LengthUnit::metre},
    {"cm", LengthUnit::centimetre},
    {"centimetre", LengthUnit::centimetre},
    {"centimetres", LengthUnit::centimetre},
    {"centimeter", LengthUnit::centimetre},
    {"centimeters", LengthUnit::centimetre},
    {"mm", LengthUnit::millimetre},
    {"millimetre", LengthUnit::millimetre},
    {"millimetres", LengthUnit::millimetre},
    {"millimeter", LengthUnit::millimetre},
    {"millimeters", LengthUnit::millimetre},
    {"in", LengthUnit::inch},
    {"inch", LengthUnit::inch},
    {"inches", LengthUnit::inch},
    {"\"", LengthUnit::inch},
    {"ft", LengthUnit::foot},
    {"foot", LengthUnit::foot},
    {"feet", LengthUnit::foot},
    {"'", LengthUnit::foot},
    {"us-ft", LengthUnit::us_survey_foot},
    {"ftus", LengthUnit::us_survey_foot},
    {"us_ft", LengthUnit::us_survey_foot},
    {"usft", LengthUnit::us_survey_foot},
}};

// "5'6\"" and "5 ft 6 in": feet and inches as one number of inches.
std::optional<EnteredLength> feet_and_inches(double feet, std::string_view inches_text) {
  const auto inches = leading_number(inches_text);
  if (!inches) return std::nullopt;
  if (length_unit_from(inches->rest) != LengthUnit::inch) return std::nullopt;
  return EnteredLength{feet * 12 + inches->value, LengthUnit::inch};
}

}  // namespace

std::string_view symbol(LengthUnit unit) {
  switch (unit) {
    case LengthUnit::metre:
      return "m";
    case LengthUnit::centimetre:
      return "cm";
    case LengthUnit::millimetre:
      return "mm";
    case LengthUnit::inch:
      return "in";
    case LengthUnit::foot:
      return "ft";
    case LengthUnit::us_survey_foot:
      return "us-ft";
  }
  return "m";
}

std::optional<LengthUnit> length_unit_from(std::string_view text) {
  const std::string name = lower_case(trimmed(text));
  for (const auto& [known, unit] : kNames) {
    if (known == name) return unit;
  }
  return std::nullopt;
}

std::optional<EnteredLength> entered_length_from(std::string_view text,
                                                 std::optional<LengthUnit> fallback) {
  const auto number = leading_number(text);
  if (!number) return std::nullopt;
  const std::string_view rest = trimmed(number->rest);
  if (rest.empty()) {
    if (!fallback) return std::nullopt;
    return EnteredLength{number->value, *fallback};
  }
  if (const auto unit = length_unit_from(rest)) return EnteredLength{number->value, *unit};
  for (const std::string_view foot : {"'", "ft", "feet"}) {
    if (rest.starts_with(foot)) return feet_and_inches(number->value, rest.substr(foot.size()));
  }
  return std::nullopt;
}

std::string to_text(const EnteredLength& entered) {
  return shortest_number(entered.value) + " " + std::string(symbol(entered.unit));
}

}  // namespace rootstead
