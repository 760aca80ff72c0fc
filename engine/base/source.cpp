#include "engine/base/source.hpp"

namespace rootstead {

std::string_view to_text(Status status) {
  switch (status) {
    case Status::published:
      return "published";
    case Status::common_practice:
      return "common practice";
    case Status::memory:
      return "from memory";
    case Status::assumption:
      return "our assumption";
  }
  return "our assumption";
}

std::optional<Status> status_from(std::string_view text) {
  for (const Status status :
       {Status::published, Status::common_practice, Status::memory, Status::assumption}) {
    if (to_text(status) == text) return status;
  }
  return std::nullopt;
}

}  // namespace rootstead
