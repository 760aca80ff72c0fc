// report: the signed document as PDF, and what goes out with it.
#include <ostream>

#include "cli/command.hpp"
#include "cli/job.hpp"
#include "cli/revision_commands.hpp"
#include "issue/issue.hpp"
#include "issue/sheets.hpp"

namespace rootstead::cli {
namespace {

struct ReportCommand {
  ProjectOptions project;
  std::string out;
  std::string sheet = "a3";
  std::string scale;
  std::string of;                     // revision, empty: as it is now
  std::string crew, owner, calendar;  // files, empty: not asked for
};

void say_made(const ReportCommand& options, std::ostream& out) {
  out << "Made " << options.out << '\n';
  if (!options.crew.empty()) out << "Made " << options.crew << ", to hang up where they dig\n";
  if (!options.owner.empty()) out << "Made " << options.owner << ", for the owner\n";
  if (!options.calendar.empty())
    out << "Made " << options.calendar << ", the visits for a calendar\n";
}

// Ground levels that do not compare stop nothing, but are told.
void say_doubts(const issue::State& state, const Console& console) {
  for (const std::string& caution : state.assessment.cautions)
    if (caution.starts_with("Ground levels: ")) console.err << caution << '\n';
  for (const std::string& otherwise : state.made_otherwise) console.err << otherwise << '\n';
}

Result<issue::State> state_asked_for(const ReportCommand& options, const Tables& tables,
                                     const Console& console) {
  Progress progress(console, "assessing");
  const issue::Maker maker =
      this_program([&](std::size_t done, std::size_t all) { progress.show(done, all); });
  if (options.of.empty()) return issue::present_state(options.project.file, tables, maker);
  return issue::issued_state(options.project.file, options.of, tables, maker);
}

Result<Exit> make_report(const ReportCommand& options, const Console& console) {
  ROOTSTEAD_TRY(const ReportOptions how, issue::report_options(options.sheet, options.scale));
  ROOTSTEAD_TRY(const OpenProject open, open_project(options.project, console));
  if (!options.calendar.empty())
    ROOTSTEAD_CHECK(issue::check_calendar(open.site, options.calendar));
  const Tables& tables = open.tables;
  ROOTSTEAD_TRY(const issue::State state, state_asked_for(options, tables, console));
  say_doubts(state, console);
  ROOTSTEAD_TRY(const Advice advice,
                issue::advise_for_report(state.site, tables, state.assessment));
  const Plan plan{&state.site, &tables, &state.assessment, &advice};
  ROOTSTEAD_CHECK(issue::write_files(plan, state.history, how,
                                     {options.out, options.crew, options.owner, options.calendar}));
  say_made(options, console.out);
  return Exit::done;
}

}  // namespace

void add_report(CLI::App& app, Job& chosen) {
  CLI::App& command =
      declare(app, "report", "Write the report with plan, schedule and trails as PDF",
              "rootstead report mill-lane.gpkg --out mill-lane.pdf --sheet a1 --scale 1:200\n"
              "  rootstead report mill-lane.gpkg --out mill-lane.pdf --crew crew.pdf --owner "
              "owner.pdf --calendar visits.ics\n"
              "  rootstead report mill-lane.gpkg --of A --out mill-lane-A.pdf");
  auto options = std::make_shared<ReportCommand>();
  take_project(command, options->project.file);
  command.add_option("--out", options->out, "PDF to write")->required();
  command.add_option("--sheet", options->sheet, "Sheet of the plan drawing")
      ->check(CLI::IsMember(issue::sheet_names()))
      ->capture_default_str();
  command.add_option("--scale", options->scale,
                     "Scale of the plan, e.g. 1:200; the largest usual one that fits if not given");
  command.add_option("--of", options->of,
                     "Revision that was issued; the project as it is now if not "
                     "given");
  command.add_option("--crew", options->crew, "PDF to write: one sheet for those who dig");
  command.add_option("--owner", options->owner, "PDF to write: one sheet for the owner");
  command.add_option("--calendar", options->calendar, "Calendar of the visits to write, .ics");
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, make_report);
}

}  // namespace rootstead::cli
