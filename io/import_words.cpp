#include "io/import_words.hpp"

#include <algorithm>
#include <array>

#include "engine/base/text.hpp"
#include "io/import_rows.hpp"

namespace rootstead::io {

std::optional<Condition> condition_word(std::string_view text) {
  if (const auto known = condition_from(text)) return known;
  constexpr std::array<std::string_view, 6> kNotDead{"live",   "alive",  "living",
                                                     "lebend", "vivant", "levend"};
  const std::string word = lower_case(trimmed(text));
  const bool alive = std::find(kNotDead.begin(), kNotDead.end(), word) != kNotDead.end();
  return alive ? std::optional(Condition::unknown) : std::nullopt;
}

std::optional<Flare::State> flare_word(std::string_view text) {
  if (const auto known = flare_state_from(text)) return known;
  const auto seen = yes_no_from(text);
  if (!seen) return std::nullopt;
  return *seen ? Flare::State::visible : Flare::State::buried;
}

}  // namespace rootstead::io
