// One tree's damage while its outlook is put together. Private to this room.
#pragma once

#include <string>
#include <vector>

#include "engine/aftercare/damage_outlook.hpp"
#include "engine/base/amount_text.hpp"

namespace rootstead::aftercare {

inline const Citation kOurs{"rootstead", "docs/methods/aftercare.md", Status::assumption};
inline const Citation kPractice{"trade-practice", "", Status::common_practice};

// What is not known may be as bad.
inline bool at_least(Concern concern, Concern least) {
  return concern == Concern::unknown || concern >= least;
}

struct OutlookCase {
  const Tree& tree;
  const Site& site;
  const TreeAssessment& damage;
  const Tables& tables;
  AmountText text;
  bool monocot = false;
  std::vector<const Work*> works;  // existing ones that bear on the tree, in the order of the site
  std::optional<Range> latest;     // years since the latest of them with a date

  double best(std::string_view id) const { return tables.parameter(id).best; }
  bool severed() const;  // any of them cuts roots
  bool pressed() const;  // any of them presses ground or covers it
  bool filled() const;
};

void add_vitality(const OutlookCase& c, DamageOutlook& outlook);
void add_stability(const OutlookCase& c, DamageOutlook& outlook);
// What to do now, after the statements.
void add_actions(const OutlookCase& c, DamageOutlook& outlook);

}  // namespace rootstead::aftercare
