// Files appear whole or not at all: they are written in a hidden folder beside their place and
// moved when complete. A killed program leaves the hidden folder (.NAME.part-XXXXXX), never a part
// of the file itself.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/result.hpp"

namespace rootstead::io {

class PartFolder {
 public:
  // A folder for the making of `target`. Fails with file_unwritable where the folder of `target`
  // is missing or closed to us.
  static Result<PartFolder> beside(const std::filesystem::path& target);

  std::filesystem::path file() const;  // where to write the target
  const std::filesystem::path& folder() const { return folder_; }

  // Moves every file of the folder to its place, replacing what was there; the target itself last.
  // Gives their names, the target first.
  Result<std::vector<std::filesystem::path>> publish();
  // The same for a folder of one file, but fails with file_unwritable where the target exists.
  Outcome publish_new();

  PartFolder(PartFolder&& other) noexcept;
  PartFolder& operator=(PartFolder&&) = delete;
  ~PartFolder();  // removes what was not published

 private:
  PartFolder(std::filesystem::path folder, std::filesystem::path target)
      : folder_(std::move(folder)), target_(std::move(target)) {}
  std::filesystem::path folder_, target_;
};

// Is there a file with something in it to read? Fails with file_not_found, file_unreadable or
// format_broken.
Outcome check_file(const std::filesystem::path& file);

// The bytes as one file, safely on the disk (fsync).
Outcome write_bytes(const std::filesystem::path& file, std::string_view bytes);

}  // namespace rootstead::io
