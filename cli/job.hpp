// What most commands begin with: the project, its site, the tables, and the assessment of both.
#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "cli/console.hpp"
#include "io/project.hpp"

namespace rootstead::cli {

// Where a command finds its project and the rules a user has added.
struct ProjectOptions {
  std::string file;
  std::string rules_dir;
};

struct OpenProject {
  io::Project project;
  Site site;
  Tables tables;
  std::optional<Error> no_level_works = {};  // both ground levels are there, but do not compare
};

// Opens, reads, and says on `err` where a killed program's leftovers had to be set back.
Result<OpenProject> open_project(const ProjectOptions& options, const Console& console);

// The same, with the works that follow from its ground levels among its works: what is assessed.
// Levels that cannot be compared stop nothing: they are told on `err`, by the assessment's cautions
// and by `check`.
Result<OpenProject> open_to_assess(const ProjectOptions& options, const Console& console);
void add_level_works(OpenProject& open, const Console& console);

// The seed and draws the project was last assessed with (1 and 1,000 at first), so that report,
// export and why repeat exactly the figures that `assess` printed.
RootSimulation simulation_of(const ProjectSettings& settings);
void keep_simulation(ProjectSettings& settings, const RootSimulation& simulation);

Result<Assessment> assess_project(const OpenProject& open, const Console& console);

// All that is to be done. `made`: outputs that belong to this submittal, see AdviceOptions.
Result<Advice> advise_project(const OpenProject& open, const Assessment& assessment,
                              std::set<std::string> made = {});

// A setting of ProjectSettings::other; empty where there is none.
std::string setting_of(const ProjectSettings& settings, std::string_view key);

// "W1 storm drain" of a work; the bare id where it has no other name.
std::string work_label(const Site& site, const std::string& id);

// What sources said when they were read, without what the site tells as well: such a fault is told
// once, by the site, which knows whether it still stands, and blocks where either says so.
std::vector<Problem> each_once(std::vector<Problem> of_sources, std::vector<Problem>& of_site);

// All problems of a project: what its sources said, row by row, what the site itself shows, and
// what comparing its ground levels shows.
std::vector<Problem> all_problems(const io::Project& project, const Site& site,
                                  const Tables& tables);

// "3 trees", "1 tree", "no trees".
std::string counted(std::size_t count, const std::string& one, const std::string& several);

// The first column of a table is padded to fit; every other by its own widest cell. Characters of
// UTF-8 count as one. `right` names columns set to the right.
using TableRow = std::vector<std::string>;
std::string text_table(const std::vector<TableRow>& rows,
                       const std::vector<std::size_t>& right = {});

}  // namespace rootstead::cli
