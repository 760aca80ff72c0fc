// Numbers and words to and from text, without locale: a comma in the user's settings changes
// nothing here.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rootstead {

// The shortest text that reads back to exactly the same number.
std::string shortest_number(double value);

// The number rounded half away from zero to `decimals` places, "-0.0" written as "0.0".
std::string fixed_number(double value, int decimals);

// "12.3 %" for 0.123 with one decimal.
std::string percent(double share, int decimals = 1);

struct LeadingNumber {
  double value = 0;
  std::string_view rest;  // what follows the number, untrimmed
};
// The number at the start of `text`, after blanks; a decimal comma is read as a point.
std::optional<LeadingNumber> leading_number(std::string_view text);

// The whole text as one number, blanks at the ends allowed. Nothing where anything else remains.
std::optional<double> number_from(std::string_view text);

std::string_view trimmed(std::string_view text);
std::string lower_case(std::string_view text);  // ASCII letters only
std::vector<std::string> split(std::string_view text, char separator);
std::string joined(const std::vector<std::string>& parts, std::string_view separator);

}  // namespace rootstead
