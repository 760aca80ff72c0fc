// Units of length at the edges of the program: what a person wrote stays as it was written.
// Source of the factors: the international inch is 25.4 mm exactly (1959 agreement); the US survey
// foot is 1200/3937 m exactly (Mendenhall order 1893), deprecated from 2023 but still in old data.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "engine/base/quantity.hpp"

namespace rootstead {

enum class LengthUnit { metre, centimetre, millimetre, inch, foot, us_survey_foot };

// The system a sheet is written in: one system a sheet.
enum class UnitSystem { metric, us_customary };

constexpr double metres_per(LengthUnit unit) {
  switch (unit) {
    case LengthUnit::metre:
      return 1.0;
    case LengthUnit::centimetre:
      return 0.01;
    case LengthUnit::millimetre:
      return 0.001;
    case LengthUnit::inch:
      return 0.0254;
    case LengthUnit::foot:
      return 0.3048;
    case LengthUnit::us_survey_foot:
      return 1200.0 / 3937.0;
  }
  return 1.0;
}

// "m", "cm", "mm", "in", "ft", "us-ft".
std::string_view symbol(LengthUnit unit);

// Reads a unit as people write it: m, metre, meters, cm, mm, in, inch, ", ft, foot, feet, ',
// us-ft, ftUS. Upper and lower case are alike. Nothing where it is not a unit of length.
std::optional<LengthUnit> length_unit_from(std::string_view text);

// A length as it was written down: the number and the unit survive every round trip.
struct EnteredLength {
  double value = 0;
  LengthUnit unit = LengthUnit::metre;

  constexpr Length length() const { return Length::metres(value * metres_per(unit)); }
  friend bool operator==(const EnteredLength&, const EnteredLength&) = default;
};

// Reads "500 mm", "1.5m", "16 in", "5'6\"" or, where `fallback` is given, a bare number.
// A decimal comma is read as a point. Nothing where the text is no length.
std::optional<EnteredLength> entered_length_from(std::string_view text,
                                                 std::optional<LengthUnit> fallback = {});

// "500 mm": the shortest text that reads back to the same number.
std::string to_text(const EnteredLength& entered);

// The length in `unit` as a bare number.
constexpr double in_unit(Length length, LengthUnit unit) {
  return length.metres() / metres_per(unit);
}

}  // namespace rootstead
