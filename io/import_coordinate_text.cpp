// Coordinates as people write them.
#include <array>
#include <cmath>
#include <vector>

#include "engine/base/text.hpp"
#include "io/digits.hpp"
#include "io/import_coordinates.hpp"

namespace rootstead::io {
namespace {

// Typographic signs of angles and blanks in numbers, as plain ones.
std::string plain_signs(std::string_view text) {
  struct Sign {
    std::string_view written;
    std::string_view plain;
  };
  constexpr std::array<Sign, 9> kSigns{{{"\xC2\xB0", "d"},      // degree sign
                                        {"\xC2\xBA", "d"},      // ordinal, typed for it
                                        {"\xE2\x80\xB2", "'"},  // prime
                                        {"\xE2\x80\x99", "'"},  // apostrophe
                                        {"\xE2\x80\xB3", "\""},
                                        {"\xE2\x80\x9D", "\""},
                                        {"\xE2\x88\x92", "-"},  // minus sign
                                        {"\xC2\xA0", " "},
                                        {"\xE2\x80\xAF", " "}}};
  std::string plain(text);
  for (const Sign& sign : kSigns) {
    for (auto at = plain.find(sign.written); at != std::string::npos; at = plain.find(sign.written))
      plain.replace(at, sign.written.size(), sign.plain);
  }
  return plain;
}

// "1,234,567.8", "430 035,12", "1'234'567.8": the marks between groups of three digits go.
std::string without_group_marks(const std::string& text) {
  const auto last_point = text.find_last_of(".,");
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const bool between =
        i > 0 && i + 1 < text.size() && is_digit(text[i - 1]) && is_digit(text[i + 1]);
    if (between && (c == ' ' || c == '\'')) continue;
    const bool other_mark_follows =
        (c == ',' || c == '.') && i < last_point && text[last_point] != c;
    const bool many_of_it = (c == ',' || c == '.') && text.find(c) != text.rfind(c);
    if (between && (other_mark_follows || many_of_it)) continue;
    plain += c;
  }
  return plain;
}

// 1 or -1 for a letter of the compass at either end, which is cut off; 0 where there is none.
int take_compass_letter(std::string& text) {
  text = std::string(trimmed(text));
  if (text.empty()) return 0;
  constexpr std::string_view kLetters = "NSEWOnsewo";  // O: Ost, Oeste is rare beside degrees
  for (const std::size_t at : {text.size() - 1, std::size_t{0}}) {
    if (kLetters.find(text[at]) == std::string_view::npos) continue;
    const char letter = text[at];
    text.erase(at, 1);
    return letter == 'S' || letter == 's' || letter == 'W' || letter == 'w' ? -1 : 1;
  }
  return 0;
}

// "49d15'34.2"" in degrees.
std::optional<double> degrees_from(std::string text) {
  const int sign = take_compass_letter(text);
  const std::array<char, 3> marks{'d', '\'', '"'};
  double degrees = 0, share = 1;
  bool negative = false;
  std::string_view rest = trimmed(text);
  for (const char mark : marks) {
    const auto number = leading_number(rest);
    if (!number) return std::nullopt;
    if (mark == 'd') negative = rest.starts_with('-');
    degrees += std::abs(number->value) * share;
    share /= 60;
    rest = trimmed(number->rest);
    if (!rest.empty() && rest.front() == mark) rest = trimmed(rest.substr(1));
    if (rest.empty()) break;
  }
  if (!rest.empty()) return std::nullopt;
  return negative || sign < 0 ? -degrees : degrees;
}

// Where the first of two numbers ends: at a comma or semicolon with a blank, at a compass letter,
// at a blank, or at the only comma.
std::size_t middle_of(const std::string& text) {
  for (const std::string_view gap : {", ", "; ", ";", " /", "/", "|"}) {
    if (const auto at = text.find(gap); at != std::string::npos) return at;
  }
  const auto letter = text.find_first_of("NSns");
  if (letter != std::string::npos && letter > 0) return letter + 1;
  if (const auto at = text.find_first_of("EWOewo", 1); letter == 0 && at != std::string::npos)
    return at;
  if (const auto comma = text.find(','); comma != std::string::npos && comma == text.rfind(','))
    return comma;
  return text.find(' ');
}

}  // namespace

std::optional<double> coordinate_from(std::string_view text) {
  const std::string plain = plain_signs(trimmed(text));
  if (plain.find_first_of("dNSEWnsewo\"") != std::string::npos) return degrees_from(plain);
  return number_from(without_group_marks(plain));
}

std::optional<Point> latitude_longitude_from(std::string_view text, bool longitude_first) {
  std::string plain = plain_signs(trimmed(text));
  if (plain.starts_with('(') && plain.ends_with(')')) plain = plain.substr(1, plain.size() - 2);
  const std::size_t middle = middle_of(plain);
  if (middle == std::string::npos) return std::nullopt;
  std::string second = plain.substr(middle);
  second.erase(0, second.find_first_not_of(",;/| "));
  auto a = coordinate_from(plain.substr(0, middle));
  auto b = coordinate_from(second);
  if (!a || !b) return std::nullopt;
  if (longitude_first) std::swap(a, b);
  return Point{*b, *a};
}

}  // namespace rootstead::io
