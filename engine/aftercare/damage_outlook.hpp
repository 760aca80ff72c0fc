// What was done to the ground already: what it means for the tree now, and what is to be expected.
// Health and stability stay two answers; there is no figure for the two together, and no date of
// death. Statements are what was published or is held in practice, each with its status; method:
// docs/methods/aftercare.md.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "engine/assess/assess.hpp"
#include "engine/base/prescription.hpp"
#include "engine/water/watering.hpp"

namespace rootstead {

// The site as it stands, the existing works taken as if they were new and the new ones left out:
// what the existing works take is then the loss. Works whose ground has no shape are kept: they
// are listed by the problems.
Site site_of_damage(const Site& site);
// assess() of that. Fails as assess() does.
Result<Assessment> assess_damage(const Site& site, const Tables& tables,
                                 const AssessOptions& options = {});

// One existing work that bears on the tree.
struct Damage {
  std::string work;                  // id
  std::optional<Range> years_since;  // by its date; a month or a year of ways to read it: a range
  std::optional<Range> share_of_roots;  // absorbing roots it took alone
  std::string seen;                     // as recorded
};

struct OutlookStatement {
  std::string text;  // one sentence
  Citation from;
};

// One of the two answers.
struct OutlookAnswer {
  Concern concern = Concern::unknown;  // of the loss as it was; nothing grown back is credited
  std::vector<OutlookStatement> statements;
};

struct DamageOutlook {
  std::string tree;  // id
  std::vector<Damage> damages;
  OutlookAnswer vitality, stability;
  std::vector<Prescription> now;     // what to do, in this order
  std::optional<WaterAdvice> water;  // how to water it meanwhile; its prescriptions are in `now`
  std::vector<Figure> figures;       // aftercare.* with their trails
  std::vector<Note> notes;
};

// `damage` is the tree's part of assess_damage(site). `today` is the project's date: the engine
// has no clock. Requires: damage.tree == tree.id. A tree that no existing work reaches has no
// damages, no statements and nothing to do.
DamageOutlook damage_outlook(const Tree& tree, const Site& site, const TreeAssessment& damage,
                             std::chrono::sys_days today, const Tables& tables);

// Structural roots that have grown back, as a share of the cross-section that was cut: one study,
// 22.2 % after five years, carried on by 1 - exp(-t / 20). Shown, never credited to stability.
Range root_section_regrown(double years, const Tables& tables);
// Metres that new fine roots have gone out from the cut ends, by the climate of the site.
Range root_regrowth_m(double years, const Climate& climate, const Tables& tables);

}  // namespace rootstead
