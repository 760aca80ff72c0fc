#include "io/embedded.hpp"

#include <cstdint>

namespace {

// One row of the index that the assembler wrote.
struct Entry {
  const char* name;
  const char* text;
  std::uint64_t size;
};

}  // namespace

extern "C" {
extern const Entry rootstead_embedded_files[];
extern const std::uint64_t rootstead_embedded_count;
}

namespace rootstead::io {

std::vector<EmbeddedFile> embedded_files() {
  std::vector<EmbeddedFile> files;
  for (std::uint64_t i = 0; i < rootstead_embedded_count; ++i) {
    const Entry& entry = rootstead_embedded_files[i];
    files.push_back({entry.name, {entry.text, entry.size}});
  }
  return files;
}

std::optional<std::string_view> embedded_file(std::string_view name) {
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.name == name) return file.text;
  }
  return std::nullopt;
}

}  // namespace rootstead::io
