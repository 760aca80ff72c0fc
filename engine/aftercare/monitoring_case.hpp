// One plan of visits while it is put together. Private to this room.
#pragma once

#include <string>
#include <vector>

#include "engine/aftercare/monitoring.hpp"
#include "engine/base/amount_text.hpp"

namespace rootstead::aftercare {

struct MonitoringCase {
  const Site& site;
  const Assessment& assessment;
  const MonitoringOptions& options;
  const Tables& tables;
  AmountText text;
  std::chrono::sys_days works_end;

  double best(const std::string& id) const { return tables.parameter(id).best; }
};

// The day so many months later; the last day of the month where there is no such day.
std::chrono::sys_days months_later(std::chrono::sys_days day, int months);

// What to look at and what makes people act, by kind of visit.
void add_looks(const MonitoringCase& c, const Work* work, Visit& visit);
bool any_palm(const MonitoringCase& c, const Visit& visit);

// A tree that stays, and why it is looked at after the works: the larger of its two answers decides
// how long and how often, and the reason names which.
struct Watch {
  const Tree* tree = nullptr;
  Concern concern = Concern::unknown;
  std::string reason;
};
std::vector<Watch> watches_of(const MonitoringCase& c);

}  // namespace rootstead::aftercare
