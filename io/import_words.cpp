#include "io/import_words.hpp"

#include <string>
#include <vector>

#include "engine/base/text.hpp"
#include "io/import_fields.hpp"

namespace rootstead::io {
namespace {

template <class Enum>
struct Meaning {
  Enum value;
  std::string_view words;  // in plain_words() form, separated by bars
};

template <class Enum, std::size_t n>
std::optional<Enum> meaning_of(const Meaning<Enum> (&meanings)[n], std::string_view text) {
  const std::string wanted = plain_words(text);
  for (const auto& meaning : meanings) {
    for (const std::string& word : split(meaning.words, '|')) {
      if (word == wanted) return meaning.value;
    }
  }
  return std::nullopt;
}

constexpr Meaning<GrowthForm> kForms[] = {
    {GrowthForm::broadleaf,
     "broadleaf|broadleaved|broad leaf|broad leaved|hardwood|laubbaum|laubholz|feuillu|frondosa|"
     "latifoliada|planifolio|loofboom|loofhout"},
    {GrowthForm::conifer,
     "conifer|coniferous|softwood|nadelbaum|nadelholz|conifere|resineux|conifera|naaldboom|"
     "naaldhout"},
    {GrowthForm::palm, "palm|palms|palme|palmier|palmera|palmboom"},
    {GrowthForm::other_monocot, "other monocot|monocot|monocotyledon|monokotyle|monocotyledone"},
};

constexpr Meaning<Condition> kConditions[] = {
    {Condition::good,
     "good|excellent|very good|gut|sehr gut|vital|bon|tres bon|bonne|excellente|bueno|buena|"
     "muy bueno|excelente|goed|zeer goed"},
    {Condition::fair,
     "fair|moderate|average|mittel|massig|maessig|befriedigend|geschwacht|moyen|moyenne|regular|"
     "medio|matig|redelijk|voldoende"},
    {Condition::poor,
     "poor|bad|very poor|declining|dying|schlecht|sehr schlecht|absterbend|mauvais|mauvaise|"
     "deperissant|malo|mala|muy malo|slecht|zeer slecht"},
    {Condition::dead, "dead|tot|abgestorben|mort|morte|muerto|muerta|seco|dood|afgestorven"},
    {Condition::unknown, "live|alive|living|lebend|vivant|vivo|levend|not assessed"},
};

constexpr Meaning<LifeStage> kStages[] = {
    {LifeStage::young,
     "young|juvenile|newly planted|sapling|jung|jungbaum|jugendphase|jeune|joven|jong|jeugdfase"},
    {LifeStage::semi_mature,
     "semi mature|early mature|middle aged|halbwuchsig|heranwachsend|reifephase|"
     "jeune adulte|semiadulto|semi maduro|halfwas|halfvolwassen"},
    {LifeStage::mature,
     "mature|fully mature|adult|ausgewachsen|altbaum|erwachsen|adulte|mur|adulto|maduro|volwassen"},
    {LifeStage::over_mature,
     "over mature|overmature|late mature|old|senescent|uberaltert|alterungsphase|alt|vieux|"
     "senescente|viejo|oud|overjarig"},
    {LifeStage::veteran,
     "veteran|ancient|notable veteran|uralt|veteran tree|remarquable|arbre veteran|veterano|"
     "monumentaal|veteraan"},
};

constexpr Meaning<Flare::State> kFlares[] = {
    {Flare::State::visible, "visible|yes|y|exposed|sichtbar|ja|oui|si|zichtbaar"},
    {Flare::State::buried,
     "buried|no|n|not visible|covered|verschuttet|nicht sichtbar|nein|enterre|non visible|non|"
     "enterrado|no visible|bedolven|niet zichtbaar|nee"},
    {Flare::State::unknown, "unknown|not seen|unbekannt|inconnu|desconocido|onbekend"},
};

template <class Enum>
std::optional<Enum> either(std::optional<Enum> first, std::optional<Enum> second) {
  return first ? first : second;
}

}  // namespace

std::optional<GrowthForm> form_word(std::string_view text) {
  return either(growth_form_from(text), meaning_of(kForms, text));
}

std::optional<Condition> condition_word(std::string_view text) {
  return either(condition_from(text), meaning_of(kConditions, text));
}

std::optional<LifeStage> stage_word(std::string_view text) {
  return either(life_stage_from(text), meaning_of(kStages, text));
}

std::optional<Flare::State> flare_word(std::string_view text) {
  return either(flare_state_from(text), meaning_of(kFlares, text));
}

}  // namespace rootstead::io
