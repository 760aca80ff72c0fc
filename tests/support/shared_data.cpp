#include "tests/support/shared_data.hpp"

#include <cstdlib>
#include <string>

namespace rootstead::test {

std::optional<std::filesystem::path> shared_data(std::string_view name) {
  const char* folder = std::getenv("ROOTSTEAD_SHARED_DATA");
  if (folder == nullptr) return std::nullopt;
  std::filesystem::path file = std::filesystem::path(folder) / name;
  if (!std::filesystem::exists(file)) return std::nullopt;
  return file;
}

std::filesystem::path source_dir() {
  const char* folder = std::getenv("ROOTSTEAD_SOURCE_DIR");
  return folder == nullptr ? std::filesystem::current_path() : std::filesystem::path(folder);
}

}  // namespace rootstead::test
