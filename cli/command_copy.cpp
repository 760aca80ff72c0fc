// copy: a project with all its rows, between a file and a server or the same again.
#include <ostream>

#include "cli/command.hpp"
#include "io/project.hpp"

namespace rootstead::cli {
namespace {

struct CopyOptions {
  std::string from, to;
};

Result<Exit> copy_project(const CopyOptions& options, const Console& console) {
  ROOTSTEAD_TRY(const auto left, io::Project::copy(options.from, options.to));
  console.out << "Made " << options.to << '\n';
  for (const std::string& what : left)
    console.out << "Note: " << what << " is no part of a project and was not copied\n";
  return Exit::done;
}

}  // namespace

void add_copy(CLI::App& app, Job& chosen) {
  CLI::App& command =
      declare(app, "copy", "Copy a project between a file and a server, history and all",
              "rootstead copy mill-lane.gpkg pg:office-server/trees/mill_lane\n"
              "  rootstead copy pg:office-server/trees/mill_lane mill-lane.gpkg");
  auto options = std::make_shared<CopyOptions>();
  command.add_option("FROM", options->from, "Project file, or pg:HOST/DATABASE/PROJECT")
      ->required();
  command.add_option("TO", options->to, "The same for the copy; nothing is there yet")->required();
  when_parsed(command, options, chosen, copy_project);
}

}  // namespace rootstead::cli
