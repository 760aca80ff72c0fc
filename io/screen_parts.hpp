// The folder of parts beside an output: one file a block of trees, whole or not there, and a paper
// that says what they are parts of. Private to the screening.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "engine/base/result.hpp"

namespace rootstead::io {

struct PartText {
  std::size_t trees = 0, problems = 0;
  std::vector<std::string> first_problems;  // a sentence each
  std::string rows;                         // lines of CSV
};

class PartsFolder {
 public:
  // Makes the folder, or takes up one of an earlier run. Fails with wrong_use where that was
  // another screening: `what` then differs from its paper.
  static Result<PartsFolder> beside(const std::filesystem::path& folder, const std::string& what);

  bool has(std::size_t block) const;
  Outcome write(std::size_t block, const PartText& part) const;
  Result<PartText> read(std::size_t block) const;
  void remove() const;
  const std::filesystem::path& path() const { return folder_; }

 private:
  explicit PartsFolder(std::filesystem::path folder) : folder_(std::move(folder)) {}
  std::filesystem::path file(std::size_t block) const;
  std::filesystem::path folder_;
};

}  // namespace rootstead::io
