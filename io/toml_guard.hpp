// Texts that the TOML parser must not see. toml++ 3.3 takes for granted, and checks by assertions
// only, that a section starts with a letter or a quotation mark and that nothing outside of texts
// and comments is beyond ASCII; "[%x]" or an unquoted "Höhe" are undefined behaviour. Both were
// found by fuzzing. Private to io.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "engine/base/result.hpp"

namespace rootstead::io {

// Nothing where the text is fit for the parser, which still may find it wrong. Otherwise
// format_broken, naming the line.
std::optional<Error> unfit_for_toml(std::string_view toml, const std::string& file_name);

}  // namespace rootstead::io
