#include "io/import_layers.hpp"

#include <array>
#include <vector>

#include "engine/base/text.hpp"
#include "io/import_fields.hpp"

namespace rootstead::io {
namespace {

using Target = LayerKind::Target;

LayerKind work(WorkKind kind) {
  return {Target::work, kind, {}, {}, false, false};
}
LayerKind barrier(BarrierKind kind) {
  return {Target::barrier, {}, kind, {}, false, false};
}
LayerKind surface(bool permeable) {
  return {Target::surface, {}, {}, {}, permeable, false};
}
LayerKind trees() {
  return {Target::trees, {}, {}, {}, false, false};
}
LayerKind evidence(std::optional<EvidenceKind> kind) {
  return {Target::evidence, {}, {}, kind, false, false};
}

struct Named {
  std::string_view words;
  LayerKind kind;
};

const std::vector<Named>& named_kinds() {
  static const std::vector<Named> kKinds{
      {"trees", trees()},
      {"works", {Target::work, WorkKind::trench, {}, {}, false, true}},
      {"barriers", {Target::barrier, {}, BarrierKind::wall, {}, false, true}},
      {"ground", surface(false)},
      {"permeable ground", surface(true)},
      {"evidence", evidence({})},
      {"trial pit", evidence(EvidenceKind::pit)},
      {"air trench", evidence(EvidenceKind::air_trench)},
      {"dug root", evidence(EvidenceKind::dug_root)},
      {"soil", {Target::soil, {}, {}, {}, false, false}},
      {"boundary", {Target::boundary, {}, {}, {}, false, false}},
      {"gates", {Target::gate, {}, {}, {}, false, false}},
      {"skip", LayerKind{}},
      {"trench", work(WorkKind::trench)},
      {"pit", work(WorkKind::pit)},
      {"cut", work(WorkKind::cut)},
      {"fill", work(WorkKind::fill)},
      {"paving", work(WorkKind::paving)},
      {"traffic", work(WorkKind::traffic)},
      {"new building", work(WorkKind::building)},
      {"fence posts", work(WorkKind::fence_posts)},
      {"bore", work(WorkKind::bore)},
      {"root cut", work(WorkKind::root_cut)},
      {"wall", barrier(BarrierKind::wall)},
      {"foundation", barrier(BarrierKind::foundation)},
      {"kerb", barrier(BarrierKind::kerb)},
      {"root barrier", barrier(BarrierKind::root_barrier)},
      {"building", barrier(BarrierKind::building)},
      {"rock", barrier(BarrierKind::rock)},
      {"water", barrier(BarrierKind::water)},
  };
  return kKinds;
}

// Tried from the top: the first with a word that the layer name holds wins. Words of four letters
// and more may also be part of a longer word ("stuetzmauer"), shorter ones stand alone.
const std::vector<Named>& hints() {
  static const std::vector<Named> kHints{
      {"root barrier|wurzelschutz|wurzelsperre|barriere anti racine|wortelscherm",
       barrier(BarrierKind::root_barrier)},
      {"tree pit|tree well|tree grate|baumscheibe|fosse d arbre|alcorque|boomspiegel|planting bed",
       surface(true)},
      {"site boundary|property boundary|ownership boundary|plot boundary|red line boundary|"
       "grundstucksgrenze|limite de propriete|limite de parcelle|limite de parcela|perceelgrens",
       {Target::boundary, {}, {}, {}, false, false}},
      {"gate|gates|site entrance|site access|baustellenzufahrt|acces de chantier|acceso de obra|"
       "bouwinrit",
       {Target::gate, {}, {}, {}, false, false}},
      {"trial pit|trial pits|trial hole|trial holes|schurf|schurfe|suchschacht|sondage|calicata|"
       "proefkuil|evidence",
       evidence({})},
      {"air trench|trial trench|suchgraben|proefsleuf", evidence(EvidenceKind::air_trench)},
      {"root cut|wurzelschnitt", work(WorkKind::root_cut)},
      {"fence post|zaunpfosten|zaun neu", work(WorkKind::fence_posts)},
      {"new building|proposed building|extension|neubau|anbau|nieuwbouw|bloc propose",
       work(WorkKind::building)},
      {"new paving|proposed paving|paving new|new path|proposed path|path widening",
       work(WorkKind::paving)},
      {"directional|hdd|spulbohrung|pressbohrung|forage dirige|boring", work(WorkKind::bore)},
      {"trench|graben|leitungsgraben|tranchee|zanja|sleuf", work(WorkKind::trench)},
      {"excavation|baugrube|aushub|fouille|excavacion|ontgraving|bouwput", work(WorkKind::pit)},
      {"haul road|baustrasse|storage area|lagerflache|site traffic", work(WorkKind::traffic)},
      {"tree|trees|baum|baume|arbre|arbres|arbol|arboles|boom|bomen", trees()},
      {"kerb|kerbs|curb|bordstein|bordure|bordillo|stoeprand|trottoirband",
       barrier(BarrierKind::kerb)},
      {"wall|walls|mauer|muret|muro|muros|muur", barrier(BarrierKind::wall)},
      {"foundation|footing|fundament|fondation|cimiento|fundering",
       barrier(BarrierKind::foundation)},
      {"building|buildings|gebaude|gebaeude|batiment|bati|edificio|edificios|gebouw|pand",
       barrier(BarrierKind::building)},
      {"hardscape|paving|pavement|sidewalk|driveway|parking|footway|walkway|roads|road area|"
       "carriageway|belag|gehweg|fahrbahn|parkplatz|trottoir|chaussee|acera|calzada|bestrating|"
       "verharding",
       surface(false)},
      {"river|pond|lake|canal|gewasser|etang|estanque|vijver", barrier(BarrierKind::water)},
      {"bedrock|felsen", barrier(BarrierKind::rock)},
  };
  return kHints;
}

constexpr std::size_t kShortestPart = 6;  // letters; shorter words must stand alone

bool holds(const std::string& name, const std::string& hint) {
  const auto at = name.find(hint);
  if (at == std::string::npos) return false;
  if (hint.size() >= kShortestPart) return true;
  return (" " + name + " ").find(" " + hint + " ") != std::string::npos;
}

}  // namespace

std::optional<LayerKind> layer_kind_from(std::string_view text) {
  const std::string words = plain_words(text);
  for (const Named& named : named_kinds()) {
    if (words == named.words || words + "s" == named.words) return named.kind;
  }
  if (const auto kind = work_kind_from(text)) return work(*kind);
  if (const auto kind = barrier_kind_from(text)) return barrier(*kind);
  return std::nullopt;
}

Topic topic_of(const LayerKind& kind) {
  if (kind.target == Target::trees) return Topic::trees;
  if (kind.target == Target::evidence) return Topic::evidence;
  return kind.target == Target::soil ? Topic::soil : Topic::works;
}

std::string layer_kind_words() {
  std::string words;
  for (const Named& named : named_kinds()) {
    if (!words.empty()) words += ", ";
    words += named.words;
  }
  return words;
}

bool is_area_kind(WorkKind kind) {
  return kind == WorkKind::pit || kind == WorkKind::cut || kind == WorkKind::fill ||
         kind == WorkKind::paving || kind == WorkKind::traffic || kind == WorkKind::building;
}

bool is_area_kind(BarrierKind kind) {
  return kind == BarrierKind::building || kind == BarrierKind::rock || kind == BarrierKind::water;
}

bool takes_areas(const LayerKind& kind) {
  if (kind.target == Target::surface || kind.target == Target::boundary) return true;
  if (kind.kind_from_column) return false;
  if (kind.target == Target::work) return is_area_kind(kind.work);
  return kind.target == Target::barrier && is_area_kind(kind.barrier);
}

LayerChoice choose_layer_kind(const std::string& layer,
                              const std::map<std::string, std::string>& layer_kinds,
                              const std::optional<LayerKind>& asked, bool one_of_several) {
  if (const auto said = layer_kinds.find(layer); said != layer_kinds.end()) {
    const auto kind = layer_kind_from(said->second);
    if (kind && kind->target == Target::skip) return {kind, "skipped as the column map says"};
    return {kind, {}};
  }
  const auto guessed = guessed_layer_kind(layer);
  if (!asked) return {guessed, {}};
  if (guessed && guessed->target == asked->target) return {guessed, {}};
  if (guessed && one_of_several) return {LayerKind{}, "by its name it is something else"};
  return {asked, {}};
}

std::optional<LayerKind> guessed_layer_kind(std::string_view layer_name) {
  const std::string name = plain_words(layer_name);
  for (const Named& hint : hints()) {
    for (const std::string& words : split(hint.words, '|')) {
      if (holds(name, words)) return hint.kind;
    }
  }
  return std::nullopt;
}

}  // namespace rootstead::io
