// The command line: arguments and printing only. Everything it says comes from engine, io or
// report.
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace rootstead::cli {

// Runs one command line, without the program's name: {"assess", "site.gpkg", "--json"}.
// Exit codes: 0 done, 1 problems found, 2 wrong use, 3 failed. Never throws. No progress is shown.
int run(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err);

// The same for main(): standard streams, and progress where standard error is a terminal.
int run(int argc, char** argv);

}  // namespace rootstead::cli
