// How far from the trunk a bore must start: a published table by stem diameter, in two versions
// that differ for small trees. Woody trees only.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/quantity.hpp"
#include "engine/base/result.hpp"

namespace rootstead {

struct AugerDistance {
  std::string version;             // "bulletin" or "copy"
  std::optional<Length> distance;  // from the face of the trunk
  std::string missing;             // where there is no distance: why
  bool between_rows = false;       // the next larger row was taken
  Figure figure;  // "cutting.auger-distance.bulletin"; of no use where there is no distance
};

// Both versions. `crown_radius`, the largest, is what one of them takes for small trees.
// Requires: diameter above zero.
std::vector<AugerDistance> auger_distances(Length diameter, std::optional<Length> crown_radius);
// The further of them; the versions are never averaged.
Length governing(const std::vector<AugerDistance>& versions);

}  // namespace rootstead
