// assess: the one road from a Site to everything that is said about it. A pure function: same
// input, same bits, for any number of threads.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/remedies/verdict.hpp"
#include "engine/roots/roots_met.hpp"

namespace rootstead {

struct AssessOptions {
  RootSimulation simulation;  // seed 1, 1,000 draws
  int threads = 0;            // 0: as many as the machine has
  // Leaves out what explains the answers and changes none of them: influences, the next pit, the
  // thick roots that works meet, the zone area beyond cuts. For answers while a work is dragged.
  bool answers_only = false;
  // Called with trees done and trees in all, from one thread at a time; may be empty.
  std::function<void(std::size_t done, std::size_t all)> progress;
  // Seconds on any steady clock, for StageTimes; the engine has none of its own. May be empty:
  // nothing is then timed. Called from several threads.
  std::function<double()> clock;
};

struct ZoneAssessment {
  Zone zone;
  ZoneLoss loss;
  std::vector<LimitResult> limits;
};

struct TreeAssessment {
  std::string tree;                      // id
  std::vector<ZoneAssessment> zones;     // rules in the order of the settings
  std::vector<Error> rules_not_applied;  // e.g. "rule has no clause for palms"
  std::optional<RootEstimate> estimate;
  std::optional<RootLoss> roots;
  std::vector<RootsMet> roots_met;  // thick roots, by severing work in reach
  std::optional<AnchorageKept> anchorage;
  Verdict verdict;
  std::vector<Note> notes;
  bool affected() const;  // any work reaches any of its zones or roots
};

// Ids of new works that reach any zone of the tree, in the order they are first met.
std::vector<std::string> new_works_in_zones(const TreeAssessment& tree);

// Seconds spent in each stage, summed over threads, where a clock was given; for benchmarks, never
// part of an output.
struct StageTimes {
  double works = 0, zones = 0, losses = 0, roots = 0, anchorage = 0, verdicts = 0;
};

struct Assessment {
  std::vector<TreeAssessment> trees;  // order of site.trees
  std::vector<Problem> problems;      // problems_of(site)
  std::vector<std::string> cautions;  // design section 7, in our own words
  std::string data_version;
  RootSimulation simulation;
  StageTimes times;
};

// Fails only where nothing can be computed at all: no tree, an unknown rule id. Whatever is wrong
// with one tree or work is in its notes and verdict.
Result<Assessment> assess(const Site& site, const Tables& tables,
                          const AssessOptions& options = {});

// The cautions every output carries.
const std::vector<std::string>& cautions();

// Every figure of one tree, for `why`; the order is that of the page.
std::vector<Figure> figures_of(const TreeAssessment& tree);

}  // namespace rootstead
