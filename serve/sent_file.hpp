// SentFile: a file that the page sent, in a folder of its own that no other user may look into,
// while it lives.
#pragma once

#include <filesystem>
#include <string>

#include "engine/base/result.hpp"
#include "io/json.hpp"

namespace rootstead::serve {

inline constexpr std::size_t kMostFileBytes = 25'000'000;  // decoded; our assumption

// The last part of a name, without letters that mean something to a file system, short enough and
// with its ending: "../a/Plan 2.dxf" gives "Plan 2.dxf". Empty where nothing is left of it.
std::string safe_file_name(const std::string& name);

// Would the file be larger than kMostFileBytes? `sent` as the page sends it.
bool is_too_large(const io::Json& sent);

class SentFile {
 public:
  // Fails with wrong_use (not a file as the page sends it) or file_unwritable.
  static Result<SentFile> from(const io::Json& sent);

  const std::filesystem::path& path() const { return path_; }
  std::string name() const { return path_.filename().string(); }

  SentFile(SentFile&& other) noexcept;
  SentFile& operator=(SentFile&&) = delete;
  ~SentFile();

 private:
  explicit SentFile(std::filesystem::path path) : path_(std::move(path)) {}
  std::filesystem::path path_;
};

}  // namespace rootstead::serve
