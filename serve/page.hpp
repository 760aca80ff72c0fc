// The files of the page, inside the program (cmake/Embed.cmake puts them there).
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace rootstead::serve {

struct PageFile {
  std::string_view bytes;
  std::string type;  // of HTTP, by the ending
};

// By its path: "index.html", "assets/index-1a2b.js". Only what was built in is found.
std::optional<PageFile> page_file(std::string_view path);

}  // namespace rootstead::serve
