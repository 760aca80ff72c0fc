// report: the signed document as PDF, and what goes out with it.
#include <ostream>

#include "cli/command.hpp"
#include "cli/job.hpp"
#include "issue/issue.hpp"
#include "issue/sheets.hpp"

namespace rootstead::cli {
namespace {

struct ReportCommand {
  ProjectOptions project;
  std::string out;
  std::string sheet = "a3";
  std::string scale;
  std::string crew, owner, calendar;  // files, empty: not asked for
};

void say_made(const ReportCommand& options, std::ostream& out) {
  out << "Made " << options.out << '\n';
  if (!options.crew.empty()) out << "Made " << options.crew << ", to hang up where they dig\n";
  if (!options.owner.empty()) out << "Made " << options.owner << ", for the owner\n";
  if (!options.calendar.empty())
    out << "Made " << options.calendar << ", the visits for a calendar\n";
}

Result<Exit> make_report(const ReportCommand& options, const Console& console) {
  ROOTSTEAD_TRY(const ReportOptions how, issue::report_options(options.sheet, options.scale));
  ROOTSTEAD_TRY(const OpenProject open, open_to_assess(options.project, console));
  if (!options.calendar.empty())
    ROOTSTEAD_CHECK(issue::check_calendar(open.site, options.calendar));
  ROOTSTEAD_TRY(const Assessment assessment, assess_project(open, console));
  ROOTSTEAD_TRY(const Advice advice, issue::advise_for_report(open.site, open.tables, assessment));
  const Plan plan{&open.site, &open.tables, &assessment, &advice};
  ROOTSTEAD_CHECK(
      issue::write_files(plan, how, {options.out, options.crew, options.owner, options.calendar}));
  say_made(options, console.out);
  return Exit::done;
}

}  // namespace

void add_report(CLI::App& app, Job& chosen) {
  CLI::App& command =
      declare(app, "report", "Write the report with plan, schedule and trails as PDF",
              "rootstead report mill-lane.gpkg --out mill-lane.pdf --sheet a1 --scale 1:200\n"
              "  rootstead report mill-lane.gpkg --out mill-lane.pdf --crew crew.pdf --owner "
              "owner.pdf --calendar visits.ics");
  auto options = std::make_shared<ReportCommand>();
  command.add_option("FILE", options->project.file, "Project file")->required();
  command.add_option("--out", options->out, "PDF to write")->required();
  command.add_option("--sheet", options->sheet, "Sheet of the plan drawing")
      ->check(CLI::IsMember(issue::sheet_names()))
      ->capture_default_str();
  command.add_option("--scale", options->scale,
                     "Scale of the plan, e.g. 1:200; the largest usual one that fits if not given");
  command.add_option("--crew", options->crew, "PDF to write: one sheet for those who dig");
  command.add_option("--owner", options->owner, "PDF to write: one sheet for the owner");
  command.add_option("--calendar", options->calendar, "Calendar of the visits to write, .ics");
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, make_report);
}

}  // namespace rootstead::cli
