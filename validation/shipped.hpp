// The tables every finding is computed with: those shipped in the program, read once.
#pragma once

#include "engine/tables/tables.hpp"

namespace rootstead::validation {

const Tables& shipped();

}  // namespace rootstead::validation
