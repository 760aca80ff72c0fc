// The invented job of sample_plan, with levels, vehicles, intents, flares and earlier damage, run
// through the engine with the shipped tables: what the chapters of advice are tested with.
#pragma once

#include "engine/advice/advice.hpp"
#include "tests/report/sample_plan.hpp"

namespace rootstead::test {

struct Advised {
  Sample sample;
  Advice advice;
  Plan plan() const {
    Plan plan = sample.plan();
    plan.advice = &advice;
    return plan;
  }
};

// Made once for each system of units.
const Advised& advised(UnitSystem units = UnitSystem::metric);
// One young tree and no work at all: there is little to say.
const Advised& advised_of_little();

}  // namespace rootstead::test
