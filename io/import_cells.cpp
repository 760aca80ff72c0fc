// Values as surveyors type them into a cell.
#include <algorithm>
#include <array>

#include "engine/base/text.hpp"
#include "io/digits.hpp"
#include "io/import_rows.hpp"

namespace rootstead::io {
namespace {

// Cuts words that say "about" off both ends.
bool take_estimate_marks(std::string_view& cell) {
  constexpr std::array<std::string_view, 11> kBefore{
      "~", "ca.", "ca ", "circa", "c.", "approx.", "approx", "est.", "est ", "env.", "etwa"};
  constexpr std::array<std::string_view, 6> kAfter{"(est.)", "(est)", "est.", "est", "*", "#"};
  bool found = false;
  const std::string lower = lower_case(cell);
  for (const std::string_view mark : kBefore) {
    if (!lower.starts_with(mark)) continue;
    cell = trimmed(cell.substr(mark.size()));
    found = true;
    break;
  }
  const std::string rest = lower_case(cell);
  for (const std::string_view mark : kAfter) {
    if (rest.size() <= mark.size() || !rest.ends_with(mark)) continue;
    cell = trimmed(cell.substr(0, cell.size() - mark.size()));
    return true;
  }
  return found;
}

// "5 1/2 in" is "5.5 in", "3/4"" is "0.75"": halves to sixteenths, as on a tape.
std::string without_fraction(std::string_view cell) {
  const auto slash = cell.find('/');
  if (slash == std::string_view::npos || slash == 0) return std::string(cell);
  std::size_t begin = slash, end = slash + 1;
  while (begin > 0 && is_digit(cell[begin - 1])) --begin;
  while (end < cell.size() && is_digit(cell[end])) ++end;
  const auto over = number_from(cell.substr(begin, slash - begin));
  const auto under = number_from(cell.substr(slash + 1, end - slash - 1));
  const bool of_tape = over && under && (*under == 2 || *under == 4 || *under == 8 || *under == 16);
  if (!of_tape || *over >= *under) return std::string(cell);
  const std::string_view whole_text = trimmed(cell.substr(0, begin));
  const auto whole = whole_text.empty() ? std::optional<double>(0) : number_from(whole_text);
  if (!whole) return std::string(cell);
  return shortest_number(*whole + *over / *under) + std::string(cell.substr(end));
}

std::vector<std::string> parts_at(std::string_view cell, char mark) {
  std::vector<std::string> parts = split(cell, mark);
  for (std::string& part : parts) part = std::string(trimmed(part));
  std::erase_if(parts, [](const std::string& part) { return part.empty(); });
  return parts;
}

// A comma parts stems where it cannot be a decimal comma: two of them, a blank after it, or three
// digits on both sides.
bool comma_parts(std::string_view cell) {
  const auto first = cell.find(',');
  if (first == std::string_view::npos) return false;
  if (first != cell.rfind(',')) return true;
  if (first + 1 < cell.size() && cell[first + 1] == ' ') return true;
  const bool three_after =
      first + 4 <= cell.size() &&
      std::all_of(cell.begin() + static_cast<std::ptrdiff_t>(first) + 1,
                  cell.begin() + static_cast<std::ptrdiff_t>(first) + 4, is_digit);
  return three_after && first >= 3;
}

// "3 x 200": as many equal stems.
std::optional<std::vector<std::string>> equal_stems(std::string_view cell) {
  const auto at = cell.find_first_of("xX");
  if (at == std::string_view::npos || at == 0) return std::nullopt;
  const auto count = number_from(cell.substr(0, at));
  const std::string_view each = trimmed(cell.substr(at + 1));
  constexpr double kMostStems = 50;
  const bool whole = count && *count >= 1 && *count <= kMostStems &&
                     *count == static_cast<double>(static_cast<int>(*count));
  if (!whole || each.empty() || !is_digit(each.front())) return std::nullopt;
  return std::vector<std::string>(static_cast<std::size_t>(*count), std::string(each));
}

// "300+250 mm": the unit of the last is the unit of all.
void share_last_unit(std::vector<std::string>& parts) {
  const auto last = leading_number(parts.back());
  if (!last || !length_unit_from(last->rest)) return;
  for (std::string& part : parts) {
    if (number_from(part)) part += std::string(last->rest);
  }
}

}  // namespace

ReadLength length_in(std::string_view cell, std::optional<LengthUnit> unit) {
  ReadLength read;
  std::string_view bare = trimmed(cell);
  read.estimated = take_estimate_marks(bare);
  const std::string plain = without_fraction(bare);
  read.length = entered_length_from(plain, unit);
  read.unit_missing = !read.length && number_from(plain).has_value();
  return read;
}

std::vector<std::string> stem_parts(std::string_view cell) {
  if (auto equal = equal_stems(cell)) return *equal;
  const bool fraction = without_fraction(cell) != cell;
  std::vector<std::string> parts;
  for (const char mark : {'+', ';', '&', '|'}) {
    if (cell.find(mark) != std::string_view::npos && parts.empty()) parts = parts_at(cell, mark);
  }
  if (parts.empty() && !fraction && cell.find('/') != std::string_view::npos)
    parts = parts_at(cell, '/');
  if (parts.empty() && comma_parts(cell)) parts = parts_at(cell, ',');
  if (parts.empty()) return {std::string(cell)};
  share_last_unit(parts);
  return parts;
}

bool looks_like_date(std::string_view cell) {
  const std::string lower = lower_case(cell);
  constexpr std::array<std::string_view, 14> kMonths{"jan", "feb", "mar", "apr", "may",
                                                     "mai", "jun", "jul", "aug", "sep",
                                                     "oct", "okt", "nov", "dec"};
  const bool month = std::any_of(kMonths.begin(), kMonths.end(), [&](std::string_view name) {
    return lower.find(name) != std::string::npos;
  });
  const auto marks = std::count_if(lower.begin(), lower.end(),
                                   [](char c) { return c == '.' || c == '/' || c == '-'; });
  const bool digits = std::any_of(lower.begin(), lower.end(), is_digit);
  const bool only_marks = lower.find_first_not_of("0123456789./-") == std::string::npos;
  return digits && (month || (marks == 2 && only_marks && lower.size() >= 6));
}

std::optional<bool> yes_no_from(std::string_view cell) {
  const std::string word = lower_case(trimmed(cell));
  for (const std::string_view yes :
       {"yes", "y", "true", "1", "x", "ja", "j", "oui", "o", "si", "s\xC3\xAD"}) {
    if (word == yes) return true;
  }
  for (const std::string_view no : {"no", "n", "false", "0", "nein", "non", "nee"}) {
    if (word == no) return false;
  }
  return std::nullopt;
}

}  // namespace rootstead::io
