#include "io/words.hpp"

#include "engine/base/words.hpp"

namespace rootstead::io {
namespace {

constexpr Words<UnitSystem, 2> kUnits{
    {{UnitSystem::metric, "metric"}, {UnitSystem::us_customary, "us"}}};
constexpr Words<Stem::Read, 2> kReads{
    {{Stem::Read::diameter, "diameter"}, {Stem::Read::girth, "girth"}}};

template <class Word>
bool assign(Word& out, std::optional<Word> found) {
  if (found) out = *found;
  return found.has_value();
}

}  // namespace

std::string_view to_text(UnitSystem units) {
  return word_for(kUnits, units);
}
std::string_view to_text(Stem::Read what) {
  return word_for(kReads, what);
}

bool read_word(std::string_view word, UnitSystem& out) {
  return assign(out, value_for(kUnits, word));
}
bool read_word(std::string_view word, SoilTexture& out) {
  return assign(out, soil_texture_from(word));
}
bool read_word(std::string_view word, Drainage& out) {
  return assign(out, drainage_from(word));
}
bool read_word(std::string_view word, Stem::Read& out) {
  return assign(out, value_for(kReads, word));
}
bool read_word(std::string_view word, GrowthForm& out) {
  return assign(out, growth_form_from(word));
}
bool read_word(std::string_view word, Condition& out) {
  return assign(out, condition_from(word));
}
bool read_word(std::string_view word, LifeStage& out) {
  return assign(out, life_stage_from(word));
}
bool read_word(std::string_view word, Flare::State& out) {
  return assign(out, flare_state_from(word));
}
bool read_word(std::string_view word, FlareSign& out) {
  return assign(out, flare_sign_from(word));
}
bool read_word(std::string_view word, GrowthHistory& out) {
  return assign(out, growth_history_from(word));
}
bool read_word(std::string_view word, Intent& out) {
  return assign(out, intent_from(word));
}
bool read_word(std::string_view word, WorkKind& out) {
  return assign(out, work_kind_from(word));
}
bool read_word(std::string_view word, WorkState& out) {
  return assign(out, work_state_from(word));
}
bool read_word(std::string_view word, DigMethod& out) {
  return assign(out, dig_method_from(word));
}
bool read_word(std::string_view word, BarrierKind& out) {
  return assign(out, barrier_kind_from(word));
}
bool read_word(std::string_view word, EvidenceKind& out) {
  return assign(out, evidence_kind_from(word));
}
bool read_word(std::string_view word, Wind::Standard& out) {
  return assign(out, wind_standard_from(word));
}

}  // namespace rootstead::io
