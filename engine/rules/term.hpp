// One term of a zone worked out for one tree: a radius or a crown outline, and how it came about.
#pragma once

#include <optional>

#include "engine/rules/crown_zone.hpp"
#include "engine/rules/tree_size.hpp"

namespace rootstead {

struct TermValue {
  std::optional<Length> radius;     // counted from the zone's centre (or bark), see ZoneCentre
  std::optional<GrownCrown> crown;  // of a crown term, about the stem centre
  std::string formula;              // "12 D"
  std::vector<FigureInput> inputs;  // beyond D: H, crown radii, tolerance
  std::vector<Note> notes;
  std::optional<Status> status;  // where the term itself rests on less than the rule
};

// `stem` is the D that goes in: at the measuring height, or at the base where the zone asks it.
// Fails with missing_measurement, naming what is missing.
Result<TermValue> term_value(const ZoneTerm& term, const TreeSize& size,
                             const std::optional<Length>& stem);

}  // namespace rootstead
