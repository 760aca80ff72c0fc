// The protection plan: where fences stand, what is laid on the ground, how and where is dug, in
// which order, who attends, and how much of each. Everything is drawn from the zones and the works
// of one site, so that table and drawing cannot disagree.
// Method, figures and what it cannot know: docs/methods/protection.md.
//
// A kept tree's ground is its zone, within the boundary and in front of what stands there. New
// works with their working room are taken out of it; what is left, over all trees together, is
// fenced; what works or wheels need of it is covered. Lengths and areas of the plan are those of
// its own geometry, exactly. Positions are those of the site's grid, in metres.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/assess/assess.hpp"
#include "engine/base/amount_text.hpp"
#include "engine/base/prescription.hpp"
#include "engine/protection/clashes.hpp"
#include "engine/protection/plan_parts.hpp"

namespace rootstead {

// Fails with empty_geometry where the site has no tree. `assessment` must be of this site; nothing
// else can go wrong: what cannot be protected is named in `clashes` and `notes`.
// The same site moved or turned gives the same quantities to 0.1, and one post more or less where a
// run is a whole number of bays long (crown outlines follow grid north and are measured anew).
Result<ProtectionPlan> protection_plan(const Site& site, const Tables& tables,
                                       const Assessment& assessment,
                                       const ProtectionOptions& options = {});

// What the plan asks for, as sentences: topics "fence", "ground protection", "dig by hand",
// "no-dig", "root cut", "signs", "hold point". In the order of the work; one a stretch.
std::vector<Prescription> prescriptions_of(const ProtectionPlan& plan, const Site& site,
                                           const Tables& tables, UnitSystem units);

// Every quantity with its trail, for `why`: the bill's items by name "protection.<item>".
std::vector<Figure> figures_of(const ProtectionPlan& plan);

// The bill of quantities of a plan, made by us or by hand, from its geometry alone.
std::vector<BillItem> bill_of(const ProtectionPlan& plan, const Tables& tables);

}  // namespace rootstead
