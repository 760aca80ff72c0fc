// What a tree loses if a work lay nearer or farther, across its own direction.
#pragma once

#include "io/json.hpp"
#include "serve/standing.hpp"

namespace rootstead::serve {

inline constexpr int kOffsetSteps = 15;  // and where it lies now; our assumption

// Offsets of api/schema.json: copies of the work, moved, with the draws of a trial; nothing of the
// desk or the project is touched. Offsets go from the stem's face to where no root is likely to
// reach; each is measured anew from the moved copy. Fails with unknown_name, with wrong_use where
// the work stands already or follows from levels, and with missing_measurement where the tree has
// no place or the work no shape.
Result<io::Json> offsets(const Standing& standing, const std::string& work,
                         const std::string& tree);

}  // namespace rootstead::serve
