// What is issued besides the report: sheets for the crew and the owner, the calendar of visits.
#pragma once

#include <filesystem>
#include <optional>
#include <set>

#include "report/plan.hpp"
#include "report/steps.hpp"

namespace rootstead::issue {

// The calendar of the visits of `advice`, as iCalendar. Fails with missing_measurement where the
// project has no date to count from.
Outcome write_calendar(const Site& site, const Advice& advice, const std::filesystem::path& file);

// Whether write_calendar() will have a date to count from, before anything is written.
Outcome check_calendar(const Site& site, const std::filesystem::path& file);

// All that is to be done. `made`: outputs that belong to this submittal, see AdviceOptions.
Result<Advice> advise_project(const Site& site, const Tables& tables, const Assessment& assessment,
                              std::set<std::string> made = {});

// The advice of the report, its submittal checklist answered by what the report really holds.
Result<Advice> advise_for_report(const Site& site, const Tables& tables,
                                 const Assessment& assessment);

// What a report says of ground levels that were left out, because they do not compare.
std::string without_levels(const Error& error);

struct Files {
  std::filesystem::path report;
  std::filesystem::path crew, owner, calendar;  // empty: not asked for
};

// The report and what goes out with it, of a plan with advice. Fails with missing_measurement
// before anything is written where a calendar is asked for without a date.
Outcome write_files(const Plan& plan, const ReportOptions& how, const Files& files,
                    const Steps& steps = {});

}  // namespace rootstead::issue
