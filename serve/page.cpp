#include "serve/page.hpp"

#include <cstdint>
#include <utility>

namespace {

// As laid down by cmake/Embed.cmake.
struct Entry {
  const char* path;
  const char* begin;
  const char* end;
};

}  // namespace

extern "C" {
extern const Entry rootstead_page[];
extern const std::uint64_t rootstead_page_count;
}

namespace rootstead::serve {
namespace {

std::string type_of(std::string_view path) {
  constexpr std::pair<std::string_view, std::string_view> kTypes[] = {
      {".html", "text/html; charset=utf-8"},
      {".js", "text/javascript; charset=utf-8"},
      {".css", "text/css; charset=utf-8"},
      {".json", "application/json"},
      {".svg", "image/svg+xml"},
      {".woff2", "font/woff2"}};
  for (const auto& [ending, type] : kTypes)
    if (path.ends_with(ending)) return std::string(type);
  return "application/octet-stream";
}

}  // namespace

std::optional<PageFile> page_file(std::string_view path) {
  for (std::uint64_t i = 0; i < rootstead_page_count; ++i) {
    const Entry& entry = rootstead_page[i];
    if (path == entry.path)
      return PageFile{{entry.begin, static_cast<std::size_t>(entry.end - entry.begin)},
                      type_of(path)};
  }
  return std::nullopt;
}

}  // namespace rootstead::serve
