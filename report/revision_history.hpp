// What a report says of revisions: the issues made so far, what changed since the last one, the
// plans that were reviewed and the comments that were answered.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/revisions/compare.hpp"
#include "engine/revisions/record.hpp"

namespace rootstead {

struct RevisionHistory {
  std::vector<IssueMade> issues;  // up to this state, the oldest first
  bool issued = false;            // this state is that of the last of them; else work in progress
  std::vector<PlanReviewed> plans;
  std::vector<ReviewComment> comments;
  std::string since;                  // the revision compared with; empty: none
  std::optional<Comparison> changes;  // since then
  std::vector<std::string> notes;     // of the comparison: other data versions, say

  // What stands in the mark of a cloud: the revision of this state, "*" where it is not issued.
  std::string mark() const { return issued && !issues.empty() ? issues.back().revision : "*"; }
};

}  // namespace rootstead
