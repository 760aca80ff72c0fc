#include "engine/site/site.hpp"

#include <algorithm>

namespace rootstead {

const Tree* Site::tree(std::string_view id_or_tag) const {
  const auto by_id = std::find_if(trees.begin(), trees.end(),
                                  [&](const Tree& tree) { return tree.id == id_or_tag; });
  if (by_id != trees.end()) return &*by_id;
  const auto by_tag = std::find_if(trees.begin(), trees.end(),
                                   [&](const Tree& tree) { return tree.tag == id_or_tag; });
  return by_tag != trees.end() ? &*by_tag : nullptr;
}

const Work* Site::work(std::string_view id) const {
  const auto found =
      std::find_if(works.begin(), works.end(), [&](const Work& work) { return work.id == id; });
  return found != works.end() ? &*found : nullptr;
}

std::string Problem::sentence() const {
  std::string text = subject.empty() ? message : subject + ": " + message;
  if (!remedy.empty()) text += "; " + remedy;
  return text + ".";
}

}  // namespace rootstead
