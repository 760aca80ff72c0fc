#include "serve/sent_file.hpp"

#include <stdlib.h>

#include <algorithm>

#include "io/whole_file.hpp"
#include "serve/base64.hpp"

namespace rootstead::serve {
namespace {

namespace fs = std::filesystem;
using io::Json;

constexpr std::size_t kLongestName = 100;   // bytes; file systems take 255
constexpr std::size_t kLongestEnding = 12;  // ".geojsonl" and the like

bool means_something(char letter) {
  constexpr std::string_view kMeaning = "<>:\"|?*/\\";
  const auto code = static_cast<unsigned char>(letter);
  return code < 0x20 || code == 0x7f || kMeaning.find(letter) != std::string_view::npos;
}

bool is_inside_letter(char byte) {
  return (static_cast<unsigned char>(byte) & 0xc0U) == 0x80;
}

// Shortened before its ending, never within a letter of UTF-8.
std::string shortened(const std::string& name) {
  if (name.size() <= kLongestName) return name;
  const auto dot = name.rfind('.');
  std::string ending = dot == std::string::npos ? "" : name.substr(dot);
  if (ending.size() > kLongestEnding) ending.clear();
  std::size_t cut = kLongestName - ending.size();
  while (cut > 0 && is_inside_letter(name[cut])) --cut;
  return name.substr(0, cut) + ending;
}

Error unsent(const std::string& message) {
  return {Code::wrong_use, "the file", message, "choose it again"};
}

Result<fs::path> private_folder() {
  std::error_code failed;
  const fs::path place = fs::temp_directory_path(failed);
  std::string name = (place / "rootstead-XXXXXX").string();
  if (!failed && ::mkdtemp(name.data()) != nullptr) return fs::path(name);
  return Error{Code::file_unwritable, "the folder for passing files", "it cannot be written to",
               "make room on the disk, or name another one in TMPDIR"};
}

}  // namespace

std::string safe_file_name(const std::string& name) {
  std::string base = name.substr(name.find_last_of("/\\") + 1);
  base.erase(std::remove_if(base.begin(), base.end(), means_something), base.end());
  const auto first = base.find_first_not_of(". ");
  if (first == std::string::npos) return {};
  base.erase(0, first);
  base.erase(base.find_last_not_of(". ") + 1);
  return shortened(base);
}

bool is_too_large(const Json& sent) {
  if (!sent.is_object() || !sent.contains("base64") || !sent["base64"].is_string()) return false;
  const auto& text = sent["base64"].get_ref<const std::string&>();
  const std::size_t padded = text.ends_with("==") ? 2 : text.ends_with("=") ? 1 : 0;
  return text.size() / 4 * 3 > kMostFileBytes + padded;
}

Result<SentFile> SentFile::from(const Json& sent) {
  const bool whole = sent.is_object() && sent.size() == 2 && sent.contains("name") &&
                     sent.contains("base64") && sent["name"].is_string() &&
                     sent["base64"].is_string();
  if (!whole) return unsent("it did not arrive as a name with base64");
  const std::string name = safe_file_name(sent["name"].get<std::string>());
  if (name.empty()) return unsent("it has no name");
  const auto bytes = from_base64(sent["base64"].get_ref<const std::string&>());
  if (!bytes) return unsent("it did not arrive whole");
  ROOTSTEAD_TRY(const fs::path folder, private_folder());
  SentFile file(folder / name);  // from here on the folder goes with it
  ROOTSTEAD_CHECK(io::write_bytes(file.path(), *bytes));
  return file;
}

SentFile::SentFile(SentFile&& other) noexcept : path_(std::move(other.path_)) {
  other.path_.clear();
}

SentFile::~SentFile() {
  std::error_code ignored;
  if (!path_.empty()) fs::remove_all(path_.parent_path(), ignored);
}

}  // namespace rootstead::serve
