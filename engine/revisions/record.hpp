// What a project keeps of its revisions: plans that were reviewed, issues that were made, and what
// reviewers said with what was answered.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/base/result.hpp"

namespace rootstead {

// A plan that was read into the project, or looked at beside it. Texts are as stated by whoever
// drew it; empty: not stated.
struct PlanReviewed {
  std::int64_t number = 0;  // 1, 2 ... in the order of loading
  std::string title, author, date, revision;
  std::string file;        // its name, without folder
  std::string sha256;      // of its bytes, lower-case hexadecimal; of a shapefile: of the .shp
  std::string loaded_at;   // ISO 8601, UTC
  std::int64_t entry = 0;  // of the journal, by which it came in
  bool read_in = true;     // false: looked at by a person, nothing was read from it
};

// One row of the revision table. Never changed once made.
struct IssueMade {
  std::int64_t number = 0;  // 1, 2 ...
  std::string revision, date, by, status, note;
  std::string made_at;                // ISO 8601, UTC
  std::string program, data_version;  // with which it was made
  std::string sha256;                 // of the frozen project
};

// What a reviewer said, and what was answered.
struct ReviewComment {
  std::int64_t number = 0;  // 1, 2 ...
  std::string from, date, text;
  std::string revision;       // the issue it speaks of
  std::string answer, where;  // empty: not answered yet; where in report or plan it is seen
};

// Does a status, as a person writes it, claim to be final? "final", "Final issue"; not "draft".
bool claims_final(const std::string& status);

// May this be called final? Fails with wrong_use where it was never assessed, or a plan came in by
// a later entry of the journal than the last assessment, naming the newest of them. `assessed`: the
// entry of the last assessment, 0 for none.
Outcome may_be_final(const std::vector<PlanReviewed>& plans, std::int64_t assessed);

// "Drainage layout (storm-drain.dxf), revision P02"; the file name where it has no title.
std::string name_of(const PlanReviewed& plan);

}  // namespace rootstead
