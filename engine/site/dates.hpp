// Dates as people write them on site, to tell one from a slip of the pen. They are kept as written.
#pragma once

#include <chrono>
#include <optional>
#include <string_view>

namespace rootstead {

// "2026-11-25", "2026-11", "25.11.2026", "25/11/2026", "11/25/2026", "25 Nov 2026",
// "November 25, 2026": is there such a day, in any of these ways of reading it? Months by number or
// by their first three letters in English, German, French, Spanish or Dutch; years of four digits,
// 1900 to 2199.
bool is_date(std::string_view text);

// The days that such a text may mean: one day, a whole month, or from the earliest to the latest
// reading where day and month could be exchanged ("03/04/2025"). Nothing where it is no date.
struct DaySpan {
  std::chrono::sys_days first, last;
  friend bool operator==(const DaySpan&, const DaySpan&) = default;
};
std::optional<DaySpan> days_of(std::string_view text);

// Is every day that `later` may mean after every day that `earlier` may mean? A text that is no
// date is after nothing and before nothing.
bool certainly_after(std::string_view later, std::string_view earlier);

}  // namespace rootstead
