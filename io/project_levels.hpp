// The table `levels` of a project file (docs/formats/project.md). Private to io.
#pragma once

#include <string>

#include "io/project_schema.hpp"
#include "io/project_state.hpp"

namespace rootstead::io {

Table levels_table();

// A project without the table has no levels.
Outcome read_levels_of(const Project::State& state, Site& site);

// The surface as bytes and back. Bytes that are not such a surface: nothing.
std::string level_bytes(const LevelSurface& surface);
std::optional<std::variant<TriangleMesh, HeightGrid>> levels_from_bytes(std::string_view bytes);

}  // namespace rootstead::io
