// What a layer of a drawing or GIS file holds: said in a column map, or guessed from its name in
// English, German, French, Spanish and Dutch. Private to the readers.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "engine/site/work.hpp"

namespace rootstead::io {

struct LayerKind {
  enum class Target { trees, work, barrier, surface, skip };
  Target target = Target::skip;
  WorkKind work = WorkKind::trench;
  BarrierKind barrier = BarrierKind::wall;
  bool permeable = false;  // surface
  bool kind_from_column = false;  // "works", "barriers": the kind of each is in its row
};

// "trees", "works", "barriers", "ground", "permeable ground", "skip", a kind of work ("trench",
// "new building") or a kind of barrier ("kerb", "building": one that stands).
std::optional<LayerKind> layer_kind_from(std::string_view text);
std::string layer_kind_words();  // all of them, for messages

std::optional<LayerKind> guessed_layer_kind(std::string_view layer_name);

}  // namespace rootstead::io
