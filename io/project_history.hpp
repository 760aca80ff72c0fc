// What things were before each change, and which change was the last of each: so that of several
// people at once none undoes what another did. Rows are only added. io's own.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "io/project_state.hpp"

namespace rootstead::io {

// Of the tables of history of a new project.
Outcome guard_history(Database& database);
// Makes those tables in a project that was made before there were any.
Outcome ensure_history(Database& database, const Frame& frame);

// Inside a change: the thing of this table as it is now, before it is changed or taken away. Once a
// change; a second time says nothing.
Outcome remember(const Project::State& state, const std::string& table, const std::string& id);
// The same for a thing that was not there.
Outcome remember_new(const Project::State& state, const std::string& table, const std::string& id);
// The same for whole tables, such as those of the soil.
Outcome remember_tables(const Project::State& state, const std::vector<std::string>& tables);

// Refuses where somebody else changed one of these things (its table, its id) since this program
// read the project, or did something that does not say what it touched.
Outcome check_things_unchanged(const Project::State& state,
                               const std::vector<std::pair<std::string, std::string>>& things);

// The number in the journal of the change that was sealed with this key; 0 where none was.
Result<std::int64_t> number_of_key(const Database& database, const std::string& key);
Outcome keep_key(const Database& database, const std::string& key, std::int64_t number);

}  // namespace rootstead::io
