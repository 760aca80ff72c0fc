// The submittal checklist: what authorities ask for, line by line, and whether this project has it.
// A line is called present only by a check of the data that could have failed, or because the
// output that holds it was made. Everything else is for a person to answer.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "engine/assess/assess.hpp"
#include "engine/tables/submittal_item.hpp"

namespace rootstead {

enum class SubmittalState {
  present,
  not_applicable,  // the site has nothing of the kind; the text says why
  missing,         // the text says what to enter or to make
  yours,           // only a person can answer
};
std::string_view to_text(SubmittalState state);  // "present", "does not apply", "missing", ...

struct SubmittalLine {
  std::string id, group, item;
  SubmittalState state = SubmittalState::yours;
  std::string text;                   // one sentence: why, or what to enter
  std::vector<std::string> subjects;  // trees or works that lack it
  std::vector<std::string> sources;
  Status status = Status::published;
};

// `made`: names of the outputs that belong to this submittal, from submittal_outputs(). The order
// is that of the table. The assessment must be of this site.
std::vector<SubmittalLine> submittal_checklist(const Site& site, const Tables& tables,
                                               const Assessment& assessment,
                                               const std::set<std::string>& made);

// The names of outputs that lines of the table ask for, sorted: "protection plan" ...
std::vector<std::string> submittal_outputs(const Tables& tables);

}  // namespace rootstead
