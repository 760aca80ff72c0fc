// TreeSize: one tree as one rule measures it.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/result.hpp"
#include "engine/site/tree.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

struct TreeSize {
  const Tree* tree = nullptr;
  std::optional<Length> diameter;           // D, by the rule's convention
  std::string why_no_diameter;              // where D is missing
  std::string diameter_formula;             // "D = sqrt(d1^2 + d2^2)"; empty for a single stem
  std::optional<Status> convention_status;  // where stems were combined and the rule marks it
  Tolerance tolerance = Tolerance::unknown;
  std::vector<FigureInput> stems;  // as entered: d1, d2 ... or u1 ...
  std::vector<Note> notes;

  std::optional<Length> girth() const;  // U = pi D
};

TreeSize size_of(const Tree& tree, Tolerance tolerance, const ZoneRule& rule);

// To the nearest multiple of `step`, halves upward.
Length rounded_to(Length length, const EnteredLength& step);

// "6.0000 m" for lengths that were computed, not entered.
std::string computed_text(Length length);

}  // namespace rootstead
