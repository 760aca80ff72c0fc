// Files inside the program (cmake/Embed.cmake puts them there): those of data/, and those of any
// other room that embeds some.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace rootstead::io {

struct EmbeddedFile {
  std::string_view name;  // relative to the folder, e.g. "rules/bs5837-2012.toml"
  std::string_view text;  // its bytes, whatever they are
};

// One row of the index that the assembler wrote: a room declares its own two symbols by it.
struct EmbeddedEntry {
  const char* name;
  const char* begin;
  const char* end;
};
std::vector<EmbeddedFile> files_of(const EmbeddedEntry* entries, std::uint64_t count);
std::optional<std::string_view> file_of(const EmbeddedEntry* entries, std::uint64_t count,
                                        std::string_view name);

// Of data/, sorted by name.
std::vector<EmbeddedFile> embedded_files();
std::optional<std::string_view> embedded_file(std::string_view name);

}  // namespace rootstead::io
