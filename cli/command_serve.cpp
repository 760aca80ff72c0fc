// serve: the workbench of one project, in the browser of this machine.
#include <ostream>

#include "cli/command.hpp"
#include "cli/job.hpp"
#include "serve/server.hpp"

namespace rootstead::cli {
namespace {

constexpr int kUsualPort = 8321, kHighestPort = 65535;

struct ServeCommand {
  ProjectOptions project;
  int port = kUsualPort;
};

Result<Exit> serve_project(const ServeCommand& options, const Console& console) {
  ROOTSTEAD_TRY(OpenProject open, open_to_assess(options.project, console));
  const RootSimulation simulation = simulation_of(open.site.settings);
  ROOTSTEAD_TRY(serve::Desk desk, serve::Desk::open(std::move(open.project), std::move(open.site),
                                                    std::move(open.tables), simulation));
  serve::Server server(std::move(desk));
  ROOTSTEAD_TRY(const int port, server.take_port(options.port));
  console.out << "The workbench is at http://127.0.0.1:" << port
              << " on this machine; end it with Ctrl+C. What you move is saved at once.\n"
              << std::flush;
  server.run();
  return Exit::done;
}

}  // namespace

void add_serve(CLI::App& app, Job& chosen) {
  CLI::App& command = declare(app, "serve", "Open the workbench in the browser of this machine",
                              "rootstead serve mill-lane.gpkg");
  auto options = std::make_shared<ServeCommand>();
  command.add_option("FILE", options->project.file, "Project file")->required();
  command.add_option("--port", options->port, "Port of 127.0.0.1; 0 for any that is free")
      ->check(CLI::Range(0, kHighestPort))
      ->capture_default_str();
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, serve_project);
}

}  // namespace rootstead::cli
