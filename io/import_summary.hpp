// What an import holds, in words.
#pragma once

#include <string>

#include "io/project.hpp"

namespace rootstead::io {

// "12 trees, 2 works"; empty where nothing was read.
std::string what_was_read(const Import& import);

}  // namespace rootstead::io
