#include "io/project_change.hpp"

namespace rootstead::io {

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
