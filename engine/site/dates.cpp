#include "engine/site/dates.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

#include "engine/base/text.hpp"
#include "engine/site/accents.hpp"

namespace rootstead {
namespace {

constexpr int kFirstYear = 1900, kLastYear = 2199;

// The first three letters of a month, every language's in the order of the months.
std::optional<int> month_named(const std::string& word) {
  constexpr std::array<std::array<std::string_view, 5>, 12> kMonths{
      {{"jan", "ene", "", "", ""},
       {"feb", "fev", "", "", ""},
       {"mar", "mae", "maa", "mrt", ""},
       {"apr", "avr", "abr", "", ""},
       {"may", "mai", "mei", "", ""},
       {"jun", "jui", "", "", ""},
       {"jul", "jui", "", "", ""},
       {"aug", "aou", "ago", "", ""},
       {"sep", "set", "", "", ""},
       {"oct", "okt", "", "", ""},
       {"nov", "", "", "", ""},
       {"dec", "dez", "dic", "", ""}}};
  if (word.size() < 3) return std::nullopt;
  const std::string start = word.substr(0, 3);
  for (std::size_t i = 0; i < kMonths.size(); ++i) {
    if (std::find(kMonths[i].begin(), kMonths[i].end(), start) != kMonths[i].end())
      return static_cast<int>(i) + 1;
  }
  return std::nullopt;
}

int days_in(int month, int year) {
  constexpr std::array<int, 12> kDays{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  return month == 2 && leap ? 29 : kDays[static_cast<std::size_t>(month) - 1];
}

bool is_day(int year, int month, int day) {
  const bool month_fits = month >= 1 && month <= 12;
  return year >= kFirstYear && year <= kLastYear && month_fits && day >= 1 &&
         day <= days_in(month, year);
}

struct Part {
  int number = 0;
  bool named = false;  // a month by its name
};

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words(1);
  for (const char c : lower_case(without_accents(text))) {
    const bool letter = std::isalnum(static_cast<unsigned char>(c)) != 0;
    if (letter) words.back() += c;
    if (!letter && !words.back().empty()) words.emplace_back();
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

std::optional<Part> part_of(const std::string& word) {
  if (const auto month = month_named(word)) return Part{*month, true};
  int number = 0;
  const auto [end, fault] = std::from_chars(word.data(), word.data() + word.size(), number);
  if (fault != std::errc() || end != word.data() + word.size()) return std::nullopt;
  return Part{number, false};
}

// The days that one reading of a text allows, each as year, month, day.
struct Days {
  std::tuple<int, int, int> first, last;
};

void add_day(std::vector<Days>& readings, int year, int month, int day) {
  const std::tuple at(year, month, day);
  if (is_day(year, month, day)) readings.push_back({at, at});
}

void add_month(std::vector<Days>& readings, int year, int month) {
  if (is_day(year, month, 1))
    readings.push_back({{year, month, 1}, {year, month, days_in(month, year)}});
}

// Every way of reading a text as a date; none where it is no date.
std::vector<Days> readings_of(std::string_view text) {
  std::vector<Part> parts;
  std::vector<Days> readings;
  for (const std::string& word : words_of(text)) {
    const auto part = part_of(word);
    if (!part) return readings;
    parts.push_back(*part);
  }
  if (parts.size() == 2) {
    add_month(readings, parts[0].number, parts[1].number);
    add_month(readings, parts[1].number, parts[0].number);
  }
  if (parts.size() != 3) return readings;
  const auto [a, b, c] = std::tuple(parts[0].number, parts[1].number, parts[2].number);
  if (!parts[0].named) add_day(readings, a, b, c);
  if (!parts[0].named) add_day(readings, c, b, a);
  if (!parts[1].named) add_day(readings, c, a, b);
  return readings;
}

}  // namespace

bool is_date(std::string_view text) {
  return !readings_of(text).empty();
}

bool certainly_after(std::string_view later, std::string_view earlier) {
  const std::vector<Days> late = readings_of(later), early = readings_of(earlier);
  if (late.empty() || early.empty()) return false;
  const auto first = std::min_element(
      late.begin(), late.end(), [](const Days& a, const Days& b) { return a.first < b.first; });
  const auto last = std::max_element(early.begin(), early.end(),
                                     [](const Days& a, const Days& b) { return a.last < b.last; });
  return first->first > last->last;
}

}  // namespace rootstead
