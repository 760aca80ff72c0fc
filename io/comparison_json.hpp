// What differs between two states, as JSON (docs/formats/json.md).
#pragma once

#include "engine/revisions/compare.hpp"
#include "io/json.hpp"

namespace rootstead::io {

Json to_json(const Comparison& changes);

}  // namespace rootstead::io
