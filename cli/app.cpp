#include "cli/app.hpp"

#include <cstdio>

namespace rootstead::cli {

int run(int, char**) {
  std::fputs("rootstead 0.1.0\n", stdout);
  return 0;
}

}  // namespace rootstead::cli
