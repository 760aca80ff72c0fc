#include "engine/soil/pressing.hpp"

#include <algorithm>

namespace rootstead {
namespace {

Range range_of(const Parameter& parameter) {
  return {parameter.low, parameter.best, parameter.high};
}

Range times(const Range& range, double factor) {
  const auto share = [factor](double v) { return std::clamp(v * factor, 0.0, 1.0); };
  return {share(range.low), share(range.best), share(range.high)};
}

// Fine, wet or already dense ground loses its air sooner; sand keeps it.
double ground_factor(const Soil& soil, const Tables& tables) {
  const auto best = [&](std::string_view id) { return tables.parameter(id).best; };
  const bool airless = soil.drainage == Drainage::poor || soil.compacted ||
                       soil.texture == SoilTexture::clay || soil.texture == SoilTexture::silt;
  if (airless) return best("pressing.factor_wet_fine_or_compacted");
  if (soil.texture == SoilTexture::sand) return best("pressing.factor_sand");
  return 1;
}

// Nothing up to a thin layer, everything from a thick one, straight between.
double thickness_factor(Length fill, const Tables& tables) {
  const double none = tables.parameter("pressing.fill_no_effect_up_to").best;
  const double full = tables.parameter("pressing.fill_full_effect_from").best;
  return std::clamp((fill.metres() - none) / (full - none), 0.0, 1.0);
}

PressingEffect effect_of(std::string_view id, double factor, const Tables& tables) {
  const Parameter& parameter = tables.parameter(id);
  return {times(range_of(parameter), factor), parameter.from};
}

}  // namespace

PressingEffect pressing_effect(const Work& work, const Soil& soil, const Tables& tables) {
  const double ground = ground_factor(soil, tables);
  switch (work.kind) {
    case WorkKind::fill:
      return effect_of("pressing.fill", ground * thickness_factor(depth_of(work), tables), tables);
    case WorkKind::paving:
      return effect_of(work.permeable ? "pressing.paving_permeable" : "pressing.paving_sealed",
                       ground, tables);
    case WorkKind::traffic:
      return effect_of("pressing.traffic", ground, tables);
    case WorkKind::trench:
    case WorkKind::pit:
    case WorkKind::cut:
    case WorkKind::building:
    case WorkKind::fence_posts:
    case WorkKind::bore:
    case WorkKind::root_cut:
      break;
  }
  return {{}, {"rootstead", "docs/methods/soil.md", Status::assumption}};
}

PressingEffect working_room_effect(const Soil& soil, const Tables& tables) {
  return effect_of("pressing.traffic", ground_factor(soil, tables), tables);
}

}  // namespace rootstead
