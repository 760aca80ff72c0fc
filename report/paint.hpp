// From layout to files. Nothing here decides where anything goes.
#pragma once

#include <filesystem>

#include "engine/base/result.hpp"
#include "report/layout.hpp"
#include "report/steps.hpp"

namespace rootstead::layout {

// A tagged PDF (1.5) with bookmarks, links and metadata; the same document gives the same bytes.
// Written beside `file` and moved into place when complete. Fails with file_unwritable.
Outcome write_pdf(const Document& document, const std::filesystem::path& file,
                  const Steps& steps = {});

// One page as a picture, by the ending of `file`: ".svg", or ".png" at `dots_per_inch`.
// Fails with file_unwritable, or format_unknown for another ending.
Outcome write_picture(const Page& page, const std::filesystem::path& file,
                      double dots_per_inch = 144);

}  // namespace rootstead::layout
