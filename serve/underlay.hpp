// What lies under the plan to look at, never to reckon with: a map image or the lines of a drawing.
#pragma once

#include <optional>

#include "engine/site/site.hpp"
#include "io/json.hpp"
#include "serve/sent_file.hpp"

namespace rootstead::serve {

// Fails as io::read_underlay_image() does for a GeoTIFF, as io::read_source() for a DXF drawing,
// and with format_unknown for any other file. `unit` is of a drawing that names none.
Result<io::Json> underlay_json(const SentFile& file, const ReferenceSystem& system,
                               std::optional<LengthUnit> unit = {});

}  // namespace rootstead::serve
