// Visits as an iCalendar file (RFC 5545), as text. The same plan gives the same bytes: no clock.
#pragma once

#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "engine/aftercare/monitoring.hpp"

namespace rootstead {

struct CalendarIdentity {
  std::string project;  // of the title block; part of every UID, so keep it from issue to issue
  std::chrono::sys_days made;  // DTSTAMP: the project's date
};

// Dated visits as whole-day VEVENTs, hold points without a day as VTODOs. CRLF line ends, lines of
// at most 75 octets, text escaped.
std::string calendar_of(const MonitoringPlan& plan, const Site& site,
                        const CalendarIdentity& identity);

// The two rules of RFC 5545 3.1 and 3.3.11 that everything else rests on.
std::string calendar_text(std::string_view text);     // escaped: \ ; , and line breaks
std::string folded_line(std::string_view line);       // CRLF blank between, CRLF at the end
std::string unfolded_lines(std::string_view folded);  // back again

}  // namespace rootstead
