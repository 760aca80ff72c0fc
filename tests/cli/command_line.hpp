// Helpers of the command-line tests: run a command in this process, in a folder of its own.
#pragma once

#include <sys/types.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace rootstead::test {

struct Ran {
  int exit = -1;
  std::string out;
  std::string err;
  nlohmann::json json() const;  // of `out`; discarded() where it is none
};

Ran run(const std::vector<std::string>& arguments);

// Starts the program itself in a process of its own, silent, for tests that kill it.
pid_t start_program(const std::vector<std::string>& arguments);

// A folder made for one test and removed after it.
class OwnFolder {
 public:
  OwnFolder();
  OwnFolder(const OwnFolder&) = delete;
  OwnFolder& operator=(const OwnFolder&) = delete;
  ~OwnFolder();
  std::string operator/(std::string_view name) const;
  std::string write(std::string_view name, std::string_view text) const;  // the path
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

// A file of examples/salt-walk.
std::string example(std::string_view name);

// A project of three trees (one a palm) and one trench, on EPSG:32632. The path.
std::string small_project(const OwnFolder& folder);

}  // namespace rootstead::test
