// check: every problem of a project, one a line, with its subject and what to do.
#include <algorithm>
#include <ostream>

#include "cli/command.hpp"
#include "cli/job.hpp"
#include "io/json.hpp"

namespace rootstead::cli {
namespace {

struct CheckOptions {
  ProjectOptions project;
  bool json = false;
};

void print_lines(const std::vector<Problem>& problems, std::ptrdiff_t blocking, std::ostream& out) {
  for (const Problem& problem : problems) {
    out << (problem.blocks ? "blocks  " : "look    ") << problem.sentence() << '\n';
  }
  out << counted(problems.size(), "problem", "problems") << ", " << blocking
      << " of them blocking.\n";
}

void print_json(const std::vector<Problem>& problems, std::ostream& out) {
  io::Json list = io::Json::array();
  for (const Problem& problem : problems) list.push_back(io::to_json(problem));
  out << io::written({{"problems", std::move(list)}});
}

Result<Exit> check_project(const CheckOptions& options, const Console& console) {
  ROOTSTEAD_TRY(const OpenProject open, open_project(options.project, console));
  const std::vector<Problem> problems = all_problems(open.project, open.site, open.tables);
  const auto blocking = std::count_if(problems.begin(), problems.end(),
                                      [](const Problem& problem) { return problem.blocks; });
  options.json ? print_json(problems, console.out) : print_lines(problems, blocking, console.out);
  return blocking > 0 ? Exit::problems : Exit::done;
}

}  // namespace

void add_check(CLI::App& app, Job& chosen) {
  CLI::App& command =
      declare(app, "check", "List every problem of a project; exit code 1 if any blocks",
              "rootstead check mill-lane.gpkg");
  auto options = std::make_shared<CheckOptions>();
  take_project(command, options->project.file);
  command.add_flag("--json", options->json, "Print JSON (docs/formats/json.md)");
  when_parsed(command, options, chosen, check_project);
}

}  // namespace rootstead::cli
