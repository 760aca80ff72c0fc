// Sources made on the spot for the tests of the readers.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>

#include "io/import.hpp"

namespace rootstead::io {

// A folder of the running test's own, gone afterwards.
class Sources : public ::testing::Test {
 protected:
  void SetUp() override {
    const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
    folder_ = std::filesystem::temp_directory_path() /
              (std::string("rootstead-") + test->test_suite_name() + "-" + test->name());
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  std::filesystem::path write(const std::string& name, const std::string& content) const {
    const auto file = folder_ / name;
    std::ofstream(file, std::ios::binary) << content;
    return file;
  }

  static ReferenceSystem system(const std::string& code = "EPSG:27700") {
    return reference_system(code).value();
  }

  Result<Import> read(const std::string& name, const std::string& content,
                      const ImportOptions& options = {},
                      const std::string& code = "EPSG:27700") const {
    return read_source(write(name, content), options, system(code));
  }

  std::filesystem::path folder_;
};

inline bool says(const Import& import, NoteCode code, const std::string& words = {}) {
  return std::any_of(import.problems.begin(), import.problems.end(), [&](const Problem& p) {
    return p.code == code && p.sentence().find(words) != std::string::npos;
  });
}

inline std::size_t count_of(const Import& import, NoteCode code) {
  return static_cast<std::size_t>(std::count_if(import.problems.begin(), import.problems.end(),
                                                [&](const Problem& p) { return p.code == code; }));
}

inline std::string sentences(const Import& import) {
  std::string all;
  for (const Problem& problem : import.problems) all += problem.sentence() + "\n";
  return all;
}

}  // namespace rootstead::io
