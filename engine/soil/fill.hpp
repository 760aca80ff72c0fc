// Fill over roots: what is left of the air at the old surface, what published rules say of it, and
// what was seen that speaks against them.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/prescription.hpp"
#include "engine/base/range.hpp"
#include "engine/base/units.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Share of air and of pores in placed fill, low to high air.
struct FillAir {
  Range air;
  double pores = 0;
  Citation from;
};
FillAir fill_air(SoilTexture texture, bool wet, const Tables& tables);

// How one kind of fill lets air through and uses it: for the low, best and high share of air.
struct FillOxygen {
  double at_surface = 0;  // per cent at the old surface
  Length tolerated;       // thickness that leaves the wanted oxygen
  Length starved;         // thickness from which little new root grows below
};
// By Millington and Quirk (1961) at 20 degrees C; which: 0 low, 1 best, 2 high.
FillOxygen fill_oxygen(SoilTexture texture, bool wet, Length thickness, int which,
                       const Tables& tables);

enum class FillVerdict {
  little,       // thinner than any rule speaks of, and air enough
  caution,      // a rule is passed over, or air is short by the model, with evidence against it
  harm_likely,  // air is short and no evidence speaks against it
};
std::string_view to_text(FillVerdict verdict);  // "little effect expected", "caution" ...

struct FillRuleReading {
  FillRule rule;
  bool passed_over = false;  // of a harmless row: the fill is within what was found harmless
};

struct FillAdvice {
  std::string work;  // id
  Length thickness;
  SoilTexture texture = SoilTexture::unknown;  // of the fill
  Range oxygen;                                // per cent at the old surface, low to high
  Range tolerated;                             // m of this fill that leave the wanted oxygen
  std::vector<FillRuleReading> rules;          // those that speak of this texture
  FillVerdict verdict = FillVerdict::little;
  std::vector<Figure> figures;
  std::vector<Prescription> prescriptions;  // topic "fill"
  std::vector<Note> notes;
};
// Requires: work.kind is fill.
FillAdvice fill_advice(const Work& work, const Soil& soil, const Tables& tables,
                       UnitSystem units = UnitSystem::metric);

}  // namespace rootstead
