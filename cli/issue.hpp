// What is issued besides the report: sheets for the crew and the owner, the calendar of visits.
#pragma once

#include <filesystem>

#include "cli/job.hpp"

namespace rootstead::cli {

// The calendar of the visits of `advice`, as iCalendar. Fails with missing_measurement where the
// project has no date to count from.
Outcome write_calendar(const OpenProject& open, const Advice& advice,
                       const std::filesystem::path& file);

// Whether write_calendar() will have a date to count from, before anything is written.
Outcome check_calendar(const OpenProject& open, const std::filesystem::path& file);

// The advice of the report, its submittal checklist answered by what the report really holds.
Result<Advice> advise_for_report(const OpenProject& open, const Assessment& assessment);

}  // namespace rootstead::cli
