#include "cli/issue.hpp"

#include "engine/aftercare/calendar.hpp"
#include "engine/site/dates.hpp"
#include "engine/submittal/submittal.hpp"
#include "io/whole_file.hpp"
#include "report/report.hpp"

namespace rootstead::cli {
namespace {

Error no_date(const std::filesystem::path& file) {
  return {Code::missing_measurement, file.string(),
          "the project has no date, so no visit has a day",
          "set one: rootstead set FILE date=2026-03-02"};
}

}  // namespace

Outcome write_calendar(const OpenProject& open, const Advice& advice,
                       const std::filesystem::path& file) {
  const auto made = days_of(open.site.settings.date);
  if (!made || !advice.monitoring) return no_date(file);
  const CalendarIdentity identity{open.site.settings.title, made->first};
  ROOTSTEAD_TRY(io::PartFolder part, io::PartFolder::beside(file));
  ROOTSTEAD_CHECK(
      io::write_bytes(part.file(), calendar_of(*advice.monitoring, open.site, identity)));
  ROOTSTEAD_TRY(const std::vector<std::filesystem::path> files, part.publish());
  return files.empty() ? Outcome(Error{Code::file_unwritable, file.string(), "nothing was written",
                                       "name another file"})
                       : Outcome(Nothing{});
}

Outcome check_calendar(const OpenProject& open, const std::filesystem::path& file) {
  if (days_of(open.site.settings.date)) return Nothing{};
  return no_date(file);
}

Result<Advice> advise_for_report(const OpenProject& open, const Assessment& assessment) {
  ROOTSTEAD_TRY(Advice advice, advise_project(open, assessment));
  const Plan plan{&open.site, &open.tables, &assessment, &advice};
  advice.checklist =
      submittal_checklist(open.site, open.tables, assessment, outputs_in_report(plan));
  return advice;
}

}  // namespace rootstead::cli
