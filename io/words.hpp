// The words that stand for our enumerations in files; those of the engine where it has them.
#pragma once

#include <optional>
#include <string_view>

#include "engine/site/site.hpp"

namespace rootstead::io {

std::string_view to_text(UnitSystem units);  // "metric", "us"
std::string_view to_text(Stem::Read read);   // "diameter", "girth"

// The word of any of our enumerations, in this namespace or the engine's.
template <class Word>
std::string_view word_of(Word word) {
  using io::to_text;
  using rootstead::to_text;
  return to_text(word);
}

// Each sets `out` and gives true, or leaves it alone where the word is unknown.
bool read_word(std::string_view word, UnitSystem& out);
bool read_word(std::string_view word, SoilTexture& out);
bool read_word(std::string_view word, Drainage& out);
bool read_word(std::string_view word, Stem::Read& out);
bool read_word(std::string_view word, GrowthForm& out);
bool read_word(std::string_view word, Condition& out);
bool read_word(std::string_view word, LifeStage& out);
bool read_word(std::string_view word, Flare::State& out);
bool read_word(std::string_view word, FlareSign& out);
bool read_word(std::string_view word, GrowthHistory& out);
bool read_word(std::string_view word, Intent& out);
bool read_word(std::string_view word, WorkKind& out);
bool read_word(std::string_view word, WorkState& out);
bool read_word(std::string_view word, DigMethod& out);
bool read_word(std::string_view word, BarrierKind& out);
bool read_word(std::string_view word, EvidenceKind& out);
bool read_word(std::string_view word, Wind::Standard& out);

}  // namespace rootstead::io
