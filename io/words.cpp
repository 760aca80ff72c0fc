#include "io/words.hpp"

#include <array>
#include <utility>

namespace rootstead::io {
namespace {

template <class Word, std::size_t N>
using Words = std::array<std::pair<Word, std::string_view>, N>;

constexpr Words<UnitSystem, 2> kUnits{
    {{UnitSystem::metric, "metric"}, {UnitSystem::us_customary, "us"}}};
constexpr Words<SoilTexture, 5> kTextures{{{SoilTexture::unknown, "unknown"},
                                           {SoilTexture::sand, "sand"},
                                           {SoilTexture::loam, "loam"},
                                           {SoilTexture::silt, "silt"},
                                           {SoilTexture::clay, "clay"}}};
constexpr Words<Drainage, 3> kDrainages{
    {{Drainage::unknown, "unknown"}, {Drainage::free, "free"}, {Drainage::poor, "poor"}}};
constexpr Words<Stem::Read, 2> kReads{
    {{Stem::Read::diameter, "diameter"}, {Stem::Read::girth, "girth"}}};

template <class Word, std::size_t N>
std::string_view find(const Words<Word, N>& words, Word wanted) {
  for (const auto& [word, text] : words) {
    if (word == wanted) return text;
  }
  return words.front().second;
}

template <class Word, std::size_t N>
bool read(const Words<Word, N>& words, std::string_view wanted, Word& out) {
  for (const auto& [word, text] : words) {
    if (text == wanted) return out = word, true;
  }
  return false;
}

template <class Word>
bool assign(Word& out, std::optional<Word> found) {
  if (found) out = *found;
  return found.has_value();
}

}  // namespace

std::string_view to_text(UnitSystem units) { return find(kUnits, units); }
std::string_view to_text(SoilTexture texture) { return find(kTextures, texture); }
std::string_view to_text(Drainage drainage) { return find(kDrainages, drainage); }
std::string_view to_text(Stem::Read what) { return find(kReads, what); }

bool read_word(std::string_view word, UnitSystem& out) { return read(kUnits, word, out); }
bool read_word(std::string_view word, SoilTexture& out) { return read(kTextures, word, out); }
bool read_word(std::string_view word, Drainage& out) { return read(kDrainages, word, out); }
bool read_word(std::string_view word, Stem::Read& out) { return read(kReads, word, out); }
bool read_word(std::string_view word, GrowthForm& out) {
  return assign(out, growth_form_from(word));
}
bool read_word(std::string_view word, Condition& out) { return assign(out, condition_from(word)); }
bool read_word(std::string_view word, LifeStage& out) { return assign(out, life_stage_from(word)); }
bool read_word(std::string_view word, Flare::State& out) {
  return assign(out, flare_state_from(word));
}
bool read_word(std::string_view word, WorkKind& out) { return assign(out, work_kind_from(word)); }
bool read_word(std::string_view word, WorkState& out) { return assign(out, work_state_from(word)); }
bool read_word(std::string_view word, DigMethod& out) { return assign(out, dig_method_from(word)); }
bool read_word(std::string_view word, BarrierKind& out) {
  return assign(out, barrier_kind_from(word));
}

}  // namespace rootstead::io
