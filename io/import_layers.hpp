// What a layer of a drawing or GIS file holds: said in a column map, or guessed from its name in
// English, German, French, Spanish and Dutch. Private to the readers.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "engine/site/evidence.hpp"
#include "io/import_fields.hpp"

namespace rootstead::io {

struct LayerKind {
  enum class Target { trees, work, barrier, surface, evidence, soil, boundary, gate, skip };
  Target target = Target::skip;
  WorkKind work = WorkKind::trench;
  BarrierKind barrier = BarrierKind::wall;
  std::optional<EvidenceKind> evidence;  // nothing: by its row or its shape
  bool permeable = false;                // surface
  bool kind_from_column = false;         // "works", "barriers": the kind of each is in its row
};

// "trees", "works", "barriers", "ground", "permeable ground", "evidence", "trial pit", "air
// trench", "dug root", "soil", "boundary", "gates", "skip", a kind of work ("trench", "new
// building") or a kind of barrier ("kerb", "building": one that stands).
std::optional<LayerKind> layer_kind_from(std::string_view text);
Topic topic_of(const LayerKind& kind);
std::string layer_kind_words();  // all of them, for messages

// Does it need areas, so that closed lines are outlines?
bool takes_areas(const LayerKind& kind);
bool is_area_kind(WorkKind kind);
bool is_area_kind(BarrierKind kind);

// What one layer of a source is: the map's word, else what was asked for the whole source, else
// its name. A layer whose name says another thing than what was asked is skipped where the source
// has several: a drain drawing also shows kerbs.
struct LayerChoice {
  std::optional<LayerKind> kind;  // nothing: not known
  std::string why_not;            // it is known and not wanted
};
LayerChoice choose_layer_kind(const std::string& layer,
                              const std::map<std::string, std::string>& layer_kinds,
                              const std::optional<LayerKind>& asked, bool one_of_several);

std::optional<LayerKind> guessed_layer_kind(std::string_view layer_name);

}  // namespace rootstead::io
