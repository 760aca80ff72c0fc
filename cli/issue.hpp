// What is issued besides the report: sheets for the crew and the owner, the calendar of visits.
#pragma once

#include <filesystem>
#include <set>
#include <string>

#include "cli/job.hpp"

namespace rootstead::cli {

// The calendar of the visits of `advice`, as iCalendar. Fails with missing_measurement where the
// project has no date to count from.
Outcome write_calendar(const OpenProject& open, const Advice& advice,
                       const std::filesystem::path& file);

// What a submittal of the report holds, by the names of submittal_outputs(); with the calendar of
// visits where one is made.
std::set<std::string> outputs_issued(bool calendar);

}  // namespace rootstead::cli
