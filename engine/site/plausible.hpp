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

// Sand, silt and clay make up the mineral soil; laboratories round each by itself.
inline constexpr double kTextureSumSlip = 0.01;  // of the sum, either way: as engine/soil takes it

// Flares: readings of taper are taken near the ground, where no trunk widens upward by more than
// the tape errs; and roots that start deeper than the last were hardly buried by gardening.
inline constexpr Length kHighestTaper = Length::metres(2);
inline constexpr double kTaperSlip = 0.02;  // share of a diameter
inline constexpr Length kDeepestFlare = Length::metres(1.5);
// An opening this near a stem tells how deep was dug at its flare.
inline constexpr Length kAtTheFlare = Length::metres(1);

// Vehicles: lighter than a loaded barrow or heavier than the largest dump truck on a building site
// is a mixed-up unit; so is a pressure below that of a person standing on boards or above that of a
// railway wheel's tread.
inline constexpr double kLightestVehicle = 50, kHeaviestVehicle = 150'000;  // kg
inline constexpr double kLowestContact = 5, kHighestContact = 2000;         // kPa
inline constexpr Length kThickestChips = Length::metres(1);

// The ground the client may use: its outline is drawn to half a metre; a gate further out than
// this leads elsewhere, and one wider than any is a mixed-up unit. What is less than this outside
// is the width of a drawn line.
inline constexpr Length kBesideBoundary = Length::metres(0.5);
inline constexpr Length kGateFromBoundary = Length::metres(10);
inline constexpr Length kWidestGate = Length::metres(30);
inline constexpr Area kSliverOutside = Area::square_metres(0.1);

// Climate, by definition: the zones are numbered 1 to 13, latitudes end at the poles. Means of a
// month in mm a day: no desert evaporates as much, no monsoon rains as much.
inline constexpr int kColdestZone = 1, kWarmestZone = 13;
inline constexpr double kPole = 90;
inline constexpr double kDriestAir = 20, kWettestMonth = 120;

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
