#include "cli/issue.hpp"

#include "engine/aftercare/calendar.hpp"
#include "engine/site/dates.hpp"
#include "io/whole_file.hpp"

namespace rootstead::cli {

Outcome write_calendar(const OpenProject& open, const Advice& advice,
                       const std::filesystem::path& file) {
  const auto made = days_of(open.site.settings.date);
  if (!made || !advice.monitoring) {
    return Error{Code::missing_measurement, file.string(),
                 "the project has no date, so no visit has a day",
                 "set one: rootstead set FILE date=2026-03-02"};
  }
  const CalendarIdentity identity{open.site.settings.title, made->first};
  ROOTSTEAD_TRY(io::PartFolder part, io::PartFolder::beside(file));
  ROOTSTEAD_CHECK(
      io::write_bytes(part.file(), calendar_of(*advice.monitoring, open.site, identity)));
  ROOTSTEAD_TRY(const std::vector<std::filesystem::path> files, part.publish());
  return files.empty() ? Outcome(Error{Code::file_unwritable, file.string(), "nothing was written",
                                       "name another file"})
                       : Outcome(Nothing{});
}

std::set<std::string> outputs_issued(bool calendar) {
  std::set<std::string> outputs{"report", "tree schedule", "plan sheet", "protection plan"};
  if (calendar) outputs.insert("inspection schedule");
  return outputs;
}

}  // namespace rootstead::cli
