// Advice: all that is to be done about a site, from one assessment, so that no page can disagree
// with another: levels, soil, protection, cuts, bores, moves, root crowns, water, what was damaged
// before, visits, replacement, and what authorities ask for.
// Each part's method and sources are on its own page of docs/methods.
#pragma once

#include <chrono>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "engine/aftercare/damage_outlook.hpp"
#include "engine/aftercare/monitoring.hpp"
#include "engine/cutting/bore_advice.hpp"
#include "engine/cutting/cut_advice.hpp"
#include "engine/levels/level_works.hpp"
#include "engine/protection/protection_plan.hpp"
#include "engine/replacement/replacement.hpp"
#include "engine/root_crown/root_crown.hpp"
#include "engine/soil/fill.hpp"
#include "engine/soil/soil_state.hpp"
#include "engine/soil/traffic.hpp"
#include "engine/submittal/submittal.hpp"
#include "engine/transplant/transplant.hpp"
#include "engine/water/watering.hpp"

namespace rootstead {

struct TreeAdvice {
  std::string tree;               // id
  std::vector<CutAdvice> cuts;    // one a new work that cuts its roots
  std::vector<BoreAdvice> bores;  // one a new trench or bore that comes within its distance
  RootCrownAdvice root_crown;
  std::optional<WaterAdvice> water;      // of a kept tree that loses roots
  std::optional<TransplantAdvice> move;  // where it is to be moved
  std::optional<Error> no_move;          // asked for, but nothing can be said
  std::optional<DamageOutlook> damage;   // where earlier works reach it
};

struct Advice {
  std::optional<LevelChanges> levels;  // where the site has ground levels
  std::optional<Error> no_levels;      // it has, but they cannot be compared
  SoilState soil;
  std::vector<TrafficAdvice> traffic;  // one a new work that is traffic
  std::vector<FillAdvice> fills;       // one a new fill
  std::optional<ProtectionPlan> protection;
  std::vector<TreeAdvice> trees;             // order of site.trees
  std::optional<MonitoringPlan> monitoring;  // where the project has a date
  ReplacementAdvice replacement;
  std::vector<SubmittalLine> checklist;

  // What to do, in the order of the work; each once.
  std::vector<Prescription> prescriptions() const;
};

struct AdviceOptions {
  RootSimulation simulation;   // that of the assessment
  std::set<std::string> made;  // outputs of this submittal, by names of submittal_outputs()
};

// Keys of ProjectSettings::other that choose what is advised by; each may be missing.
inline constexpr std::string_view kCutStandardKey = "cut standard";            // id
inline constexpr std::string_view kReplacementRulesKey = "replacement rules";  // ids, commas
inline constexpr std::string_view kWorksBeginKey = "works begin";     // date; else the date
inline constexpr std::string_view kWorksEndKey = "works end";         // date
inline constexpr std::string_view kYearsOfCareKey = "years of care";  // 1 to 5

// The site with the works that follow from its ground levels among its works; a site without two
// surfaces comes back as it is. Fails as level_changes() does. To be called before assess().
Result<Site> with_level_works(Site site, const Tables& tables);

// `assessment` must be of this site. Fails with unknown_name where a setting names a standard that
// is not known; what cannot be said of one tree or work is in its own part.
Result<Advice> advise(const Site& site, const Tables& tables, const Assessment& assessment,
                      const AdviceOptions& options = {});

}  // namespace rootstead
