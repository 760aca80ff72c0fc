// How far a shape lies from where it lay. The room's own.
#pragma once

#include <optional>

#include "engine/site/site.hpp"

namespace rootstead {

// The furthest that a corner of one lies from the outline of the other; nothing where that is below
// kSamePlace, or one of them is empty.
std::optional<Length> moved_by(const Shape& before, const Shape& after);

// The ground of a shape in plan, lines and points as wide as `width`.
MultiPolygon ground_of_shape(const Shape& shape, Length width);

// What one takes and the other does not.
MultiPolygon either_not_both(const MultiPolygon& a, const MultiPolygon& b);

}  // namespace rootstead
