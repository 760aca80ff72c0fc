// One change of a project: a transaction with its line in the journal.
#pragma once

#include <string>
#include <vector>

#include "io/project_journal.hpp"
#include "io/project_state.hpp"

namespace rootstead::io {

// Everything `write` does, all or nothing. `tables` are those it may touch.
template <class Write>
Outcome change(Project::State& state, const std::string& when, const std::string& action,
               const std::string& detail, const std::vector<std::string>& tables,
               const Write& write) {
  ROOTSTEAD_TRY(Transaction transaction, Transaction::begin(state.database));
  ROOTSTEAD_CHECK(write());
  ROOTSTEAD_TRY(const auto number, append_journal(state.database, when, action, detail));
  ROOTSTEAD_CHECK(stamp(state.database, tables, when));
  ROOTSTEAD_CHECK(transaction.commit());
  state.seen = number;
  return Nothing{};
}

}  // namespace rootstead::io
