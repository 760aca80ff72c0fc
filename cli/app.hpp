// The command line: arguments and printing only.
#pragma once

namespace rootstead::cli {

// Exit codes: 0 done, 1 problems found, 2 wrong use, 3 failed.
int run(int argc, char** argv);

}  // namespace rootstead::cli
