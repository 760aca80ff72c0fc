// A map image to lie under the plan: a GeoTIFF brought to the project's grid, north up.
#pragma once

#include <filesystem>
#include <string>

#include "engine/base/result.hpp"
#include "engine/geom/shapes.hpp"
#include "engine/site/site.hpp"

namespace rootstead::io {

inline constexpr int kMostImagePixels = 4096;  // a side; our assumption

struct PlacedImage {
  std::string png;            // clear where the source says nothing
  Box place;                  // of its outer edges, project metres
  bool system_named = false;  // by the source; else it was taken to be on the project's grid
};

// At the grain of the source, coarser where that would be too large. A source that names no system
// is taken to be on the project's grid. Numbers that are no bytes are stretched from the least to
// the greatest. Fails with format_broken, invalid_geometry (no place), value_invalid (too large) or
// crs_unsuitable.
Result<PlacedImage> read_underlay_image(const std::filesystem::path& source,
                                        const ReferenceSystem& project);

}  // namespace rootstead::io
