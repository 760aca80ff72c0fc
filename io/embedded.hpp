// The files of data/ inside the program (cmake/Embed.cmake puts them there).
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace rootstead::io {

struct EmbeddedFile {
  std::string_view name;  // relative to data/, e.g. "rules/bs5837-2012.toml"
  std::string_view text;
};

std::vector<EmbeddedFile> embedded_files();  // sorted by name
std::optional<std::string_view> embedded_file(std::string_view name);

}  // namespace rootstead::io
