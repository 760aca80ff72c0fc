// Words of German, French, Spanish and Dutch surveys beside those the engine reads. Private to
// the readers.
#pragma once

#include <optional>
#include <string_view>

#include "engine/site/work.hpp"

namespace rootstead::io {

std::optional<GrowthForm> form_word(std::string_view text);
std::optional<Condition> condition_word(std::string_view text);
std::optional<LifeStage> stage_word(std::string_view text);
std::optional<Flare::State> flare_word(std::string_view text);

}  // namespace rootstead::io
