// What the page draws, as JSON of api/schema.json.
#pragma once

#include <string>

#include "engine/rootstead.hpp"
#include "io/json.hpp"

namespace rootstead::serve {

io::Json tree_on_plan(const Tree& tree);
io::Json zone_on_plan(const std::string& tree, const Zone& zone);
io::Json work_on_plan(const Work& work, bool movable);
io::Json barrier_on_plan(const Barrier& barrier);
io::Json opening_on_plan(const Evidence& evidence);

}  // namespace rootstead::serve
