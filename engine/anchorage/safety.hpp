// Safety against being blown over, before and after the works: only ever a band, to be compared
// with itself. A band that straddles 1 is evidence neither of danger nor of safety.
// Source: docs/methods/anchorage.md; no single tree was ever foretold by it.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "engine/anchorage/crown_load.hpp"
#include "engine/anchorage/resistance.hpp"
#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/range.hpp"
#include "engine/base/result.hpp"

namespace rootstead {

inline constexpr int kWindDirections = 36;  // wind from 0, 10, ... degrees

struct SafetyBand {
  std::string wind;        // "50-years", "10-years", "map-speed"
  bool saturated = false;  // ground nearly full of water
  Range before, after;     // P5, P50 and P95, in the direction that is weakest after the works
  Angle wind_from;
};

struct AnchorageSafety {
  std::vector<SafetyBand> bands;
  std::vector<Figure> figures;  // of the wind, its moment, the strength, and every band
  std::vector<Note> notes;
};

// How the anchorage stands in each direction, over a tree that nothing restricts.
struct SafetyInputs {
  const Tree* tree = nullptr;
  GrowthForm form = GrowthForm::unknown;  // of the record or the species
  bool palm = false;
  Length diameter;
  const Soil* soil = nullptr;
  const Wind* wind = nullptr;
  std::array<Range, kWindDirections> before, after;
};

// Fails, saying what to measure, without height, crown or the height of its base; for palms and
// for stems outside 0.08 to 1.0 m, of which no pulling test is known; and where the wind is not
// usable. Requires: inputs.wind->standard is not none.
Result<AnchorageSafety> safety_of(const SafetyInputs& inputs, const Tables& tables);

// Standard deviation of the logarithm of a safety, from its parts.
double safety_sigma(bool species_known, bool crown_measured_round, const Tables& tables);

// The words that go with every band.
inline constexpr std::string_view kSafetyCaution =
    "a band that straddles 1 is evidence neither of danger nor of safety: compare before with "
    "after only";

}  // namespace rootstead
