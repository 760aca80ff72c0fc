// Excavation: what keeps people alive in the hole, and what its slopes take from the roots.
// Sources: OSHA 29 CFR 1926.651-652 (United States); British guides, which disagree. Never a
// design: a competent person classes the soil and inspects daily; law and engineer prevail.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/prescription.hpp"
#include "engine/base/result.hpp"
#include "engine/base/units.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

enum class SlopeSoil { rock, a, b, c };  // OSHA Appendix A to Subpart P

// Horizontal per vertical. Table B-1: 0, 3/4, 1, 1 1/2.
struct SlopeRatio {
  SlopeSoil soil = SlopeSoil::c;
  double ratio = 1.5;
  Citation from;
};
SlopeRatio slope_ratio(SlopeSoil soil, const Tables& tables);

// How far the top edge lies back from the bottom edge, each side.
// Fails with outside_rule_domain below 20 ft (an engineer designs it) or for no depth.
Result<Figure> slope_set_back(Length depth, SlopeSoil soil, const Tables& tables);
// Floor and two set-backs.
Result<Figure> slope_top_width(Length depth, SlopeSoil soil, Length floor, const Tables& tables);

struct ExcavationSafety {
  Length depth;
  bool protect = false;   // as deep as the depth from which OSHA asks for a protective system
  bool ladder = false;    // a way out
  bool engineer = false;  // deeper than tables go
  bool past_british_depth = false;  // 1.2 m: a rule of thumb, no law; guides disagree
  std::vector<Figure> set_backs;    // of soils A, B and C; empty below the depth of tables
  std::vector<Figure> figures;
  std::vector<Prescription> prescriptions;  // topic "excavation safety"
};
ExcavationSafety excavation_safety(Length depth, const std::string& work, UnitSystem units,
                                   const Tables& tables);

std::string_view to_text(SlopeSoil soil);                         // "stable rock", "type A" ...
std::optional<SlopeSoil> slope_soil_from(std::string_view text);  // "rock", "A", "type b"

}  // namespace rootstead
