// What a crew does where roots are cut, sentence by sentence. Internal to this room.
#pragma once

#include <vector>

#include "engine/cutting/cut_advice.hpp"

namespace rootstead {

struct CutCase {
  const Tree& tree;
  const Work& work;
  UnitSystem units;
  const Tables& tables;
  const CutAdvice& advice;  // all but its prescriptions
};

// Who must be there, each with the reason in brackets.
std::vector<std::string> present_of(const CutCase& c);
// In the order in which things are done; those of excavation safety last.
std::vector<Prescription> prescriptions_of(const CutCase& c);

}  // namespace rootstead
