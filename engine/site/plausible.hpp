// What counts as plausible in a survey. Bounds for a second look, never for a computation; all are
// our assumption unless said otherwise.
#pragma once

#include "engine/base/quantity.hpp"

namespace rootstead::plausible {

// Stems: few trees pass the first anywhere; past the second a unit has almost surely been mixed up.
inline constexpr Length kDoubtfulDiameter = Length::metres(2.0);
inline constexpr Length kImpossibleDiameter = Length::metres(3.5);

// Diameter over height. A reading above this bound that
// falls below it when divided by pi is more likely a girth.
inline constexpr double kStoutest = 0.10;
// Height over diameter.
inline constexpr double kMostSlender = 250;

inline constexpr Length kDoubtfulHeight = Length::metres(60);
// The tallest living tree on record is about 116 m (from memory).
inline constexpr Length kImpossibleHeight = Length::metres(116);

inline constexpr Length kDoubtfulCrownRadius = Length::metres(25);

// Works: beyond these a unit has probably been mixed up.
inline constexpr Length kDoubtfulDepth = Length::metres(20);
inline constexpr Length kDoubtfulWidth = Length::metres(50);

// Soils: a peat is lighter than any mineral soil, and no soil is as dense as rock (g/cm3, dry); a
// penetrometer stops long before the last (MPa).
inline constexpr double kLightestSoil = 0.3;
inline constexpr double kDensestSoil = 2.2;
inline constexpr double kHardestSoil = 20;
inline constexpr Length kDeepestLayer = Length::metres(20);

// Roots: one thicker than this at any distance from a stem is a stem.
inline constexpr Length kThickestRoot = Length::metres(1);
// A root measured this far outside its opening was in it: a tape is not a total station.
inline constexpr Length kBesideOpening = Length::metres(0.5);

// Wind speeds of maps of basic wind, m/s: calmer or stormier than any is a mixed-up unit.
inline constexpr double kCalmestWind = 10;
inline constexpr double kStormiestWind = 120;
inline constexpr double kLowestGround = -450, kHighestGround = 5500;  // m above sea level

// A position is too vague for a work where its error passes this share of the distance to it; only
// works within reach of any zone count, and tape accuracy is never vague.
inline constexpr double kErrorShare = 0.10;
inline constexpr Length kReachOfWorks = Length::metres(30);
inline constexpr Length kTapeError = Length::metres(0.1);

// Things this far from all others do not belong to one site.
inline constexpr Length kApart = Length::metres(10'000);

// Files with at least this many trees get one summary for what all of them lack.
inline constexpr std::size_t kSummaryFrom = 10;

}  // namespace rootstead::plausible
