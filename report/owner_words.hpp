// What the owner's sheet says, in plain words, from the plan's own assessment and advice. Private
// to the report room.
#pragma once

#include <string>
#include <vector>

#include "report/plan.hpp"

namespace rootstead {

struct OwnerLine {
  std::string tree;     // id
  std::string named;    // "T1 English oak"
  std::string outcome;  // "stays, with care"
  std::string health;   // of leaves and growth: one answer
  std::string hold;     // in the ground: the other
};

// The trees to look at first come first.
std::vector<OwnerLine> owner_lines(const Plan& plan);

struct OwnerSteps {
  std::vector<std::string> before, during, after;
};
OwnerSteps owner_steps(const Plan& plan);
std::vector<std::string> owner_duties(const Plan& plan, std::size_t most_waterings);
std::vector<std::string> warning_signs(const Plan& plan);

}  // namespace rootstead
