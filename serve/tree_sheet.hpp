// The sheet of one tree: as measured, what is derived, every figure with its trail, what to do.
#pragma once

#include "io/json.hpp"
#include "serve/standing.hpp"

namespace rootstead::serve {

// TreeSheet of api/schema.json. Its figures are those of `rootstead why TREE --json`, to the last
// bit, each with its name as `name` too. Fails with unknown_name, and as advise() does.
Result<io::Json> tree_sheet(const Standing& standing, const std::string& tree);

}  // namespace rootstead::serve
