#include "io/whole_file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <system_error>
#include <utility>

namespace rootstead::io {
namespace {

namespace fs = std::filesystem;

Error unwritable(const fs::path& file, const std::string& why, const std::string& remedy) {
  return {Code::file_unwritable, file.string(), why, remedy};
}

Error unwritable(const fs::path& file, const std::error_code& why) {
  return unwritable(file, "cannot be written (" + why.message() + ")",
                    "check the folder, its permissions and the space on the disk");
}

std::error_code last_error() {
  return {errno, std::generic_category()};
}

// So that what was written survives a power cut before it gets its name.
bool sync(const fs::path& file) {
  const int descriptor = ::open(file.c_str(), O_RDONLY);
  if (descriptor < 0) return false;
  const bool done = ::fsync(descriptor) == 0;
  ::close(descriptor);
  return done;
}

fs::path folder_of(const fs::path& target) {
  return target.has_parent_path() ? target.parent_path() : fs::path(".");
}

}  // namespace

Result<PartFolder> PartFolder::beside(const fs::path& target) {
  std::error_code ignored;
  if (target.filename().empty() || fs::is_directory(target, ignored)) {
    return unwritable(target, "this is a folder, not a file", "add a file name");
  }
  const fs::path parent = folder_of(target);
  if (!fs::is_directory(parent, ignored)) {
    return unwritable(target, "the folder " + parent.string() + " does not exist",
                      "make the folder first or choose another");
  }
  std::string name = (parent / ("." + target.filename().string() + ".part-XXXXXX")).string();
  if (::mkdtemp(name.data()) == nullptr) return unwritable(target, last_error());
  return PartFolder(name, target);
}

fs::path PartFolder::file() const {
  return folder_ / target_.filename();
}

Result<std::vector<fs::path>> PartFolder::publish() {
  std::vector<fs::path> made{target_};
  std::error_code failed;
  for (const fs::directory_entry& part : fs::directory_iterator(folder_, failed)) {
    if (!sync(part.path())) return unwritable(target_, last_error());
    if (part.path() != file()) made.push_back(folder_of(target_) / part.path().filename());
  }
  std::sort(made.begin() + 1, made.end());
  for (auto place = made.rbegin(); place != made.rend(); ++place) {
    fs::rename(folder_ / place->filename(), *place, failed);
    if (failed) return unwritable(*place, failed);
  }
  sync(folder_of(target_));
  return made;
}

Outcome PartFolder::publish_new() {
  if (!sync(file())) return unwritable(target_, last_error());
  // A hard link never replaces; where the disk knows none, look first and then move.
  std::error_code failed;
  fs::create_hard_link(file(), target_, failed);
  const Error exists = unwritable(target_, "the file exists already",
                                  "choose another name, or remove the file first");
  if (failed == std::errc::file_exists) return exists;
  if (failed) {
    if (fs::exists(target_)) return exists;
    fs::rename(file(), target_, failed);
    if (failed) return unwritable(target_, failed);
  }
  sync(folder_of(target_));
  return Nothing{};
}

PartFolder::PartFolder(PartFolder&& other) noexcept
    : folder_(std::exchange(other.folder_, {})), target_(std::exchange(other.target_, {})) {}

PartFolder::~PartFolder() {
  std::error_code ignored;
  if (!folder_.empty()) fs::remove_all(folder_, ignored);
}

Outcome write_bytes(const fs::path& file, std::string_view bytes) {
  const int descriptor = ::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
  if (descriptor < 0) return unwritable(file, last_error());
  std::error_code failed;
  while (!bytes.empty() && !failed) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written > 0) bytes.remove_prefix(static_cast<std::size_t>(written));
    if (written < 0 && errno != EINTR) failed = last_error();
  }
  if (!failed && ::fsync(descriptor) != 0) failed = last_error();
  ::close(descriptor);
  if (failed) return unwritable(file, failed);
  return Nothing{};
}

Outcome check_file(const fs::path& file) {
  std::error_code ignored;
  if (!fs::exists(file, ignored))
    return Error{Code::file_not_found, file.string(), "there is no such file",
                 "check the name and the folder"};
  if (fs::is_directory(file, ignored))
    return Error{Code::file_unreadable, file.string(), "this is a folder",
                 "name one file inside it"};
  if (fs::file_size(file, ignored) == 0)
    return Error{Code::format_broken, file.filename().string(), "the file is empty",
                 "export it again"};
  return Nothing{};
}

}  // namespace rootstead::io
