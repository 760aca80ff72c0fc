// The works that are there already, seen as if they were still to come.
#include "engine/aftercare/damage_outlook.hpp"

namespace rootstead {

Site site_of_damage(const Site& site) {
  Site damage = site;
  damage.works.clear();
  for (Work work : site.works) {
    if (work.state != WorkState::existing) continue;
    work.state = WorkState::approved;
    damage.works.push_back(std::move(work));
  }
  return damage;
}

Result<Assessment> assess_damage(const Site& site, const Tables& tables,
                                 const AssessOptions& options) {
  return assess(site_of_damage(site), tables, options);
}

}  // namespace rootstead
