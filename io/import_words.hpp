// Words of surveys beside those the engine reads. Private to the readers.
#pragma once

#include <optional>
#include <string_view>

#include "engine/site/tree.hpp"

namespace rootstead::io {

// "Live" and "alive" say that the tree is not dead, and no more: unknown.
std::optional<Condition> condition_word(std::string_view text);

// "Yes" and "no" under a header such as "root flare visible".
std::optional<Flare::State> flare_word(std::string_view text);

// Was a root alive? "Yes", "dead", "lebend", "tot" ...
std::optional<bool> alive_word(std::string_view text);

}  // namespace rootstead::io
