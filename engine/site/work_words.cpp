// The words of plans and specifications: first the one this program writes, then others it reads,
// in English, German, French, Spanish and Dutch, without accents.
#include "engine/base/words.hpp"
#include "engine/site/accents.hpp"
#include "engine/site/work.hpp"

namespace rootstead {
namespace {

constexpr auto kWorks = std::to_array<Word<WorkKind>>({
    {WorkKind::trench, "trench"},
    {WorkKind::pit, "pit"},
    {WorkKind::cut, "cut"},
    {WorkKind::fill, "fill"},
    {WorkKind::paving, "paving"},
    {WorkKind::traffic, "traffic"},
    {WorkKind::building, "building"},
    {WorkKind::fence_posts, "fence posts"},
    {WorkKind::bore, "bore"},
    {WorkKind::root_cut, "root cut"},
    {WorkKind::trench, "service trench"},
    {WorkKind::trench, "drain"},
    {WorkKind::trench, "pipe"},
    {WorkKind::trench, "cable"},
    {WorkKind::trench, "graben"},
    {WorkKind::trench, "leitungsgraben"},
    {WorkKind::trench, "tranchee"},
    {WorkKind::trench, "zanja"},
    {WorkKind::trench, "sleuf"},
    {WorkKind::pit, "excavation"},
    {WorkKind::pit, "foundation pit"},
    {WorkKind::pit, "baugrube"},
    {WorkKind::pit, "grube"},
    {WorkKind::pit, "fouille"},
    {WorkKind::pit, "excavacion"},
    {WorkKind::pit, "bouwput"},
    {WorkKind::cut, "ground lowering"},
    {WorkKind::cut, "lowering"},
    {WorkKind::cut, "abtrag"},
    {WorkKind::cut, "deblai"},
    {WorkKind::cut, "desmonte"},
    {WorkKind::cut, "afgraving"},
    {WorkKind::fill, "raising"},
    {WorkKind::fill, "ground raising"},
    {WorkKind::fill, "auftrag"},
    {WorkKind::fill, "aufschuttung"},
    {WorkKind::fill, "remblai"},
    {WorkKind::fill, "relleno"},
    {WorkKind::fill, "ophoging"},
    {WorkKind::paving, "pavement"},
    {WorkKind::paving, "path"},
    {WorkKind::paving, "road"},
    {WorkKind::paving, "hard surface"},
    {WorkKind::paving, "pflaster"},
    {WorkKind::paving, "belag"},
    {WorkKind::paving, "weg"},
    {WorkKind::paving, "strasse"},
    {WorkKind::paving, "revetement"},
    {WorkKind::paving, "pavimento"},
    {WorkKind::paving, "verharding"},
    {WorkKind::traffic, "haul road"},
    {WorkKind::traffic, "storage"},
    {WorkKind::traffic, "access"},
    {WorkKind::traffic, "compound"},
    {WorkKind::traffic, "baustrasse"},
    {WorkKind::traffic, "lager"},
    {WorkKind::traffic, "lagerflache"},
    {WorkKind::traffic, "circulation"},
    {WorkKind::traffic, "stockage"},
    {WorkKind::traffic, "trafico"},
    {WorkKind::traffic, "acopio"},
    {WorkKind::traffic, "bouwverkeer"},
    {WorkKind::traffic, "opslag"},
    {WorkKind::building, "extension"},
    {WorkKind::building, "house"},
    {WorkKind::building, "structure"},
    {WorkKind::building, "gebaude"},
    {WorkKind::building, "batiment"},
    {WorkKind::building, "edificio"},
    {WorkKind::building, "gebouw"},
    {WorkKind::fence_posts, "fence"},
    {WorkKind::fence_posts, "posts"},
    {WorkKind::fence_posts, "zaun"},
    {WorkKind::fence_posts, "zaunpfosten"},
    {WorkKind::fence_posts, "cloture"},
    {WorkKind::fence_posts, "valla"},
    {WorkKind::fence_posts, "hek"},
    {WorkKind::bore, "directional bore"},
    {WorkKind::bore, "directional drilling"},
    {WorkKind::bore, "tunnelling"},
    {WorkKind::bore, "bohrung"},
    {WorkKind::bore, "forage"},
    {WorkKind::bore, "perforacion"},
    {WorkKind::bore, "boring"},
    {WorkKind::root_cut, "root pruning"},
    {WorkKind::root_cut, "wurzelschnitt"},
    {WorkKind::root_cut, "coupe de racines"},
    {WorkKind::root_cut, "corte de raices"},
    {WorkKind::root_cut, "wortelsnoei"},
});

constexpr auto kStates = std::to_array<Word<WorkState>>({
    {WorkState::proposed, "proposed"},  {WorkState::approved, "approved"},
    {WorkState::existing, "existing"},  {WorkState::proposed, "planned"},
    {WorkState::proposed, "geplant"},   {WorkState::proposed, "propose"},
    {WorkState::proposed, "propuesto"}, {WorkState::proposed, "voorgesteld"},
    {WorkState::approved, "genehmigt"}, {WorkState::approved, "approuve"},
    {WorkState::approved, "aprobado"},  {WorkState::approved, "goedgekeurd"},
    {WorkState::existing, "built"},     {WorkState::existing, "as built"},
    {WorkState::existing, "bestand"},   {WorkState::existing, "vorhanden"},
    {WorkState::existing, "existant"},  {WorkState::existing, "existente"},
    {WorkState::existing, "bestaand"},
});

constexpr auto kMethods = std::to_array<Word<DigMethod>>({
    {DigMethod::machine, "machine"},
    {DigMethod::hand, "hand"},
    {DigMethod::air, "air"},
    {DigMethod::machine, "excavator"},
    {DigMethod::machine, "mechanical"},
    {DigMethod::machine, "maschine"},
    {DigMethod::machine, "bagger"},
    {DigMethod::machine, "mecanique"},
    {DigMethod::machine, "maquina"},
    {DigMethod::machine, "machinaal"},
    {DigMethod::hand, "by hand"},
    {DigMethod::hand, "hand dig"},
    {DigMethod::hand, "von hand"},
    {DigMethod::hand, "handschachtung"},
    {DigMethod::hand, "manuel"},
    {DigMethod::hand, "manual"},
    {DigMethod::hand, "handmatig"},
    {DigMethod::air, "air tool"},
    {DigMethod::air, "compressed air"},
    {DigMethod::air, "suction"},
    {DigMethod::air, "vacuum"},
    {DigMethod::air, "druckluft"},
    {DigMethod::air, "saugbagger"},
    {DigMethod::air, "air comprime"},
    {DigMethod::air, "aire comprimido"},
    {DigMethod::air, "perslucht"},
});

constexpr auto kBarriers = std::to_array<Word<BarrierKind>>({
    {BarrierKind::wall, "wall"},
    {BarrierKind::foundation, "foundation"},
    {BarrierKind::kerb, "kerb"},
    {BarrierKind::root_barrier, "root barrier"},
    {BarrierKind::building, "building"},
    {BarrierKind::rock, "rock"},
    {BarrierKind::water, "water"},
    {BarrierKind::wall, "retaining wall"},
    {BarrierKind::wall, "sea wall"},
    {BarrierKind::wall, "mauer"},
    {BarrierKind::wall, "mur"},
    {BarrierKind::wall, "muro"},
    {BarrierKind::wall, "muur"},
    {BarrierKind::foundation, "footing"},
    {BarrierKind::foundation, "fundament"},
    {BarrierKind::foundation, "fondation"},
    {BarrierKind::foundation, "cimiento"},
    {BarrierKind::foundation, "fundering"},
    {BarrierKind::kerb, "curb"},
    {BarrierKind::kerb, "bordstein"},
    {BarrierKind::kerb, "bordure"},
    {BarrierKind::kerb, "bordillo"},
    {BarrierKind::kerb, "stoeprand"},
    {BarrierKind::root_barrier, "wurzelsperre"},
    {BarrierKind::root_barrier, "barriere racinaire"},
    {BarrierKind::root_barrier, "barrera de raices"},
    {BarrierKind::root_barrier, "wortelscherm"},
    {BarrierKind::building, "house"},
    {BarrierKind::building, "gebaude"},
    {BarrierKind::building, "batiment"},
    {BarrierKind::building, "edificio"},
    {BarrierKind::building, "gebouw"},
    {BarrierKind::rock, "fels"},
    {BarrierKind::rock, "roche"},
    {BarrierKind::rock, "roca"},
    {BarrierKind::rock, "rots"},
    {BarrierKind::water, "wasser"},
    {BarrierKind::water, "eau"},
    {BarrierKind::water, "agua"},
});

}  // namespace

std::string_view to_text(WorkKind kind) {
  return word_for(kWorks, kind);
}
std::string_view to_text(WorkState state) {
  return word_for(kStates, state);
}
std::string_view to_text(DigMethod method) {
  return word_for(kMethods, method);
}
std::string_view to_text(BarrierKind kind) {
  return word_for(kBarriers, kind);
}

std::optional<WorkKind> work_kind_from(std::string_view text) {
  return value_for(kWorks, without_accents(text));
}
std::optional<WorkState> work_state_from(std::string_view text) {
  return value_for(kStates, without_accents(text));
}
std::optional<DigMethod> dig_method_from(std::string_view text) {
  return value_for(kMethods, without_accents(text));
}
std::optional<BarrierKind> barrier_kind_from(std::string_view text) {
  return value_for(kBarriers, without_accents(text));
}

}  // namespace rootstead
