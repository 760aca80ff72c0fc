// Are two surfaces offset as a whole, as surveys with different datums, units or benchmarks are?
// Such an offset must not be called cut or fill.
#pragma once

#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/quantity.hpp"
#include "engine/base/result.hpp"
#include "engine/levels/prepared_levels.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Over ground that should not change, the difference has a median m and a spread s, 1.4826 times
// the median of |difference - m|, both by area. It is called an offset where |m| is at least
// levels.offset_least and s at most levels.offset_spread times |m|; where no ground
// outside works is known, |m| must also be at most levels.offset_most, since a site that is dug or
// raised all over lies apart as evenly as two surveys do. Half of the ground may be dug
// without moving m out of the range of the other half. Ground that is really raised by the same
// everywhere looks the same: a person decides.
struct SurveyOffset {
  bool uniform = false;
  Length median;  // after less before
  Length spread;
  Area compared;            // nil: nothing to compare, nothing found
  Figure figure;            // of the median
  std::vector<Note> notes;  // the warning, where uniform
};

// `unchanged` is ground where no work is planned. Where it is empty, or less than
// levels.offset_ground of the common ground, all common ground is compared.
SurveyOffset survey_offset(const PreparedLevels& before, const PreparedLevels& after,
                           const MultiPolygon& unchanged, const Tables& tables);

// Fails with value_invalid where both state a vertical datum and the two differ.
Outcome same_datum(const PreparedLevels& before, const PreparedLevels& after);

// Can heights of the two be compared? Fails as same_datum() does, and with empty_geometry where
// they have no ground in common. Notes where one or both do not state it, and where heights look
// like feet read as metres or the reverse: middle heights, taken on a lattice of 1,600 places, in
// the ratio of foot and metre within levels.feet_ratio.
Result<std::vector<Note>> comparable(const PreparedLevels& before, const PreparedLevels& after,
                                     const Tables& tables);

}  // namespace rootstead
