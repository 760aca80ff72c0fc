// How near to a trunk roots may be cut. Woody trees in stem diameters; palms by how their kind
// replaces cut roots, never by the stem.
// Sources: Smiley 2008 (3 diameters), recalled handbooks (6); Hodel et al. 2005 and others for
// palms, whose ball sizes are carried over to cuts by us. docs/methods/cutting.md.
#pragma once

#include <optional>

#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/quantity.hpp"
#include "engine/roots/palm_regrowth.hpp"
#include "engine/site/tree.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Distances from the trunk face. Woody trees have both where a stem diameter is known, palms only
// the first and always.
struct CutDistance {
  bool palm = false;
  std::optional<Length> diameter;  // D of a woody tree, root-sum-square; never of a palm
  Length trunk_radius;             // stem centre to trunk face, D/2; 0 where nothing was measured
  std::optional<Length> least;     // nearer: expect instability, or the palm's roots spoilt
  std::optional<Length> preferred;
  std::optional<PalmRegrowth> regrowth;  // palms
  std::vector<Figure> figures;           // cutting.least-distance, .preferred-distance, or
                                         // cutting.palm-distance
  std::vector<Note> notes;
};

CutDistance cut_distance(const Tree& tree, const Tables& tables);
// Of a palm of this kind, from the trunk; with its trail.
Figure palm_distance(const PalmRegrowth& regrowth, const Tables& tables);

}  // namespace rootstead
