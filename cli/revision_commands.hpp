// The commands of revisions: declared beside those of command.hpp.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "cli/command.hpp"
#include "issue/revisions.hpp"

namespace rootstead::cli {

void add_issue(CLI::App& app, Job& chosen);
void add_compare(CLI::App& app, Job& chosen);
void add_plans(CLI::App& app, Job& chosen);
void add_comments(CLI::App& app, Job& chosen);

// This program, as issues remember it; it tells `progress` of an assessment.
issue::Maker this_program(issue::Progress progress = {});

// "2 title=Drainage" as 2 and its pairs; 0 where no number comes first. Fails with wrong_use for a
// word without = and for a key that is none of `keys`.
struct Told {
  std::int64_t number = 0;
  std::vector<std::pair<std::string, std::string>> pairs;
};
Result<Told> told_in(const std::vector<std::string>& words, const std::vector<std::string>& keys);

}  // namespace rootstead::cli
