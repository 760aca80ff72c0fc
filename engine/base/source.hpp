// Where a figure comes from, and how far that can be trusted.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace rootstead {

// From strongest to weakest. A figure derived from several has the weakest of their statuses.
enum class Status { published, common_practice, memory, assumption };

// "published", "common practice", "from memory", "our assumption".
std::string_view to_text(Status status);
std::optional<Status> status_from(std::string_view text);

constexpr Status weaker(Status a, Status b) {
  return a > b ? a : b;
}

// One work in data/sources.csv.
struct Source {
  std::string id;     // "smiley-2008"
  std::string title;  // author, year, title, in one line
  std::string note;   // "read in excerpt", "second hand": how it was read
};

// A place in a work, with the status of what was taken from there.
struct Citation {
  std::string source;  // id of a Source
  std::string place;   // clause, table or page; may be empty
  Status status = Status::assumption;
  friend bool operator==(const Citation&, const Citation&) = default;
};

}  // namespace rootstead
