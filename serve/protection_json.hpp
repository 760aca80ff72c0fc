// The protection plan of the whole site, as the report draws it.
#pragma once

#include "io/json.hpp"
#include "serve/standing.hpp"

namespace rootstead::serve {

// Protection of api/schema.json; each part with the sentences that the crew is told of it. Slow on
// large sites: keep it while the version stands. Fails as protection_plan() does.
Result<io::Json> protection_json(const Standing& standing);

}  // namespace rootstead::serve
