#include "engine/levels/zone_depths.hpp"

#include <algorithm>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/levels/depth_spread.hpp"
#include "engine/levels/level_words.hpp"
#include "engine/levels/survey_offset.hpp"

namespace rootstead {
namespace {

// Fails where more than a hair of the zone has no height in this surface.
Outcome check_cover(const PreparedLevels& levels, const MultiPolygon& zone, double zone_area,
                    const std::string& subject, double most_missing) {
  const double missing = 1 - covered(levels, zone).square_metres() / zone_area;
  if (missing <= most_missing) return Nothing{};
  return Error{
      Code::outside_rule_domain, subject,
      surface_words(levels) + " has no levels for " + percent(std::min(missing, 1.0)) + " of it",
      "have the ground there measured or designed, or read the part of the surface that "
      "is missing; no depth is given"};
}

}  // namespace

Result<ZoneDepths> zone_depths(const PreparedLevels& existing, const PreparedLevels& proposed,
                               const MultiPolygon& zone, const std::string& subject,
                               const Tables& tables) {
  const double zone_area = area_of(union_of({zone})).square_metres();
  if (!(zone_area > 0)) {
    return Error{Code::empty_geometry, subject, "its outline has no area", "draw its outline"};
  }
  ROOTSTEAD_CHECK(same_datum(existing, proposed));
  const double most_missing = tables.parameter("levels.missing_share").best;
  for (const PreparedLevels* levels : {&existing, &proposed})
    ROOTSTEAD_CHECK(check_cover(*levels, zone, zone_area, subject, most_missing));

  ZoneDepths depths;
  depths.all = earthwork_between(existing, proposed, zone);
  depths.threshold = Length::metres(tables.parameter("levels.change_noticed").best);
  const double least = depths.threshold.metres();
  const double share = tables.parameter("levels.depth_quantile").best;
  const DepthSpread spread(existing, proposed, zone);
  const double cut = spread.below(-least).square_metres();
  const double filled = spread.above(least).square_metres();
  depths.share_cut = std::min(cut / zone_area, 1.0);
  depths.share_filled = std::min(filled / zone_area, 1.0);
  constexpr double kNoGround = 1e-9;  // m2
  if (cut > kNoGround) depths.cut_depth = Length::metres(spread.lowered_quantile(least, share));
  if (filled > kNoGround) depths.fill_height = Length::metres(spread.raised_quantile(least, share));
  return depths;
}

}  // namespace rootstead
