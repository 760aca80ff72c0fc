// New projects, in a file or on a server. io's own.
#pragma once

#include <filesystem>
#include <functional>

#include "io/database.hpp"
#include "io/project.hpp"

namespace rootstead::io {

// The empty tables of a project, with what guards them.
Outcome make_tables(Database& database, const ReferenceSystem& system);

// A project that `fill` makes in an empty store: there whole, or not at all. Never over another
// one.
Outcome make_project(const std::filesystem::path& file,
                     const std::function<Outcome(Database&)>& fill);

}  // namespace rootstead::io
