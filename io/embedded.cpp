#include "io/embedded.hpp"

#include <cstdint>

namespace {

// One row of the index that the assembler wrote.
struct Entry {
  const char* name;
  const char* begin;
  const char* end;
};

}  // namespace

extern "C" {
extern const Entry rootstead_data[];
extern const std::uint64_t rootstead_data_count;
}

namespace rootstead::io {

std::vector<EmbeddedFile> embedded_files() {
  std::vector<EmbeddedFile> files;
  for (std::uint64_t i = 0; i < rootstead_data_count; ++i) {
    const Entry& entry = rootstead_data[i];
    files.push_back({entry.name, {entry.begin, entry.end}});
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
