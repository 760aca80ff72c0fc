#include "cli/app.hpp"

#include <unistd.h>

#include <algorithm>
#include <exception>
#include <iostream>
#include <sstream>

#include "cli/command.hpp"
#include "cli/revision_commands.hpp"

namespace rootstead::cli {
namespace {

constexpr const char* kVersion = "rootstead " ROOTSTEAD_VERSION;

void declare_all(CLI::App& app, Job& chosen) {
  app.name("rootstead");
  app.description("The below-ground workbench of a consulting arborist.");
  app.set_version_flag("--version", kVersion);
  app.set_help_flag("-h,--help", "Print this and stop");
  app.require_subcommand(1);
  app.footer(
      "FILE is a project file or, for a team, pg:HOST/DATABASE/PROJECT on a server.\n"
      "Exit codes: 0 done, 1 problems found, 2 wrong use, 3 failed.\n"
      "Start with: rootstead demo");
  for (auto add : {add_demo,   add_new,     add_add,   add_set,      add_check,  add_assess,
                   add_advise, add_route,   add_ease,  add_methods,  add_why,    add_report,
                   add_issue,  add_compare, add_plans, add_comments, add_export, add_copy,
                   add_screen, add_sure,    add_serve, add_rule,     add_figure}) {
    add(app, chosen);
  }
}

// The innermost command named so far, and its words: "rootstead rule show".
struct Named {
  const CLI::App* command;
  std::string path;
};

Named innermost(const CLI::App& app) {
  Named named{&app, "rootstead"};
  while (!named.command->get_subcommands().empty()) {
    named.command = named.command->get_subcommands().front();
    named.path += " " + named.command->get_name();
  }
  return named;
}

// CLI11 writes messages of several lines for some mistakes; a person gets one sentence.
std::string one_line(std::string text) {
  while (!text.empty() && (text.back() == '\n' || text.back() == '.')) text.pop_back();
  std::replace(text.begin(), text.end(), '\n', ' ');
  return text;
}

// What is wrong with the command line; a misspelt command is named, not called missing.
std::string fault_of(const CLI::App& command, const CLI::ParseError& end) {
  const std::vector<std::string> unknown = command.remaining();
  const bool wants_command = command.get_require_subcommand_min() > 0;
  if (wants_command && !unknown.empty()) return "there is no command \"" + unknown.front() + "\"";
  return one_line(end.what());
}

// Help and version are asked for and go to `out`; mistakes go to `err`.
Exit answer_parse_end(const CLI::App& app, const CLI::ParseError& end, const Console& console) {
  if (end.get_exit_code() == 0) {
    std::ostringstream ignored;
    app.exit(end, console.out, ignored);
    return Exit::done;
  }
  const Named named = innermost(app);
  console.err << named.path << ": " << fault_of(*named.command, end) << "; see `" << named.path
              << " --help`.\n";
  return Exit::wrong_use;
}

Exit run_job(const Job& job, const Console& console) {
  const Result<Exit> result = job(console);
  if (result) return *result;
  console.err << "rootstead: " << result.error().sentence() << '\n';
  return exit_for(result.error());
}

Exit parse_and_run(const std::vector<std::string>& arguments, const Console& console) {
  CLI::App app;
  Job chosen;
  declare_all(app, chosen);
  try {
    std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());  // as CLI11 wants it
    app.parse(std::move(reversed));
  } catch (const CLI::ParseError& end) {
    return answer_parse_end(app, end, console);
  }
  return run_job(chosen, console);
}

// The outer wall: nothing thrown by a library below gets past here.
int run_walled(const std::vector<std::string>& arguments, const Console& console) {
  try {
    const Exit exit = parse_and_run(arguments, console);
    console.out.flush();
    if (console.out) return static_cast<int>(exit);
    console.err << "rootstead: the output could not be written; free space or check the pipe.\n";
  } catch (const std::exception& error) {
    console.err << "rootstead: stopped by an unexpected fault (" << one_line(error.what())
                << "); nothing was half-written, please report it with the command line.\n";
  }
  return static_cast<int>(Exit::failed);
}

}  // namespace

CLI::App& declare(CLI::App& app, const char* name, const char* does, const char* example) {
  CLI::App* command = app.add_subcommand(name, does);
  command->footer(std::string("Example:\n  ") + example);
  return *command;
}

void take_project(CLI::App& command, std::string& address) {
  command.add_option("FILE", address, "Project file, or pg:HOST/DATABASE/PROJECT on a server")
      ->required();
}

int run(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err) {
  return run_walled(arguments, Console{out, err, false});
}

int run(int argc, char** argv) {
  const std::vector<std::string> arguments(argv + std::min(argc, 1), argv + argc);
  return run_walled(arguments, Console{std::cout, std::cerr, isatty(STDERR_FILENO) == 1});
}

}  // namespace rootstead::cli
