// Base64 of RFC 4648, section 4: how bytes travel in JSON.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace rootstead::serve {

std::string base64_of(std::string_view bytes);

// Nothing where the text is not whole groups of four of its letters, padded at the end alone.
std::optional<std::string> from_base64(std::string_view text);

}  // namespace rootstead::serve
