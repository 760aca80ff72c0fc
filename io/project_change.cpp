#include "io/project_change.hpp"

#include <random>

#include "io/project_history.hpp"

namespace rootstead::io {
namespace {

constexpr int kTries = 4;  // of a change whose server went away in the middle; our assumption

// So that a change whose seal was sent, and whose answer was lost, is known when it is sent again.
std::string fresh_key() {
  std::random_device chance;
  std::string key;
  for (int i = 0; i < 4; ++i) key += std::to_string(chance()) + ".";
  return key;
}

// Others may have changed something between what this program read and its own change.
void know(Project::State& state, std::int64_t before, std::int64_t number) {
  if (!state.seen || *state.seen == before)
    state.seen = number;
  else
    state.own.insert(number);
}

struct Asked {
  const std::string &when, &action, &detail;
  const std::vector<std::string>& tables;
  const std::function<Outcome()>& write;
  const std::string& key;
};

Outcome change_once(Project::State& state, const Asked& asked) {
  Database& database = state.database;
  ROOTSTEAD_TRY(Transaction transaction, Transaction::begin(database));
  ROOTSTEAD_CHECK(ensure_history(database, state.frame));
  if (!asked.key.empty()) {
    ROOTSTEAD_TRY(const auto done, number_of_key(database, asked.key));
    if (done > 0) return know(state, done - 1, done), Nothing{};
  }
  ROOTSTEAD_TRY(const int format, raise_format(database, state.frame));
  const bool raised = format < kCurrentFormat;
  ROOTSTEAD_TRY(const auto last, last_journal_number(database));
  state.number = last + (raised ? 2 : 1);
  state.remembered.clear();
  ROOTSTEAD_CHECK(asked.write());
  if (raised) ROOTSTEAD_CHECK(tell_of_raising(database, asked.when, format));
  ROOTSTEAD_TRY(const auto number,
                append_journal(database, asked.when, asked.action, asked.detail));
  if (!asked.key.empty()) ROOTSTEAD_CHECK(keep_key(database, asked.key, number));
  ROOTSTEAD_CHECK(stamp(database, asked.tables, asked.when));
  ROOTSTEAD_CHECK(transaction.commit());
  know(state, last, number);
  return Nothing{};
}

}  // namespace

Outcome change(Project::State& state, const std::string& when, const std::string& action,
               const std::string& detail, const std::vector<std::string>& tables,
               const std::function<Outcome()>& write, const std::string& key) {
  const std::string sealed_by = key.empty() && state.database.on_server() ? fresh_key() : key;
  for (int tries = 1;; ++tries) {
    Outcome done = change_once(state, {when, action, detail, tables, write, sealed_by});
    if (done || tries == kTries || !state.database.connection().worth_again()) return done;
  }
}

Outcome check_unchanged(const Project::State& state, const std::string& meanwhile,
                        const std::string& remedy) {
  ROOTSTEAD_TRY(const auto last, last_journal_number(state.database));
  if (!state.seen || *state.seen == last) return Nothing{};
  return Error{Code::project_busy, state.database.subject(),
               "another program changed the project " + meanwhile, remedy};
}

Outcome tell_of_raising(const Database& database, const std::string& when, int format) {
  const std::string detail = "the project had format " + std::to_string(format) + " and has " +
                             std::to_string(kCurrentFormat) + " from now on";
  ROOTSTEAD_TRY([[maybe_unused]] const auto number,
                append_journal(database, when, "format", detail));
  return Nothing{};
}

}  // namespace rootstead::io
