// Rows about what holds a tree and what the wind does to it, one fact a row.
#pragma once

#include <optional>
#include <string>

#include "engine/base/range.hpp"
#include "engine/base/source.hpp"

namespace rootstead {

// The overturning moment that trees of one kind were pulled over with, over D^2 H: kNm/m3.
struct AnchorageResistance {
  std::string botanical_name;  // a species, a genus, or "all": every tree of the study
  std::string synonym;         // another name in use, may be empty
  int trees = 0;
  std::optional<double> geometric_mean;
  double median = 0;
  double least = 0, most = 0;  // of "all" the 5th and 95th percentiles
  double sd_ln = 0;            // standard deviation of the logarithm
  Citation from;

  // The middle of a lognormal spread: half of the trees held less.
  double middle() const { return geometric_mean.value_or(median); }
};

// Drag of a crown's still-air outline at the design gust.
struct CrownDrag {
  std::string taxon;  // a species, a genus, or a growth form: "broadleaf", "conifer", "palm"
  Range in_leaf;
  std::optional<Range> bare;  // leafless, of the same outline
  Citation from;
};

}  // namespace rootstead
