// The same work by every method there is for it, so that they can be laid side by side: dug by
// machine, dug by hand or air, bored, carried over the ground on pads, laid on the ground without
// digging. Which of them can be built is for others to say: levels, loads, services, the machine.
#pragma once

#include <string>
#include <vector>

#include "engine/base/note.hpp"
#include "engine/routes/appraisal.hpp"

namespace rootstead {

enum class BuildMethod { dug, by_hand, bored, bridged, on_ground };
std::string_view to_text(BuildMethod method);  // "dug by machine", ...

struct MethodDesign {
  BuildMethod method = BuildMethod::dug;
  std::string name;  // to_text of it
  std::string what;  // "pads of 0.50 m every 4.00 m", ...
  bool as_drawn = false;
  bool applies = true;
  std::string why_not;  // where it does not
  Design design;
};

// One a method, in the order of the enum; ids of the works are made from the work's own.
std::vector<MethodDesign> method_designs(const Work& work, const Site& site, const Tables& tables,
                                         const RoutePrices& prices);

struct MethodOutcome {
  MethodDesign made;
  Appraisal appraisal;  // empty where it does not apply
};
struct MethodsAnswer {
  std::string work;
  std::vector<MethodOutcome> methods;
  RoutePrices prices;
  std::vector<Note> notes;
};

// Fails with unknown_name, outside_rule_domain (the work has no shape) or as assess() does.
Result<MethodsAnswer> methods_side_by_side(const Site& site, const std::string& work,
                                           const Tables& tables, const RoutePrices& prices,
                                           const RootSimulation& how);

}  // namespace rootstead
