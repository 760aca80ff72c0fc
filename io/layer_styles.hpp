// How the layers look when a GIS opens the file: the table `layer_styles` that GIS programs read,
// with our own patterns and line types. Meaning is in pattern and outline; colour only helps.
#pragma once

#include "io/database.hpp"

namespace rootstead::io {

// Styles of the layers that exist in this GeoPackage.
Outcome add_layer_styles(Database& database);

}  // namespace rootstead::io
