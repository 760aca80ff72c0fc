// A first look at a source: what its columns are called and which system it names, so that a person
// can say what the reader cannot tell.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "engine/base/result.hpp"

namespace rootstead::io {

struct SourceLook {
  std::vector<std::string> header;  // of a table, or of all layers; empty for a drawing
  std::string crs;  // "EPSG:n" that all its layers name; empty where they do not, or differ
};

// Fails as read_source() does where the file cannot be read at all.
Result<SourceLook> look_at_source(const std::filesystem::path& source);

}  // namespace rootstead::io
