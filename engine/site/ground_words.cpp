// The words for soil, drainage and wind: first the one this program writes, then others it reads,
// in English, German, French, Spanish and Dutch, without accents.
#include "engine/base/words.hpp"
#include "engine/site/accents.hpp"
#include "engine/site/site.hpp"

namespace rootstead {
namespace {

// A compound texture goes by its noun: a sandy loam is a loam, a loamy sand a sand, a silty clay a
// clay. That five words stand for the twelve or more of a soil survey is our assumption.
constexpr auto kTextures = std::to_array<Word<SoilTexture>>({
    {SoilTexture::unknown, "unknown"},
    {SoilTexture::sand, "sand"},
    {SoilTexture::loam, "loam"},
    {SoilTexture::silt, "silt"},
    {SoilTexture::clay, "clay"},
    {SoilTexture::sand, "loamy sand"},
    {SoilTexture::sand, "sandy"},
    {SoilTexture::sand, "gravel"},
    {SoilTexture::sand, "kies"},
    {SoilTexture::sand, "sandig"},
    {SoilTexture::sand, "lehmiger sand"},
    {SoilTexture::sand, "sable"},
    {SoilTexture::sand, "sableux"},
    {SoilTexture::sand, "arena"},
    {SoilTexture::sand, "arenoso"},
    {SoilTexture::sand, "zand"},
    {SoilTexture::loam, "sandy loam"},
    {SoilTexture::loam, "silt loam"},
    {SoilTexture::loam, "silty loam"},
    {SoilTexture::loam, "clay loam"},
    {SoilTexture::loam, "sandy clay loam"},
    {SoilTexture::loam, "silty clay loam"},
    {SoilTexture::loam, "loamy"},
    {SoilTexture::loam, "lehm"},
    {SoilTexture::loam, "lehmig"},
    {SoilTexture::loam, "sandiger lehm"},
    {SoilTexture::loam, "toniger lehm"},
    {SoilTexture::loam, "terre franche"},
    {SoilTexture::loam, "franco"},
    {SoilTexture::loam, "leem"},
    {SoilTexture::loam, "zavel"},
    {SoilTexture::silt, "silty"},
    {SoilTexture::silt, "schluff"},
    {SoilTexture::silt, "limon"},
    {SoilTexture::silt, "limo"},
    {SoilTexture::silt, "limoso"},
    {SoilTexture::silt, "loess"},
    {SoilTexture::silt, "loss"},
    {SoilTexture::clay, "clayey"},
    {SoilTexture::clay, "sandy clay"},
    {SoilTexture::clay, "silty clay"},
    {SoilTexture::clay, "ton"},
    {SoilTexture::clay, "tonig"},
    {SoilTexture::clay, "argile"},
    {SoilTexture::clay, "argileux"},
    {SoilTexture::clay, "arcilla"},
    {SoilTexture::clay, "arcilloso"},
    {SoilTexture::clay, "klei"},
});

constexpr auto kDrainages = std::to_array<Word<Drainage>>({
    {Drainage::unknown, "unknown"},   {Drainage::free, "free"},
    {Drainage::poor, "poor"},         {Drainage::free, "good"},
    {Drainage::free, "well drained"}, {Drainage::free, "freely drained"},
    {Drainage::free, "gut"},          {Drainage::free, "bonne"},
    {Drainage::free, "bueno"},        {Drainage::free, "goed"},
    {Drainage::poor, "bad"},          {Drainage::poor, "wet"},
    {Drainage::poor, "waterlogged"},  {Drainage::poor, "poorly drained"},
    {Drainage::poor, "schlecht"},     {Drainage::poor, "staunass"},
    {Drainage::poor, "mauvaise"},     {Drainage::poor, "hydromorphe"},
    {Drainage::poor, "malo"},         {Drainage::poor, "slecht"},
});

constexpr auto kStandards = std::to_array<Word<Wind::Standard>>({
    {Wind::Standard::none, "none"},
    {Wind::Standard::en1991, "en1991"},
    {Wind::Standard::asce7_16, "asce7-16"},
    {Wind::Standard::asce7_22, "asce7-22"},
    {Wind::Standard::en1991, "en 1991-1-4"},
    {Wind::Standard::en1991, "en1991-1-4"},
    {Wind::Standard::asce7_16, "asce 7-16"},
    {Wind::Standard::asce7_22, "asce 7-22"},
});

}  // namespace

std::string_view to_text(SoilTexture texture) {
  return word_for(kTextures, texture);
}
std::string_view to_text(Drainage drainage) {
  return word_for(kDrainages, drainage);
}
std::string_view to_text(Wind::Standard standard) {
  return word_for(kStandards, standard);
}

std::optional<SoilTexture> soil_texture_from(std::string_view text) {
  return value_for(kTextures, without_accents(text));
}
std::optional<Drainage> drainage_from(std::string_view text) {
  return value_for(kDrainages, without_accents(text));
}
std::optional<Wind::Standard> wind_standard_from(std::string_view text) {
  return value_for(kStandards, text);
}

std::vector<std::string> terrains_of(Wind::Standard standard) {
  switch (standard) {
    case Wind::Standard::none:
      return {};
    case Wind::Standard::en1991:
      return {"0", "I", "II", "III", "IV"};
    case Wind::Standard::asce7_16:
    case Wind::Standard::asce7_22:
      return {"B", "C", "D"};
  }
  return {};
}

}  // namespace rootstead
