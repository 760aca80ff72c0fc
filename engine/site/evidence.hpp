// Evidence: ground that was opened and looked at, and the roots that were found or not found there.
// As it was written down on site; what it says about a tree is worked out in engine/roots.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/units.hpp"
#include "engine/geom/shapes.hpp"
#include "engine/site/tree.hpp"
#include "engine/site/work.hpp"

namespace rootstead {

enum class EvidenceKind {
  pit,         // a hole: a point or an area
  air_trench,  // ground blown out along a line
  dug_root,    // single roots followed or met by chance: what is not listed was not looked for
};

struct FoundRoot {
  EnteredLength diameter;
  std::optional<EnteredLength> depth;  // of its middle below ground
  std::optional<Point> at;             // else somewhere in the opening
  bool alive = true;
};

struct Evidence {
  std::string id;  // unique in the project
  EvidenceKind kind = EvidenceKind::pit;
  std::string tree;                    // id of the tree its roots belong to; empty: not known
  Shape shape;                         // of the opening
  std::optional<EnteredLength> width;  // of a line's opening, or the side of a point's; 0.5 m else
  std::optional<EnteredLength> depth;  // to which was dug; 0.6 m else
  EnteredLength counted_from{20,
                             LengthUnit::millimetre};  // every root at least this thick is listed
  std::vector<FoundRoot> roots;  // none: looked, and found none of that thickness
  std::string date, seen_by, notes;
  Origin origin;
};

inline constexpr EnteredLength kDefaultOpeningWidth{0.5, LengthUnit::metre};
inline constexpr EnteredLength kDefaultOpeningDepth{0.6, LengthUnit::metre};

// The opening in plan: areas as they are, lines as corridors, points as squares.
MultiPolygon footprint(const Evidence& evidence);

std::string_view to_text(EvidenceKind kind);  // "pit", "air trench", "dug root"
std::optional<EvidenceKind> evidence_kind_from(std::string_view text);

}  // namespace rootstead
