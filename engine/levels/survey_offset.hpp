// Are two surfaces offset as a whole, as surveys with different datums, units or benchmarks are?
// Such an offset must not be called cut or fill.
#pragma once

#include <optional>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/levels/earthwork.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Over ground that should not change, the difference has a median m and a spread s, 1.4826 times
// the median of |difference - m|, both by area. It is called an offset where |m| is at least
// levels.offset_least, s is at most levels.offset_spread times |m|, and that ground is at least
// levels.offset_ground of all compared. Robust: half of the ground may be dug without moving m far.
struct SurveyOffset {
  bool uniform = false;
  Length median;  // after less before
  Length spread;
  Area compared;
  Figure figure;            // of the median
  std::vector<Note> notes;  // the warning, where uniform
};

// `unchanged` is ground where no work is planned; empty: all common ground.
SurveyOffset survey_offset(const PreparedLevels& before, const PreparedLevels& after,
                           const MultiPolygon& unchanged, const Tables& tables);

// Can heights of the two be compared? Fails with value_invalid where both state a vertical datum
// and the two differ, and with empty_geometry where they have no ground in common. Notes where only
// one states its datum, and where heights look like feet read as metres (or the reverse).
Result<std::vector<Note>> comparable(const PreparedLevels& before, const PreparedLevels& after,
                                     const Tables& tables);

}  // namespace rootstead
