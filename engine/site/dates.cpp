#include "engine/site/dates.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
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

// Every day, or first day of a month, that the parts may mean.
struct Reading {
  int year = 0, month = 0, day = 0;  // day 0: the whole month
};

std::vector<Reading> readings_of(const std::vector<Part>& parts) {
  std::vector<Reading> readings;
  const auto add = [&](int year, int month, int day) {
    if (is_day(year, month, day == 0 ? 1 : day)) readings.push_back({year, month, day});
  };
  if (parts.size() == 2) {  // a month of a year
    add(parts[0].number, parts[1].number, 0);
    add(parts[1].number, parts[0].number, 0);
  }
  if (parts.size() != 3) return readings;
  const auto [a, b, c] = std::tuple(parts[0].number, parts[1].number, parts[2].number);
  if (parts[0].named) {
    add(c, a, b);
  } else if (parts[1].named) {
    add(c, b, a);
    add(a, b, c);
  } else {
    add(a, b, c);
    add(c, b, a);
    add(c, a, b);
  }
  return readings;
}

std::vector<Reading> readings_of(std::string_view text) {
  std::vector<Part> parts;
  for (const std::string& word : words_of(text)) {
    const auto part = part_of(word);
    if (!part) return {};
    parts.push_back(*part);
  }
  return readings_of(parts);
}

std::chrono::sys_days day_of(int year, int month, int day) {
  return std::chrono::year(year) / std::chrono::month(static_cast<unsigned>(month)) /
         std::chrono::day(static_cast<unsigned>(day));
}

DaySpan span_of(const Reading& reading) {
  const auto [year, month, day] = reading;
  if (day > 0) return {day_of(year, month, day), day_of(year, month, day)};
  return {day_of(year, month, 1), day_of(year, month, days_in(month, year))};
}

}  // namespace

bool is_date(std::string_view text) {
  return !readings_of(text).empty();
}

std::optional<DaySpan> days_of(std::string_view text) {
  std::optional<DaySpan> all;
  for (const Reading& reading : readings_of(text)) {
    const DaySpan one = span_of(reading);
    if (!all) all = one;
    all = DaySpan{std::min(all->first, one.first), std::max(all->last, one.last)};
  }
  return all;
}

bool certainly_after(std::string_view later, std::string_view earlier) {
  const auto late = days_of(later), early = days_of(earlier);
  return late && early && late->first > early->last;
}

}  // namespace rootstead
