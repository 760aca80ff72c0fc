// A project frozen: the file it would be by itself, so that an issued state can be opened again
// when the project has gone on. Private to io.
#pragma once

#include <string>

#include "io/project_state.hpp"

namespace rootstead::io {

// Every table of the project row by row, in a GeoPackage of its own, without the states that were
// frozen earlier. What others keep in tables of their own is left out. Reads what the open
// transaction wrote.
Result<std::string> frozen_project(const Project::State& state, const std::string& when);

// With zlib.
Result<std::string> compressed(const std::string& bytes);
// Fails with format_broken where they are not that many bytes compressed.
Result<std::string> expanded(const std::string& bytes, std::size_t size,
                             const std::string& subject);

}  // namespace rootstead::io
