// What a crew does at the base of a tree, sentence by sentence. Internal to this room.
#pragma once

#include <vector>

#include "engine/root_crown/root_crown.hpp"

namespace rootstead {

struct CrownCase {
  const Tree& tree;
  UnitSystem units;
  const Tables& tables;
  const RootCrownAdvice& advice;  // all but its prescriptions
  bool prone = false;             // to girdling roots
};

// Topic "uncover the flare", in the order in which things are done. Empty where nothing is asked.
std::vector<Prescription> prescriptions_of(const CrownCase& c);

}  // namespace rootstead
