// The words of a tree survey: first the one this program writes, then others it reads, in English,
// German, French, Spanish and Dutch, without accents.
#include "engine/base/words.hpp"
#include "engine/site/accents.hpp"
#include "engine/site/tree.hpp"

namespace rootstead {
namespace {

constexpr auto kForms = std::to_array<Word<GrowthForm>>({
    {GrowthForm::unknown, "unknown"},
    {GrowthForm::broadleaf, "broadleaf"},
    {GrowthForm::conifer, "conifer"},
    {GrowthForm::palm, "palm"},
    {GrowthForm::other_monocot, "other monocot"},
    {GrowthForm::unknown, "unbekannt"},
    {GrowthForm::unknown, "inconnu"},
    {GrowthForm::unknown, "desconocido"},
    {GrowthForm::unknown, "onbekend"},
    {GrowthForm::broadleaf, "broad leaf"},
    {GrowthForm::broadleaf, "broadleaved"},
    {GrowthForm::broadleaf, "broad leaved"},
    {GrowthForm::broadleaf, "broadleaf tree"},
    {GrowthForm::broadleaf, "hardwood"},
    {GrowthForm::broadleaf, "laubbaum"},
    {GrowthForm::broadleaf, "laubgeholz"},
    {GrowthForm::broadleaf, "feuillu"},
    {GrowthForm::broadleaf, "frondosa"},
    {GrowthForm::broadleaf, "loofboom"},
    {GrowthForm::conifer, "coniferous"},
    {GrowthForm::conifer, "softwood"},
    {GrowthForm::conifer, "nadelbaum"},
    {GrowthForm::conifer, "nadelgeholz"},
    {GrowthForm::conifer, "konifere"},
    {GrowthForm::conifer, "conifere"},
    {GrowthForm::conifer, "resineux"},
    {GrowthForm::conifer, "conifera"},
    {GrowthForm::conifer, "naaldboom"},
    {GrowthForm::palm, "palms"},
    {GrowthForm::palm, "palm tree"},
    {GrowthForm::palm, "palme"},
    {GrowthForm::palm, "palmier"},
    {GrowthForm::palm, "palmera"},
    {GrowthForm::palm, "palma"},
    {GrowthForm::palm, "palmboom"},
    {GrowthForm::other_monocot, "monocot"},
    {GrowthForm::other_monocot, "monocotyledon"},
    {GrowthForm::other_monocot, "einkeimblattrig"},
    {GrowthForm::other_monocot, "monocotyledone"},
    {GrowthForm::other_monocot, "monocotiledonea"},
    {GrowthForm::other_monocot, "eenzaadlobbig"},
});

constexpr auto kConditions = std::to_array<Word<Condition>>({
    {Condition::unknown, "unknown"},  {Condition::good, "good"},
    {Condition::fair, "fair"},        {Condition::poor, "poor"},
    {Condition::dead, "dead"},        {Condition::unknown, "unbekannt"},
    {Condition::unknown, "inconnu"},  {Condition::unknown, "desconocido"},
    {Condition::unknown, "onbekend"}, {Condition::good, "excellent"},
    {Condition::good, "very good"},   {Condition::good, "healthy"},
    {Condition::good, "gut"},         {Condition::good, "sehr gut"},
    {Condition::good, "bon"},         {Condition::good, "bonne"},
    {Condition::good, "bueno"},       {Condition::good, "buena"},
    {Condition::good, "goed"},        {Condition::fair, "moderate"},
    {Condition::fair, "average"},     {Condition::fair, "mittel"},
    {Condition::fair, "massig"},      {Condition::fair, "moyen"},
    {Condition::fair, "moyenne"},     {Condition::fair, "regular"},
    {Condition::fair, "matig"},       {Condition::fair, "redelijk"},
    {Condition::poor, "bad"},         {Condition::poor, "very poor"},
    {Condition::poor, "declining"},   {Condition::poor, "schlecht"},
    {Condition::poor, "mauvais"},     {Condition::poor, "mauvaise"},
    {Condition::poor, "malo"},        {Condition::poor, "mala"},
    {Condition::poor, "slecht"},      {Condition::dead, "tot"},
    {Condition::dead, "abgestorben"}, {Condition::dead, "mort"},
    {Condition::dead, "morte"},       {Condition::dead, "muerto"},
    {Condition::dead, "muerta"},      {Condition::dead, "dood"},
});

constexpr auto kStages = std::to_array<Word<LifeStage>>({
    {LifeStage::unknown, "unknown"},
    {LifeStage::young, "young"},
    {LifeStage::semi_mature, "semi-mature"},
    {LifeStage::mature, "mature"},
    {LifeStage::over_mature, "over-mature"},
    {LifeStage::veteran, "veteran"},
    {LifeStage::unknown, "unbekannt"},
    {LifeStage::unknown, "inconnu"},
    {LifeStage::unknown, "desconocido"},
    {LifeStage::unknown, "onbekend"},
    {LifeStage::young, "juvenile"},
    {LifeStage::young, "newly planted"},
    {LifeStage::young, "jung"},
    {LifeStage::young, "jungbaum"},
    {LifeStage::young, "jeune"},
    {LifeStage::young, "joven"},
    {LifeStage::young, "jong"},
    {LifeStage::semi_mature, "semimature"},
    {LifeStage::semi_mature, "early mature"},
    {LifeStage::semi_mature, "middle aged"},
    {LifeStage::semi_mature, "heranwachsend"},
    {LifeStage::semi_mature, "semi adulte"},
    {LifeStage::semi_mature, "semimaduro"},
    {LifeStage::semi_mature, "halfvolwassen"},
    {LifeStage::mature, "adult"},
    {LifeStage::mature, "ausgewachsen"},
    {LifeStage::mature, "adulte"},
    {LifeStage::mature, "adulto"},
    {LifeStage::mature, "maduro"},
    {LifeStage::mature, "volwassen"},
    {LifeStage::over_mature, "overmature"},
    {LifeStage::over_mature, "late mature"},
    {LifeStage::over_mature, "senescent"},
    {LifeStage::over_mature, "uberaltert"},
    {LifeStage::over_mature, "senescente"},
    {LifeStage::over_mature, "sobremaduro"},
    {LifeStage::over_mature, "aftakelend"},
    {LifeStage::veteran, "ancient"},
    {LifeStage::veteran, "uralt"},
    {LifeStage::veteran, "veteranenbaum"},
    {LifeStage::veteran, "veterano"},
    {LifeStage::veteran, "veteraan"},
});

using State = Flare::State;
constexpr auto kFlares = std::to_array<Word<State>>({
    {State::unknown, "unknown"},     {State::visible, "visible"},   {State::buried, "buried"},
    {State::unknown, "unbekannt"},   {State::unknown, "inconnu"},   {State::unknown, "desconocido"},
    {State::unknown, "onbekend"},    {State::visible, "yes"},       {State::visible, "exposed"},
    {State::visible, "sichtbar"},    {State::visible, "zichtbaar"}, {State::buried, "no"},
    {State::buried, "not visible"},  {State::buried, "covered"},    {State::buried, "verschuttet"},
    {State::buried, "uberschuttet"}, {State::buried, "enterre"},    {State::buried, "enterrado"},
    {State::buried, "bedekt"},
});

constexpr auto kSigns = std::to_array<Word<FlareSign>>({
    {FlareSign::no_flare_all_round, "no flare all round"},
    {FlareSign::flare_on_one_side, "flare on one side"},
    {FlareSign::graft_below_ground, "graft below ground"},
    {FlareSign::gap_when_rocked, "gap when rocked"},
    {FlareSign::roots_round_trunk, "roots round trunk"},
    {FlareSign::soil_or_mulch_heaped, "soil or mulch heaped"},
    {FlareSign::wet_or_soft_bark, "wet or soft bark"},
    {FlareSign::mushrooms_at_base, "mushrooms at base"},
    {FlareSign::stem_roots, "stem roots"},
    {FlareSign::no_flare_all_round, "no flare"},
    {FlareSign::roots_round_trunk, "girdling root"},
    {FlareSign::soil_or_mulch_heaped, "mulch heaped"},
});

constexpr auto kHistories = std::to_array<Word<GrowthHistory>>({
    {GrowthHistory::unknown, "unknown"},
    {GrowthHistory::from_seed_in_place, "from seed in place"},
    {GrowthHistory::planted_from_nursery, "planted from nursery"},
    {GrowthHistory::moved_before, "moved before"},
    {GrowthHistory::from_seed_in_place, "grown in place"},
    {GrowthHistory::from_seed_in_place, "natural"},
    {GrowthHistory::planted_from_nursery, "nursery"},
    {GrowthHistory::planted_from_nursery, "planted"},
    {GrowthHistory::moved_before, "transplanted"},
});

constexpr auto kIntents = std::to_array<Word<Intent>>({
    {Intent::undecided, "undecided"},
    {Intent::keep, "keep"},
    {Intent::move, "move"},
    {Intent::remove, "remove"},
    {Intent::keep, "retain"},
    {Intent::move, "transplant"},
    {Intent::move, "relocate"},
    {Intent::remove, "fell"},
});

}  // namespace

std::string_view to_text(GrowthForm form) {
  return word_for(kForms, form);
}
std::string_view to_text(Condition condition) {
  return word_for(kConditions, condition);
}
std::string_view to_text(LifeStage stage) {
  return word_for(kStages, stage);
}
std::string_view to_text(Flare::State state) {
  return word_for(kFlares, state);
}
std::string_view to_text(FlareSign sign) {
  return word_for(kSigns, sign);
}
std::string_view to_text(GrowthHistory history) {
  return word_for(kHistories, history);
}
std::string_view to_text(Intent intent) {
  return word_for(kIntents, intent);
}

std::optional<GrowthForm> growth_form_from(std::string_view text) {
  return value_for(kForms, without_accents(text));
}
std::optional<Condition> condition_from(std::string_view text) {
  return value_for(kConditions, without_accents(text));
}
std::optional<LifeStage> life_stage_from(std::string_view text) {
  return value_for(kStages, without_accents(text));
}
std::optional<Flare::State> flare_state_from(std::string_view text) {
  return value_for(kFlares, without_accents(text));
}

std::optional<FlareSign> flare_sign_from(std::string_view text) {
  return value_for(kSigns, without_accents(text));
}
std::optional<GrowthHistory> growth_history_from(std::string_view text) {
  return value_for(kHistories, without_accents(text));
}
std::optional<Intent> intent_from(std::string_view text) {
  return value_for(kIntents, without_accents(text));
}

}  // namespace rootstead
