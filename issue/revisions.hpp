// States of a project with their answers and history: the one that is worked on, and those that
// were issued, opened as they were.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "issue/issue.hpp"
#include "report/revision_history.hpp"

namespace rootstead::issue {

using Progress = std::function<void(std::size_t done, std::size_t all)>;  // may be empty

// The seed and draws the project was last assessed with (1 and 1,000 at first).
RootSimulation simulation_of(const ProjectSettings& settings);

// One state of a project, all that a report of it is made from.
struct State {
  Site site;  // with the works that follow from its ground levels
  Assessment assessment;
  RevisionHistory history;
  // Of an issue that was made with another program or other data: that its report will differ.
  std::vector<std::string> made_otherwise;
};

// Adds the works of levels and assesses; levels that do not compare are told by a caution.
Result<State> assessed(Site site, const Tables& tables, const Progress& progress = {});

// What a report needs to know of its makers: "0.1.0".
struct Maker {
  std::string program;
  Progress progress = {};
};

// The project as it is now. Where nothing was changed since the last issue it is that issue. A
// state that is not issued does not go by the letter of an issue, and fails with wrong_use where it
// claims to be final while a plan was not assessed.
Result<State> present_state(const std::filesystem::path& file, const Tables& tables,
                            const Maker& maker);

// As it was issued. Fails with unknown_name where there is no such issue.
Result<State> issued_state(const std::filesystem::path& file, const std::string& revision,
                           const Tables& tables, const Maker& maker);

struct IssueAsked {
  std::string revision, date, note, by;  // date and by: those of the project where empty
  bool final = false;
};

// Freezes the project as this revision; its title block says so from then on. Fails as
// RevisionLedger::make_issue() does, and with wrong_use where it is to be final and a plan was not
// assessed. Gives the issue made.
Result<IssueMade> make_issue(const std::filesystem::path& file, const IssueAsked& asked,
                             const Tables& tables, const Maker& maker, const std::string& when);

// As write_files(plan, how, files, steps) of issue.hpp, the report with its history.
Outcome write_files(const Plan& plan, const RevisionHistory& history, const ReportOptions& how,
                    const Files& files, const Steps& steps = {});

}  // namespace rootstead::issue
