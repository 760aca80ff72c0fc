#include "cli/scenario.hpp"

#include <fstream>
#include <system_error>

#include "io/embedded.hpp"

extern "C" {
extern const rootstead::io::EmbeddedEntry rootstead_scenario[];
extern const std::uint64_t rootstead_scenario_count;
}

namespace rootstead::cli {
namespace {

Error unwritable(const std::filesystem::path& path) {
  return Error{Code::file_unwritable, path.string(), "it cannot be written",
               "name a folder you may write to with --out"};
}

}  // namespace

Outcome write_scenario(const std::filesystem::path& folder) {
  std::error_code fault;
  std::filesystem::create_directories(folder, fault);
  if (fault) return unwritable(folder);
  for (const auto& file : io::files_of(rootstead_scenario, rootstead_scenario_count)) {
    const std::filesystem::path path = folder / file.name;
    std::ofstream stream(path, std::ios::binary | std::ios::trunc);
    stream.write(file.text.data(), static_cast<std::streamsize>(file.text.size()));
    stream.close();
    if (!stream) return unwritable(path);
  }
  return Nothing{};
}

}  // namespace rootstead::cli
