// Anchorage kept after cuts, by wind direction: what still holds the tree. Stability only; health
// is another answer (engine/losses).
// Source and domain: docs/methods/anchorage.md; calibrated on Smiley 2008, tested for D 0.2-0.4 m.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/anchorage/safety.hpp"
#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/range.hpp"
#include "engine/geom/shapes.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// A cut round a tree: an area in plan (a trench's footprint) and how deep.
// `soil_removed` makes no difference to the figure: a root cut without excavation leaves ground
// that is no longer tied to the tree. It is kept for the page.
struct AnchorageCut {
  std::string work;
  MultiPolygon area;
  Length depth;
  bool soil_removed = true;
  bool existing = false;  // it was there before the works in question
};

// What is known of the ground and the wind beside the tree and the cuts. Everything may be left
// out: roots are then even all round, nothing restricts them, and no safety is worked out.
struct AnchorageContext {
  Soil soil;
  Wind wind;
  std::span<const Barrier> barriers;
  std::span<const Evidence> evidence;
};

// What is left of each part that holds the tree: 1 is all of it.
struct KeptParts {
  double tension = 1, central = 1, plate = 1, hinge = 1;
};

// The components of one architecture class and the constants they work with.
struct AnchorageShares {
  double tension = 0, central = 0, plate = 0, hinge = 0;  // add up to 1
  double u0 = 1, u0_hinge = 1;  // in distance units: a severed root of this length holds 63 %
  double hinge_offset = 0.5;    // of the tilting axis, lee of the centre, over the plate radius
  Length depth_scale = Length::metres(0.25);  // share of structural roots above d: 1 - exp(-d/this)
  std::optional<Length> deepest;  // no root below: rock, pan or water; the share is 1 from there
  double plate_radius_per_unit = 4;
  std::optional<Length> unit;  // palms: distances count in this; else in stem diameters
};

struct AnchorageKept {
  Range kept;        // in the weakest direction; 1 = as before
  Angle worst_from;  // azimuth the wind blows from in that direction
  std::array<double, kWindDirections> by_direction{};  // best estimate, wind from 0, 10, ... deg
  std::array<Range, kWindDirections> band{};           // the same with low and high
  KeptParts parts;         // in that direction, of the tree's own class, over a tree without limits
  AnchorageShares shares;  // the weight of each part
  // Of a tree that nothing restricts, each in its own weakest direction: what walls, kerbs and
  // earlier cuts left (before), and what the works leave of it (after).
  Range before{1, 1, 1}, after{1, 1, 1};
  int measured_roots = 0;                 // that replaced even roots; 0: none did
  std::optional<AnchorageSafety> safety;  // where a wind is named and everything is measured
  std::optional<Error> no_safety;         // where a wind is named: why there is none all the same
  double circumference_cut = 0;           // share of the circle round the stem met within 3 D
  double area_cut = 0;                // share of structural root cross-section severed within 3 D
  std::optional<Length> nearest_cut;  // from the trunk face
  bool outside_tests = false;         // D outside 0.08-1.0 m, palm at less than 0.3 m ...
  std::vector<std::string> reasons_to_inspect;  // override conditions met, in words
  std::vector<std::string> works;               // that bear on it, the heaviest first
  Figure figure;
  std::vector<Note> notes;
};

AnchorageShares anchorage_shares(RootArchitecture architecture, bool palm, const Tables& tables);

// k for one wind direction, uniform roots. `wind_from` is an azimuth. No cut gives exactly 1.
// Accuracy: +-0.003 against the regression table (quadrature over 360 rays).
double anchorage_kept(const Tree& tree, Length diameter, const AnchorageShares& shares,
                      const std::vector<AnchorageCut>& cuts, Angle wind_from);

// Fails with missing_measurement where no position or, palms apart, no diameter is known. The soil
// decides the architecture where it is shallow, and adds reasons to inspect where it is wet.
// Barriers count as the ground the tree grew up in: `kept` is what the cuts leave of that.
// Existing cuts are losses like new ones: nothing has grown back.
Result<AnchorageKept> anchorage_of(const Tree& tree, const std::vector<AnchorageCut>& cuts,
                                   const Tables& tables, const AnchorageContext& context);
Result<AnchorageKept> anchorage_of(const Tree& tree, const std::vector<AnchorageCut>& cuts,
                                   const Tables& tables, const Soil& soil = {});

// Every figure with its trail: anchorage.kept, .before, .component.*, .safety-*, wind.* ...
std::vector<Figure> figures_of(const AnchorageKept& kept);

}  // namespace rootstead
