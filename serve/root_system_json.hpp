// One likely root system of a tree, drawn by lot, for the picture of it.
#pragma once

#include "engine/roots/architecture.hpp"
#include "io/json.hpp"
#include "serve/standing.hpp"

namespace rootstead::serve {

inline constexpr std::size_t kMostPieces = 20'000;  // that a page draws; our assumption

struct GrownRoots {
  RootSystem system;
  std::vector<bool> severed;  // by piece
  Length thinnest;            // nothing thinner is followed; not of palms
  bool cut_short = false;     // roots were left out beyond that, so that the page can draw it
};
// Nothing thinner than is needed to stay within `most` pieces. The seed is the assessment's. Fails
// as grow_roots() does.
Result<GrownRoots> grown_roots(const Standing& standing, const Tree& tree,
                               std::size_t most = kMostPieces);

// RootSystem of api/schema.json. Fails with unknown_name, and as grow_roots() does.
Result<io::Json> root_system_json(const Standing& standing, const std::string& tree);

}  // namespace rootstead::serve
