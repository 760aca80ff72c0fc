#include "issue/issue.hpp"

#include "engine/aftercare/calendar.hpp"
#include "engine/site/dates.hpp"
#include "engine/submittal/submittal.hpp"
#include "io/whole_file.hpp"
#include "issue/revisions.hpp"
#include "report/crew_sheet.hpp"
#include "report/owner_sheet.hpp"
#include "report/report.hpp"

namespace rootstead::issue {
namespace {

Error no_date(const std::filesystem::path& file) {
  return {Code::missing_measurement, file.string(),
          "the project has no date, so no visit has a day",
          "set one: rootstead set FILE date=2026-03-02"};
}

}  // namespace

Outcome write_calendar(const Site& site, const Advice& advice, const std::filesystem::path& file) {
  const auto made = days_of(site.settings.date);
  if (!made || !advice.monitoring) return no_date(file);
  const CalendarIdentity identity{site.settings.title, made->first};
  ROOTSTEAD_TRY(io::PartFolder part, io::PartFolder::beside(file));
  ROOTSTEAD_CHECK(io::write_bytes(part.file(), calendar_of(*advice.monitoring, site, identity)));
  ROOTSTEAD_TRY(const std::vector<std::filesystem::path> files, part.publish());
  return files.empty() ? Outcome(Error{Code::file_unwritable, file.string(), "nothing was written",
                                       "name another file"})
                       : Outcome(Nothing{});
}

Outcome check_calendar(const Site& site, const std::filesystem::path& file) {
  if (days_of(site.settings.date)) return Nothing{};
  return no_date(file);
}

Result<Advice> advise_project(const Site& site, const Tables& tables, const Assessment& assessment,
                              std::set<std::string> made) {
  AdviceOptions options;
  options.simulation = assessment.simulation;
  options.made = std::move(made);
  return advise(site, tables, assessment, options);
}

Result<Advice> advise_for_report(const Site& site, const Tables& tables,
                                 const Assessment& assessment) {
  ROOTSTEAD_TRY(Advice advice, advise_project(site, tables, assessment));
  const Plan plan{&site, &tables, &assessment, &advice};
  advice.checklist = submittal_checklist(site, tables, assessment, outputs_in_report(plan));
  return advice;
}

std::string without_levels(const Error& error) {
  return "Ground levels: " + error.sentence() + " No work was made from the levels.";
}

namespace {

Outcome write_all(const Plan& plan, const RevisionHistory* history, const ReportOptions& how,
                  const Files& files, const Steps& steps) {
  if (!files.calendar.empty()) ROOTSTEAD_CHECK(check_calendar(*plan.site, files.calendar));
  ROOTSTEAD_CHECK(write_report(plan, how, files.report, steps, history));
  if (!files.crew.empty()) {
    ROOTSTEAD_CHECK(tell(steps, "crew sheet", 0, 1));
    ROOTSTEAD_CHECK(write_crew_sheet(plan, CrewSheetOptions{how.sheet}, files.crew));
  }
  if (!files.owner.empty()) {
    ROOTSTEAD_CHECK(tell(steps, "owner sheet", 0, 1));
    ROOTSTEAD_CHECK(write_owner_sheet(plan, OwnerSheetOptions{how.sheet}, files.owner));
  }
  if (files.calendar.empty()) return Nothing{};
  ROOTSTEAD_CHECK(tell(steps, "calendar", 0, 1));
  return write_calendar(*plan.site, *plan.advice, files.calendar);
}

}  // namespace

Outcome write_files(const Plan& plan, const ReportOptions& how, const Files& files,
                    const Steps& steps) {
  return write_all(plan, nullptr, how, files, steps);
}

Outcome write_files(const Plan& plan, const RevisionHistory& history, const ReportOptions& how,
                    const Files& files, const Steps& steps) {
  return write_all(plan, &history, how, files, steps);
}

}  // namespace rootstead::issue
