#include "io/screen_parts.hpp"

#include <unistd.h>

#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/whole_file.hpp"

namespace rootstead::io {
namespace {

namespace fs = std::filesystem;
constexpr const char* kPaper = "what.txt";

// Under a name of its own and then moved: a part is whole or not there, whoever else writes it too.
Outcome write_whole(const fs::path& file, const std::string& text) {
  fs::path draft = file;
  draft += ".draft-" + std::to_string(::getpid());
  ROOTSTEAD_CHECK(write_bytes(draft, text));
  std::error_code failed;
  fs::rename(draft, file, failed);
  if (!failed) return Nothing{};
  return Error{Code::file_unwritable, file.string(), "cannot be written (" + failed.message() + ")",
               "check the folder and its space"};
}

std::string first_difference(const std::string& was, const std::string& is) {
  const std::vector<std::string> before = split(was, '\n'), now = split(is, '\n');
  for (std::size_t i = 0; i < std::max(before.size(), now.size()); ++i) {
    const std::string a = i < before.size() ? before[i] : "", b = i < now.size() ? now[i] : "";
    if (a != b) return "\"" + a + "\" there, \"" + b + "\" now";
  }
  return "";
}

}  // namespace

Result<PartsFolder> PartsFolder::beside(const fs::path& folder, const std::string& what) {
  std::error_code failed;
  fs::create_directories(folder, failed);
  if (failed)
    return Error{Code::file_unwritable, folder.string(),
                 "the folder of parts cannot be made (" + failed.message() + ")",
                 "check the folder of the output, its permissions and the space on the disk"};
  const fs::path paper = folder / kPaper;
  if (!fs::exists(paper)) ROOTSTEAD_CHECK(write_whole(paper, what));
  ROOTSTEAD_TRY(const std::string was, read_bytes(paper));
  if (was != what)
    return Error{Code::wrong_use, folder.string(),
                 "parts of another screening lie here (" + first_difference(was, what) + ")",
                 "remove the folder to begin anew, or choose another --out"};
  return PartsFolder(folder);
}

fs::path PartsFolder::file(std::size_t block) const {
  std::string number = std::to_string(block);
  number.insert(0, number.size() < 7 ? 7 - number.size() : 0, '0');
  return folder_ / ("block-" + number + ".csv");
}

bool PartsFolder::has(std::size_t block) const {
  std::error_code ignored;
  return fs::exists(file(block), ignored);
}

Outcome PartsFolder::write(std::size_t block, const PartText& part) const {
  std::string text = std::to_string(part.trees) + " trees, " + std::to_string(part.problems) +
                     " problems, " + std::to_string(part.first_problems.size()) + " told\n";
  for (const std::string& problem : part.first_problems) text += problem + '\n';
  return write_whole(file(block), text + part.rows);
}

Result<PartText> PartsFolder::read(std::size_t block) const {
  ROOTSTEAD_TRY(std::string text, read_bytes(file(block)));
  const Error broken{Code::format_broken, file(block).string(), "this part is not whole",
                     "remove it and screen again"};
  PartText part;
  std::size_t at = 0;
  const auto line = [&] {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    std::string taken = text.substr(at, end - at);
    at = std::min(end + 1, text.size());
    return taken;
  };
  const std::vector<std::string> head = split(line(), ',');
  if (head.size() != 3) return broken;
  const auto count = [](const std::string& cell) {
    const auto number = leading_number(cell);
    return number ? static_cast<std::size_t>(number->value) : 0;
  };
  part.trees = count(head[0]);
  part.problems = count(head[1]);
  for (std::size_t told = count(head[2]); told > 0; --told) part.first_problems.push_back(line());
  part.rows = text.substr(at);
  return part;
}

void PartsFolder::remove() const {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

}  // namespace rootstead::io
