// export: trees, works, zones and verdicts as data, in the format of the file's ending.
#include <ostream>

#include "cli/command.hpp"
#include "cli/job.hpp"
#include "io/export.hpp"

namespace rootstead::cli {
namespace {

struct ExportOptions {
  ProjectOptions project;
  std::string out;
};

Result<Exit> export_project(const ExportOptions& options, const Console& console) {
  ROOTSTEAD_TRY(const OpenProject open, open_to_assess(options.project, console));
  ROOTSTEAD_TRY(const Assessment assessment, assess_project(open, console));
  ROOTSTEAD_TRY(const io::ExportReport made,
                io::write_export(open.site, assessment, open.tables, options.out));
  for (const auto& file : made.files) console.out << "Made " << file.string() << '\n';
  for (const std::string& warning : made.warnings) console.out << "Note: " << warning << '\n';
  return Exit::done;
}

}  // namespace

void add_export(CLI::App& app, Job& chosen) {
  CLI::App& command = declare(app, "export", "Write trees, works, zones and verdicts as data",
                              "rootstead export mill-lane.gpkg --out mill-lane.dxf");
  auto options = std::make_shared<ExportOptions>();
  take_project(command, options->project.file);
  command
      .add_option("--out", options->out,
                  "File to write; its ending is the format: .dxf .geojson .csv .gpkg .fgb .shp")
      ->required();
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, export_project);
}

}  // namespace rootstead::cli
