// TreeAssessor: everything about one tree, from its zones to its verdict. Private to this room.
// It only reads what it shares, so many threads may use one.
#pragma once

#include <utility>
#include <vector>

#include "engine/assess/assess.hpp"
#include "engine/assess/root_models.hpp"

namespace rootstead {

// Adds the seconds since the last lap to a stage; does nothing without a clock.
class Stopwatch {
 public:
  explicit Stopwatch(const std::function<double()>& clock);
  void lap(double& stage);

 private:
  const std::function<double()>& clock_;
  double last_ = 0;
};

// Where works were put, moved from or taken away, working room included.
class GroundChange {
 public:
  void add(MultiPolygon area);
  bool within(Length reach, const Point& at) const;
  // Ground that was merged anew with it comes so near that the zone's areas may differ in the last
  // digit.
  bool merged_within(const Zone& zone) const;

  // Among them are works that stand already: part of what roots meet.
  bool in_the_ground = false;
  std::vector<Box> merged_anew;

 private:
  std::vector<std::pair<Box, MultiPolygon>> areas_;
};

class TreeAssessor {
 public:
  // All must outlive the assessor.
  TreeAssessor(const Site& site, const Tables& tables, const WorkMap& works,
               std::vector<const ZoneRule*> rules, const AssessOptions& options,
               RootModels& models);

  TreeAssessment assess(const Tree& tree, StageTimes& times) const;
  // The same, bit for bit, where `before` is what assess() gave and since then works changed on the
  // ground of `change` alone: what that ground is too far away to touch is taken from there.
  TreeAssessment assess_again(const Tree& tree, const GroundChange& change,
                              const TreeAssessment& before, StageTimes& times) const;

  // The verdict on what `assessed` holds of this tree.
  Verdict verdict(const Tree& tree, const TreeAssessment& assessed) const;

  // No work farther from the stem than this changes what was assessed.
  Length reach(const Tree& tree, const TreeAssessment& assessed) const;

 private:
  Length search_of(const Zone& zone, const Tree& tree) const;
  std::vector<Zone> zones(const Tree& tree, const ZoneRule& rule, TreeAssessment& result) const;
  // What was known before, and what has changed since; both null at first.
  struct Before {
    const TreeAssessment* assessed = nullptr;
    const GroundChange* change = nullptr;
    bool holds(Length reach, const Tree& tree) const {
      return assessed != nullptr && !change->within(reach, tree.position->at);
    }
  };
  TreeAssessment assess(const Tree& tree, const Before& before, StageTimes& times) const;
  void add_losses(const Tree& tree, const Before& before, TreeAssessment& result) const;
  void add_roots(const Tree& tree, const Before& before, TreeAssessment& result) const;
  void add_anchorage(const Tree& tree, const Before& before, TreeAssessment& result) const;
  void add_notes(const Tree& tree, TreeAssessment& result) const;

  const Site& site_;
  const Tables& tables_;
  const WorkMap& works_;
  std::vector<const ZoneRule*> rules_;
  const AssessOptions& options_;
  RootModels& models_;
};

// The cuts the anchorage model is shown: new works that sever and, where there is any, existing
// ones too, for the tree stands on what is left. Requires: tree.position.
std::vector<AnchorageCut> cuts_near(const Tree& tree, Length reach, const WorkMap& works);

}  // namespace rootstead
