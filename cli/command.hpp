// Commands: each file command_NAME.cpp declares one command's arguments and does its work.
//
// Declaring is done by add_NAME(app, chosen); when the command line names that command, the parser
// puts its job into `chosen`, and app.cpp runs it inside the outer wall.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>

#include "cli/console.hpp"

namespace rootstead::cli {

using Job = std::function<Result<Exit>(const Console&)>;

void add_demo(CLI::App& app, Job& chosen);
void add_new(CLI::App& app, Job& chosen);
void add_add(CLI::App& app, Job& chosen);
void add_set(CLI::App& app, Job& chosen);
void add_check(CLI::App& app, Job& chosen);
void add_assess(CLI::App& app, Job& chosen);
void add_advise(CLI::App& app, Job& chosen);
void add_route(CLI::App& app, Job& chosen);
void add_ease(CLI::App& app, Job& chosen);
void add_methods(CLI::App& app, Job& chosen);
void add_why(CLI::App& app, Job& chosen);
void add_report(CLI::App& app, Job& chosen);
void add_export(CLI::App& app, Job& chosen);
void add_screen(CLI::App& app, Job& chosen);
void add_serve(CLI::App& app, Job& chosen);
void add_rule(CLI::App& app, Job& chosen);
void add_copy(CLI::App& app, Job& chosen);
void add_figure(CLI::App& app, Job& chosen);
void add_sure(CLI::App& app, Job& chosen);

// A command with its one-line description and an example for --help.
CLI::App& declare(CLI::App& app, const char* name, const char* does, const char* example);

// FILE: where the project is.
void take_project(CLI::App& command, std::string& address);

// Makes `job(options, console)` the chosen job once `command` has been parsed.
template <class Options, class Function>
void when_parsed(CLI::App& command, std::shared_ptr<Options> options, Job& chosen, Function job) {
  command.callback([options = std::move(options), &chosen, job] {
    chosen = [options, job](const Console& console) { return job(*options, console); };
  });
}

}  // namespace rootstead::cli
