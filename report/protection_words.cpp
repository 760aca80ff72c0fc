// Words that the drawing of the protection plan and its tables share.
#include <string>
#include <vector>

#include "engine/base/text.hpp"
#include "report/protection_drawing.hpp"

namespace rootstead {
namespace {

struct Numbered {
  std::string head;
  int number = -1;
};

Numbered numbered(const std::string& id) {
  std::size_t at = id.size();
  while (at > 0 && id[at - 1] >= '0' && id[at - 1] <= '9') --at;
  const std::string digits = id.substr(at);
  if (digits.empty() || digits.size() > 6 || digits[0] == '0') return {id, -1};
  return {id.substr(0, at), std::stoi(digits)};
}

}  // namespace

std::string chainages(const Wording& words, Length from, Length to) {
  const std::string start = words.length(from);
  return start.substr(0, start.find("\u00A0")) + "–" + words.length(to);
}

std::string depth_text(const Wording& words, Length depth) {
  return words.length(depth, words.us() ? 1 : 2);
}

std::string depth_text(const Wording& words, Length depth, const Work* work) {
  const bool assumed = work != nullptr && !work->depth;
  return depth_text(words, depth) + (assumed ? mark(Status::assumption) : "");
}

std::string tags_of(const Site& site, const std::vector<std::string>& trees) {
  std::vector<std::string> tags;
  for (const std::string& id : trees) {
    const Tree* tree = site.tree(id);
    tags.push_back(tree == nullptr ? id : tree->label());
  }
  return joined(tags, ", ");
}

std::string runs_of(const std::vector<std::string>& ids) {
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < ids.size();) {
    const Numbered first = numbered(ids[i]);
    std::size_t end = i + 1;
    while (end < ids.size() && first.number >= 0) {
      const Numbered next = numbered(ids[end]);
      if (next.head != first.head || next.number != first.number + static_cast<int>(end - i)) break;
      ++end;
    }
    if (end - i > 2) {
      parts.push_back(ids[i] + " to " + ids[end - 1]);
    } else {
      for (std::size_t k = i; k < end; ++k) parts.push_back(ids[k]);
    }
    i = end;
  }
  return joined(parts, ", ");
}

std::string clash_number(std::size_t index) {
  return "C" + std::to_string(index + 1);
}

}  // namespace rootstead
