#include "serve/page.hpp"

#include <utility>

#include "io/embedded.hpp"

extern "C" {
extern const rootstead::io::EmbeddedEntry rootstead_page[];
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
  const auto bytes = io::file_of(rootstead_page, rootstead_page_count, path);
  if (!bytes) return std::nullopt;
  return PageFile{*bytes, type_of(path)};
}

}  // namespace rootstead::serve
