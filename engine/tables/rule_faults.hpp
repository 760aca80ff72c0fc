// What is wrong with a rule's own content, by place, so that a reader of rule files can point to
// the line. Whether its sources are known is for coherence() to say.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "engine/tables/zone_rule.hpp"

namespace rootstead {

struct RuleFault {
  enum class Part { rule, zone, limit };
  Part part = Part::rule;
  std::size_t index = 0;  // of the zone or limit, from 0
  std::string key;        // of the rule file, e.g. "at_most"
  std::string message;    // "at_most is less than at_least"
  std::string remedy;
};

std::vector<RuleFault> faults_of(const ZoneRule& rule);

}  // namespace rootstead
