// Input errors: by how much a surveyed tree may be off, as stated or, where nothing is stated, by
// how it was measured (parameters `sureness.*`). One sigma each.
#pragma once

#include <optional>
#include <string>

#include "engine/site/tree.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

struct InputError {
  double sigma = 0;
  std::string known;  // "as stated", "assumed for a total station" ...
  Citation from;      // of what is assumed; a stated error has no source but the survey
  bool stated = false;
};

struct TreeErrors {
  InputError position;  // m, in easting and in northing, independent of each other
  // Share of each stem diameter; of a palm or other monocot, share of its height: none is judged by
  // its stem.
  InputError size;
  bool of_height = false;
};

TreeErrors errors_of(const Tree& tree, const Tables& tables);

// The tree with normal deviates: its place off by sigma times `east` and `north`; each stem, or the
// height, by the factor exp(sigma * deviate). Requires: tree.position.
struct Deviates {
  double east = 0, north = 0;
  std::vector<double> sizes;  // stems, then the basal diameter; of a monocot the height alone
};
Tree moved(Tree tree, const TreeErrors& errors, const Deviates& by);
Tree resized(Tree tree, const TreeErrors& errors, const Deviates& by);

}  // namespace rootstead
