// What a project keeps of its revisions: plans reviewed, issues made with the project frozen as it
// was, comments of reviewers with their answers. Opened beside the project, of the same file.
//
// It lies in project files: of a project on a server it tells the plans, and what would be written
// fails with wrong_use.
//
// Changes are transactions with a line in the journal each. A Project that is open meanwhile sees
// them as those of another program: read it again before it writes what rests on what was read.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "engine/revisions/record.hpp"
#include "io/project.hpp"

namespace rootstead::io {

class RevisionLedger {
 public:
  // Fails as Project::open() does.
  static Result<RevisionLedger> open(const std::filesystem::path& file);
  RevisionLedger(RevisionLedger&&) noexcept;
  RevisionLedger& operator=(RevisionLedger&&) noexcept;
  ~RevisionLedger();

  // Every source of works, barriers, surfaced ground, levels, boundary or gates that was ever
  // added, and what was looked at besides, in the order in which they came.
  Result<std::vector<PlanReviewed>> plans() const;
  // The entry of the journal of the last assessment; 0: none.
  Result<std::int64_t> last_assessed() const;
  // May the project be called final as it is? Fails as may_be_final() does.
  Outcome check_final() const;

  // The checksum of a source, into the row of the newest import of a file of its name. Does nothing
  // where that is no plan: a survey of trees, say.
  Outcome keep_checksum(const std::filesystem::path& source, const std::string& when);
  // A plan that is read by a person only: `file` is summed, nothing else of it is read.
  Outcome look_at(const PlanReviewed& plan, const std::filesystem::path& file,
                  const std::string& when);
  // Its texts and checksum from now on, by its number. Fails with unknown_name where there is none.
  Outcome describe_plan(const PlanReviewed& plan, const std::string& when);

  Result<std::vector<ReviewComment>> comments() const;
  // Number 0: a new one. Fails with unknown_name where there is none of its number.
  Outcome save_comment(const ReviewComment& comment, const std::string& when);

  Result<std::vector<IssueMade>> issues() const;  // the oldest first
  // Was an issue made since the last change of anything else?
  Result<bool> stands_as_issued() const;
  // Freezes the project with these settings, which it has from then on. `version` is that of the
  // project that was looked at; number, sum and time of `issue` are filled here. Fails with
  // duplicate where the revision was issued before, and with project_busy where the project was
  // changed since `version`.
  Outcome make_issue(IssueMade issue, const ProjectSettings& settings, const std::string& version,
                     const std::string& when);
  // The project as it was at that issue, as a file of its own; replaces what is there. Fails with
  // unknown_name, and with format_broken where its checksum is another than that of the issue.
  Outcome take_out(const std::string& revision, const std::filesystem::path& to) const;

 private:
  explicit RevisionLedger(std::unique_ptr<Project::State> state);
  std::unique_ptr<Project::State> state_;
};

// SHA-256 of the bytes of a file, lower-case hexadecimal. Fails as check_file() does.
Result<std::string> checksum_of(const std::filesystem::path& file);

}  // namespace rootstead::io
