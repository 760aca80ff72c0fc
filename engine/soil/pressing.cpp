#include "engine/soil/pressing.hpp"

#include <algorithm>

#include "engine/soil/fill.hpp"
#include "engine/soil/traffic.hpp"

namespace rootstead {
namespace {

Range times(const Range& range, double factor) {
  const auto share = [factor](double v) { return std::clamp(v * factor, 0.0, 1.0); };
  return {share(range.low), share(range.best), share(range.high)};
}

Range times(const Range& range, const Range& factor) {
  return {range.low * factor.low, range.best * factor.best, range.high * factor.high};
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

// Nothing up to a thin layer, everything from a thick one, straight between. Where the texture of
// the fill is known, thin is what leaves the wanted oxygen, thick what leaves too little for roots.
double thickness_factor(const Work& work, const Tables& tables) {
  double none = tables.parameter("pressing.fill_no_effect_up_to").best;
  double full = tables.parameter("pressing.fill_full_effect_from").best;
  const Length fill = depth_of(work);
  if (work.fill_texture != SoilTexture::unknown) {
    const FillOxygen oxygen = fill_oxygen(work.fill_texture, work.wet, fill, 1, tables);
    none = std::min(none, oxygen.tolerated.metres());
    full = std::max(oxygen.starved.metres(), none + 0.01);
  }
  return std::clamp((fill.metres() - none) / (full - none), 0.0, 1.0);
}

// What a cover leaves of the effect of traffic: a small rest where it keeps the stress of a known
// vehicle below half the strength of the ground, all of it where the ground is pressed in full.
Range cover_factor(const Work& work, const Soil& soil, const Tables& tables) {
  if (!work.vehicle || !work.cover || cover_of(*work.cover).nothing()) return {1, 1, 1};
  const TrafficAdvice advice = traffic_advice(work, soil, tables);
  if (!advice.contact) return {1, 1, 1};
  const Parameter& rest = tables.parameter("pressing.traffic_protected_rest");
  const Range& ratio = advice.as_planned().ratio;
  const auto left = [&](double kept, double over) {
    return kept + (1 - kept) * pressed_share(over, tables);
  };
  return {left(rest.low, ratio.low), left(rest.best, ratio.best), left(rest.high, ratio.high)};
}

PressingEffect traffic_effect(const Work& work, const Soil& soil, double ground,
                              const Tables& tables) {
  const Parameter& parameter = tables.parameter("pressing.traffic");
  const Range bare = times(range_of(parameter), ground);
  return {times(bare, cover_factor(work, soil, tables)), parameter.from};
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
      return effect_of("pressing.fill", ground * thickness_factor(work, tables), tables);
    case WorkKind::paving:
      return effect_of(work.permeable ? "pressing.paving_permeable" : "pressing.paving_sealed",
                       ground, tables);
    case WorkKind::traffic:
      return traffic_effect(work, soil, ground, tables);
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
