// serve: the workbench of one project, in the browser of this machine.
#include <csignal>
#include <cstdlib>
#include <ctime>
#include <optional>
#include <ostream>
#include <thread>

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

// Ctrl+C ends the server in good order, so that files of its own are taken away: before the project
// is open there are none, and nobody wants to wait for the trees. To be called
// before any thread begins: every later one leaves these signals alone, and one thread waits.
sigset_t hold_signals() {
  sigset_t ending;
  sigemptyset(&ending);
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&ending, signal);
  pthread_sigmask(SIG_BLOCK, &ending, nullptr);
  return ending;
}

std::jthread stop_on(const sigset_t& ending, serve::Server& server, const Console& console) {
  return std::jthread([ending, &server, &console](const std::stop_token& stop) {
    constexpr timespec kLook{0, 200'000'000};
    std::optional<Progress> progress(std::in_place, console, "assessing");
    while (!stop.stop_requested()) {
      const bool end = sigtimedwait(&ending, nullptr, &kLook) > 0;
      const auto [done, all, ready] = server.opened();
      if (end && !ready) std::_Exit(static_cast<int>(Exit::done));
      if (end) return server.stop();
      if (ready) progress.reset();
      if (progress) progress->show(done, all);
    }
  });
}

Result<Exit> serve_project(const ServeCommand& options, const Console& console) {
  ROOTSTEAD_TRY(OpenProject open, open_to_assess(options.project, console));
  const sigset_t ending = hold_signals();
  serve::Server server([&open](serve::Desk::Progress progress) {
    const RootSimulation simulation = simulation_of(open.site.settings);
    return serve::Desk::open(std::move(open.project), open.site, std::move(open.tables), simulation,
                             std::move(progress));
  });
  ROOTSTEAD_TRY(const int port, server.take_port(options.port));
  console.out << "The workbench is at http://127.0.0.1:" << port
              << " on this machine; end it with Ctrl+C. What you move is saved at once.\n"
              << std::flush;
  const std::jthread waiting = stop_on(ending, server, console);
  ROOTSTEAD_CHECK(server.run());
  return Exit::done;
}

}  // namespace

void add_serve(CLI::App& app, Job& chosen) {
  CLI::App& command = declare(app, "serve", "Open the workbench in the browser of this machine",
                              "rootstead serve mill-lane.gpkg");
  auto options = std::make_shared<ServeCommand>();
  take_project(command, options->project.file);
  command.add_option("--port", options->port, "Port of 127.0.0.1; 0 for any that is free")
      ->check(CLI::Range(0, kHighestPort))
      ->capture_default_str();
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, serve_project);
}

}  // namespace rootstead::cli
