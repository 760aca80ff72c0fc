// report: the signed document as PDF.
#include <ostream>

#include "cli/command.hpp"
#include "cli/job.hpp"
#include "cli/sheets.hpp"
#include "report/report.hpp"

namespace rootstead::cli {
namespace {

struct ReportCommand {
  ProjectOptions project;
  std::string out;
  std::string sheet = "a3";
  std::string scale;
};

Result<Exit> make_report(const ReportCommand& options, const Console& console) {
  ROOTSTEAD_TRY(const ReportOptions how, report_options(options.sheet, options.scale));
  ROOTSTEAD_TRY(const OpenProject open, open_project(options.project, console));
  ROOTSTEAD_TRY(const Assessment assessment, assess_project(open, console));
  ROOTSTEAD_CHECK(write_report(Plan{&open.site, &open.tables, &assessment}, how, options.out));
  console.out << "Made " << options.out << '\n';
  return Exit::done;
}

}  // namespace

void add_report(CLI::App& app, Job& chosen) {
  CLI::App& command =
      declare(app, "report", "Write the report with plan, schedule and trails as PDF",
              "rootstead report mill-lane.gpkg --out mill-lane.pdf --sheet a1 --scale 1:200");
  auto options = std::make_shared<ReportCommand>();
  command.add_option("FILE", options->project.file, "Project file")->required();
  command.add_option("--out", options->out, "PDF to write")->required();
  command.add_option("--sheet", options->sheet, "Sheet of the plan drawing")
      ->check(CLI::IsMember(sheet_names()))
      ->capture_default_str();
  command.add_option("--scale", options->scale,
                     "Scale of the plan, e.g. 1:200; the largest usual one that fits if not given");
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, make_report);
}

}  // namespace rootstead::cli
