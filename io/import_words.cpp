#include "io/import_words.hpp"

#include <algorithm>
#include <array>

#include "engine/base/text.hpp"
#include "io/import_rows.hpp"

namespace rootstead::io {

namespace {

bool says_alive(std::string_view text) {
  constexpr std::array<std::string_view, 9> kNotDead{
      "live", "alive", "living", "lebend", "vivant", "vivante", "vivo", "viva", "levend"};
  const std::string word = lower_case(trimmed(text));
  return std::find(kNotDead.begin(), kNotDead.end(), word) != kNotDead.end();
}

}  // namespace

std::optional<Condition> condition_word(std::string_view text) {
  if (const auto known = condition_from(text)) return known;
  return says_alive(text) ? std::optional(Condition::unknown) : std::nullopt;
}

std::optional<bool> alive_word(std::string_view text) {
  if (says_alive(text)) return true;
  if (condition_from(text) == Condition::dead) return false;
  return yes_no_from(text);
}

std::optional<Flare::State> flare_word(std::string_view text) {
  if (const auto known = flare_state_from(text)) return known;
  const auto seen = yes_no_from(text);
  if (!seen) return std::nullopt;
  return *seen ? Flare::State::visible : Flare::State::buried;
}

}  // namespace rootstead::io
