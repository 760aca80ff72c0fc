// One change of a project: a transaction with its line in the journal.
#pragma once

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

// Everything `write` does, all or nothing. `tables` are those it may touch. A project of an older
// format is raised to the present one first.
template <class Write>
Outcome change(Project::State& state, const std::string& when, const std::string& action,
               const std::string& detail, const std::vector<std::string>& tables,
               const Write& write) {
  ROOTSTEAD_TRY(Transaction transaction, Transaction::begin(state.database));
  ROOTSTEAD_TRY(const int format, raise_format(state.database, state.frame));
  ROOTSTEAD_CHECK(write());
  if (format < kCurrentFormat) ROOTSTEAD_CHECK(tell_of_raising(state.database, when, format));
  ROOTSTEAD_TRY(const auto number, append_journal(state.database, when, action, detail));
  ROOTSTEAD_CHECK(stamp(state.database, tables, when));
  ROOTSTEAD_CHECK(transaction.commit());
  state.seen = number;
  return Nothing{};
}

}  // namespace rootstead::io
