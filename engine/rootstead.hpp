// Rootstead's engine: start here.
//
//   Site site = ...;                       engine/site      what was surveyed and what is proposed
//   Tables tables = ...;                   engine/tables    rules, species, parameters
//   auto assessment = assess(site, tables) engine/assess    zones, losses, anchorage, verdicts
//   auto advice = advise(site, tables, assessment) engine/advice   what is to be done
//
// The engine is pure: no files, clock, locale or unseeded random numbers. Lengths are metres
// inside, azimuths are clockwise from grid north, shares lie in [0, 1].
#pragma once

#include "engine/advice/advice.hpp"
#include "engine/assess/assess.hpp"
#include "engine/figures/figures.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"
