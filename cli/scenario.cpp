#include "cli/scenario.hpp"

#include <cstdint>
#include <fstream>
#include <system_error>

namespace {

// As laid down by cmake/Embed.cmake.
struct EmbeddedFile {
  const char* path;
  const char* begin;
  const char* end;
};

}  // namespace

extern "C" {
extern const EmbeddedFile rootstead_scenario[];
extern const std::uint64_t rootstead_scenario_count;
}

namespace rootstead::cli {
namespace {

Error unwritable(const std::filesystem::path& path) {
  return Error{Code::file_unwritable, path.string(), "it cannot be written",
               "name a folder you may write to with --out"};
}

}  // namespace

std::vector<ScenarioFile> scenario_files() {
  std::vector<ScenarioFile> files;
  for (std::uint64_t i = 0; i < rootstead_scenario_count; ++i) {
    const EmbeddedFile& file = rootstead_scenario[i];
    files.push_back({file.path, {file.begin, static_cast<std::size_t>(file.end - file.begin)}});
  }
  return files;
}

Outcome write_scenario(const std::filesystem::path& folder) {
  std::error_code fault;
  std::filesystem::create_directories(folder, fault);
  if (fault) return unwritable(folder);
  for (const ScenarioFile& file : scenario_files()) {
    const std::filesystem::path path = folder / file.name;
    std::ofstream stream(path, std::ios::binary | std::ios::trunc);
    stream.write(file.bytes.data(), static_cast<std::streamsize>(file.bytes.size()));
    stream.close();
    if (!stream) return unwritable(path);
  }
  return Nothing{};
}

}  // namespace rootstead::cli
