// RootCrownAdvice: is the flare of a tree buried, what does that mean, and how is it uncovered?
// A screening from what was written down at the base; nothing is known until somebody digs.
// Sources, criteria and what it cannot know: docs/methods/root_crown.md.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/note.hpp"
#include "engine/base/prescription.hpp"
#include "engine/base/result.hpp"
#include "engine/root_crown/girdling.hpp"
#include "engine/root_crown/taper.hpp"
#include "engine/site/site.hpp"

namespace rootstead {

enum class FlareAnswer {
  flare_seen,
  burial_likely,
  dig_to_see,   // a small hole by hand will tell
  cannot_tell,  // nothing was written down
  found,        // the base was uncovered: what was found goes before every sign
  refused,      // a palm: see RootCrownAdvice::refused
};

// How the base is laid open. Lengths are counted from the bark and from the ground as it lies.
struct CrownExcavation {
  Range radius_m;  // of the open ground round the trunk
  Range depth_m;   // to the first main roots and what is dug below them; else what is usual
  bool depth_known = false;
};

// What the uncovered base says of the expectation.
struct FlareCompared {
  Length found;                                     // depth of the first main root, or the flare
  FlareAnswer expected = FlareAnswer::cannot_tell;  // from the signs alone
  std::optional<bool> as_expected;                  // nothing where the signs left it open
  bool deep = false;                                // deeper than the criterion for this tree
  std::string words;                                // one sentence
};

struct RootCrownAdvice {
  std::string tree;  // id
  FlareAnswer answer = FlareAnswer::cannot_tell;
  std::vector<std::string> reasons;  // sentences, the weightiest first
  std::optional<TaperFit> taper;
  std::optional<Range> depth_m;      // of the main roots below the ground, measured or entered
  std::optional<GirdlingRisk> risk;  // where a depth is known
  std::optional<FlareCompared> compared;
  std::optional<CrownExcavation> excavation;  // where uncovering is advised
  std::optional<Error> refused;               // palms and other monocots
  std::vector<Figure> figures;                // root-crown.*
  std::vector<Prescription> prescriptions;    // topic "uncover the flare"
  std::vector<Note> notes;
};

// Sentences are in the units of site.settings. A palm or other monocot, by its record or its
// species, is refused with the reason: its swollen base and root mat are no buried collar.
RootCrownAdvice root_crown_advice(const Tree& tree, const Site& site, const Tables& tables);

// "flare seen", "burial likely", "dig a small hole to see", "cannot tell", "found", "not asked".
std::string_view to_text(FlareAnswer answer);

}  // namespace rootstead
