// The same test for a project in a file and for one on a server.
#pragma once

#include <gtest/gtest.h>
#include <sqlite3.h>

#include <cctype>

#include "io/project.hpp"
#include "io/team_address.hpp"
#include "tests/io/own_server.hpp"
#include "tests/support/temp_folder.hpp"

namespace rootstead::test {

enum class Store { file, server };

// Where a test keeps its projects: a folder, or names of its own on the server of all tests.
class Place {
 public:
  explicit Place(Store store) : store_(store) {
    static int places = 0;
    number_ = ++places;
  }
  std::filesystem::path operator/(const std::string& name) const {
    if (store_ == Store::file) return folder_ / name;
    std::string project = "p" + std::to_string(number_) + "_";
    for (const char c : name) project += std::isalnum(c) != 0 ? c : '_';
    return shared_server().address(project);
  }

 private:
  TempFolder folder_;
  Store store_;
  int number_ = 0;
};

class EachStore : public testing::TestWithParam<Store> {
 protected:
  void SetUp() override {
    if (GetParam() == Store::server && !shared_server().why_not().empty())
      GTEST_SKIP() << shared_server().why_not();
  }
  bool on_server() const { return GetParam() == Store::server; }
};

inline std::string name_of_store(const testing::TestParamInfo<Store>& info) {
  return info.param == Store::file ? "file" : "server";
}

// Runs SQL on the project by other means, as another program might. The complaint, or the first
// value of the answer.
inline std::string meddle(const std::filesystem::path& project, const std::string& sql) {
  if (io::is_team_address(project.string())) {
    const std::string schema = io::team_address(project.string())->project;
    std::string said = shared_server().sql("SET search_path TO " + schema + ", public; " + sql);
    while (said.ends_with('\n')) said.pop_back();
    return said;
  }
  sqlite3* handle = nullptr;
  sqlite3_open(project.c_str(), &handle);
  char* message = nullptr;
  std::string answer;
  const auto first = [](void* to, int, char** values, char**) {
    auto& text = *static_cast<std::string*>(to);
    if (text.empty() && values[0] != nullptr) text = values[0];
    return 0;
  };
  sqlite3_exec(handle, sql.c_str(), first, &answer, &message);
  if (message != nullptr) answer = message;
  sqlite3_free(message);
  sqlite3_close(handle);
  return answer;
}

}  // namespace rootstead::test
