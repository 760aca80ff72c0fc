#include "engine/roots/field_source.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr double kLeastDepth = 0.10;  // m: even over rock or water some soil is rooted
constexpr double kNinetiethPercentile = 1.2815515655446004;  // of the standard normal

// Wilson & Hilferty 1931: a gamma number from a normal one, good to a few thousandths for a
// coefficient of variation of 0.3. One number from the stream, never a rejection.
double gamma_of_mean_one(double variation, double z) {
  const double ninth = variation * variation / 9;
  return std::max(0.0, std::pow(1 - ninth + z * std::sqrt(ninth), 3));
}

}  // namespace

double depth_limit(double limit, const Soil& soil, const Tables& tables) {
  double deepest = limit;
  if (soil.rooting_depth) deepest = std::min(deepest, soil.rooting_depth->length().metres());
  if (soil.water_table) {
    const double wet = tables.parameter("roots.dry_above_water_table").best;
    deepest = std::min(deepest, soil.water_table->length().metres() - wet);
  }
  return std::max(deepest, kLeastDepth);
}

double soil_factor(const Soil& soil, const Tables& tables) {
  const auto best = [&](std::string_view id) { return tables.parameter(id).best; };
  if (soil.drainage == Drainage::poor || soil.compacted)
    return best("roots.soil_factor_wet_or_compacted");
  if (soil.texture == SoilTexture::sand) return best("roots.soil_factor_sand");
  return 1;
}

std::vector<Note> soil_notes(const Tree& tree, const Soil& soil) {
  std::vector<Note> notes;
  if (soil.texture == SoilTexture::unknown && soil.drainage == Drainage::unknown &&
      soil.layers.empty())
    notes.push_back({NoteCode::depth_assumed, tree.label(),
                     "the soil is not recorded: roots are drawn for a deep loam that drains"});
  if (!soil.rooting_depth && !soil.water_table)
    notes.push_back({NoteCode::depth_assumed, tree.label(),
                     "no rooting depth (rock, pan or water table) is recorded: the general limit "
                     "of the depth law is used"});
  return notes;
}

Sectors draw_sectors(double variation, RandomStream& random) {
  Sectors sectors{};
  double sum = 0;
  for (double& sector : sectors) sum += sector = gamma_of_mean_one(variation, random.normal(0, 1));
  if (sum <= 0) return kEvenSectors;
  for (double& sector : sectors) sector *= kSectors / sum;
  return sectors;
}

double draw_pressing(RandomStream& random) {
  return std::clamp(random.normal(0, 1) / kNinetiethPercentile, -1.0, 1.0);
}

}  // namespace rootstead
