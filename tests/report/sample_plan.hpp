// A small invented job by hand, so that the report is tested without files: twelve trees, palms
// and a tree of many stems among them, against seven works and a sea wall.
#pragma once

#include "report/plan.hpp"

namespace rootstead::test {

struct Sample {
  Site site;
  Tables tables;
  Assessment assessment;
  Plan plan() const { return {&site, &tables, &assessment}; }
};

Sample sample(UnitSystem units = UnitSystem::metric);

// `count` trees strewn at random over a square of `side` metres, no works near most of them.
Sample random_site(std::size_t count, double side, std::uint64_t seed);

// Zones, losses, ranges and verdicts for a site, as a stand-in for the engine: 12 diameters and
// 15 m at most; palms by their crown. Only for looks: the figures are not those of any rule.
Assessment invented_assessment(const Site& site, const Tables& tables);

}  // namespace rootstead::test
