// Console: where a command prints, and what it may ask of the outside world.
#pragma once

#include <cstddef>
#include <iosfwd>
#include <string>

#include "engine/base/result.hpp"

namespace rootstead::cli {

enum class Exit { done = 0, problems = 1, wrong_use = 2, failed = 3 };

struct Console {
  std::ostream& out;
  std::ostream& err;
  bool terminal = false;  // is `err` a terminal, so that progress may be drawn on it?
};

// Wrong use for what was asked wrongly (codes 200 to 299), failed for everything else.
Exit exit_for(const Error& error);

// A line that rewrites itself while long work goes on; silent unless the console is a terminal and
// the work has lasted longer than half a second. Wiped when it goes out of scope.
class Progress {
 public:
  Progress(const Console& console, std::string what);
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  ~Progress();
  void show(std::size_t done, std::size_t all);

 private:
  const Console& console_;
  std::string what_;
  double started_;
  int percent_ = -1;
};

}  // namespace rootstead::cli
