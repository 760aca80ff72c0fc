// What a surveyor wrote down of a tree, line by line, as it was written.
#pragma once

#include "engine/site/tree.hpp"
#include "io/json.hpp"

namespace rootstead::serve {

io::Json named(const std::string& name, const std::string& text);  // Named of api/schema.json
io::Json measured_of(const Tree& tree);                            // an array of them

}  // namespace rootstead::serve
