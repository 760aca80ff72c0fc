// Sites for tests of files: random ones that use every field, and a comparison that names the
// first difference.
#pragma once

#include <cstdint>
#include <string>

#include "io/project.hpp"

namespace rootstead::test {

// Every field of every record filled or left out at random; names with quotes, line breaks and
// letters outside ASCII. The same seed gives the same.
io::Import random_import(std::uint64_t seed, int trees, int others, double x = 530000,
                         double y = 180000);
ProjectSettings random_settings(std::uint64_t seed);
Soil random_soil(std::uint64_t seed);
Wind random_wind(std::uint64_t seed);
Climate random_climate(std::uint64_t seed);

// A hand-made assessment of the trees of a site: zones, losses, limits, roots, anchorage, verdicts
// with figures that tell the trees apart. Not computed by the engine, so that tests of files need
// none of it.
Assessment invented_assessment(const Site& site, int zones_per_tree = 2);

// Empty where both hold the same. Positions may differ by `tolerance` metres (feet are rounded on
// their way), angles by 1e-12 radians; all else is exact.
std::string difference(const Site& a, const Site& b, double tolerance = 0);
std::string difference(const ProjectSettings& a, const ProjectSettings& b);

}  // namespace rootstead::test
