#include "io/embedded.hpp"

extern "C" {
extern const rootstead::io::EmbeddedEntry rootstead_data[];
extern const std::uint64_t rootstead_data_count;
}

namespace rootstead::io {

std::vector<EmbeddedFile> files_of(const EmbeddedEntry* entries, std::uint64_t count) {
  std::vector<EmbeddedFile> files;
  for (std::uint64_t i = 0; i < count; ++i)
    files.push_back({entries[i].name, {entries[i].begin, entries[i].end}});
  return files;
}

std::optional<std::string_view> file_of(const EmbeddedEntry* entries, std::uint64_t count,
                                        std::string_view name) {
  for (const EmbeddedFile& file : files_of(entries, count))
    if (file.name == name) return file.text;
  return std::nullopt;
}

std::vector<EmbeddedFile> embedded_files() {
  return files_of(rootstead_data, rootstead_data_count);
}

std::optional<std::string_view> embedded_file(std::string_view name) {
  return file_of(rootstead_data, rootstead_data_count, name);
}

}  // namespace rootstead::io
