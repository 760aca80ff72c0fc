// docs/validation.md from what was found, and whether it is good enough.
#pragma once

#include <string>
#include <vector>

#include "engine/tables/tables.hpp"
#include "validation/target.hpp"

namespace rootstead::validation {

struct Area {
  std::string title;
  Findings (*find)();
};

struct FoundArea {
  std::string title;
  Findings findings;
};

// How many targets of one series must be hit: T1 to T33 (roots) or V1 to V15 (anchorage).
struct Requirement {
  char series = 'T';
  int count = 0, least_hits = 0;
  std::string name;
};
inline const std::vector<Requirement> kRequirements = {{'T', 33, 28, "roots"},
                                                       {'V', 15, 13, "anchorage"}};

struct Tally {
  int hits = 0, misses = 0;
  std::vector<std::string> absent;  // ids of the series that no area computes
};
Tally tally(const std::vector<FoundArea>& areas, const Requirement& requirement);

// What keeps the findings from being good enough, a sentence each: too few hits, an id twice, a
// source that sources.csv does not have, a miss without a remark. With `partial`, targets that no
// area computes yet may still become hits.
std::vector<std::string> shortcomings(const std::vector<FoundArea>& areas, const Tables& tables,
                                      bool partial);

// The page; plots are shown from `pictures/validation/`.
std::string page_of(const std::vector<FoundArea>& areas, const Tables& tables);

}  // namespace rootstead::validation
