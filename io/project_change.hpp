// One change of a project: a transaction with its line in the journal.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "io/project_format.hpp"
#include "io/project_journal.hpp"
#include "io/project_state.hpp"

namespace rootstead::io {

// Refuses where another program changed the project since this one last read or wrote it, so that
// nothing is made from a survey that is no longer there.
Outcome check_unchanged(const Project::State& state, const std::string& meanwhile,
                        const std::string& remedy);

// A row of the journal: the project had this older format until now.
Outcome tell_of_raising(const Database& database, const std::string& when, int format);

// What was read of a source, and its problems, in the tables `imports` and `problems`.
Outcome add_import_row(const Project::State& state, const Import& import, const std::string& when);

// Everything `write` does, all or nothing; it may be called again from the beginning where a server
// went away and came back. `tables` are those it may touch. A project of an older format is raised
// to the present one first. Where a change was sealed with this key already, nothing is done.
Outcome change(Project::State& state, const std::string& when, const std::string& action,
               const std::string& detail, const std::vector<std::string>& tables,
               const std::function<Outcome()>& write, const std::string& key = {});

}  // namespace rootstead::io
