#include "io/import_summary.hpp"

#include "engine/base/text.hpp"
#include "io/levels_source.hpp"

namespace rootstead::io {

std::string what_was_read(const Import& import) {
  std::vector<std::string> parts;
  const auto tell = [&parts](std::size_t count, const char* one, const char* several) {
    if (count > 0) parts.push_back(counted_things(count, one, several));
  };
  tell(import.trees.size(), "tree", "trees");
  tell(import.works.size(), "work", "works");
  tell(import.barriers.size(), "barrier", "barriers");
  tell(import.surfaces.size(), "surface", "surfaces");
  std::size_t roots = 0;
  for (const Evidence& opening : import.evidence) roots += opening.roots.size();
  tell(import.evidence.size(), "opening", "openings");
  if (!import.evidence.empty())
    parts.push_back(counted_things(roots, "root", "roots") + " found in them");
  tell(import.boundary.size(), "area of the boundary", "areas of the boundary");
  tell(import.gates.size(), "gate", "gates");
  if (import.soil) {
    parts.emplace_back("soil");
    tell(import.soil->layers.size(), "layer", "layers");
  }
  return joined(parts, ", ");
}

}  // namespace rootstead::io
