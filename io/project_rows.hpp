// Rows of a project, one record after the other. io's own.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "io/project_history.hpp"
#include "io/project_state.hpp"
#include "io/records.hpp"
#include "io/stored_table.hpp"

namespace rootstead::io {

inline std::string place_of(const Origin& origin) {
  if (origin.file.empty()) return origin.place;
  return origin.place.empty() ? origin.file : origin.file + " " + origin.place;
}

// Refuses a record without an id or with one that the table has already.
template <class Record>
class IdGuard {
 public:
  IdGuard(const Database& database, const std::string& table, std::string noun)
      : find_(database, "SELECT origin_file, origin_place FROM " + table + " WHERE id = ?"),
        noun_(std::move(noun)) {}

  Outcome operator()(const Record& record) {
    const std::string subject = place_of(record.origin);
    if (record.id.empty()) {
      return Error{Code::value_invalid, subject, "the " + noun_ + " has no id",
                   "give it one; nothing was added"};
    }
    find_.put(std::string_view(record.id));
    ROOTSTEAD_TRY(const bool taken, find_.next());
    if (!taken) return Nothing{};
    Origin first;
    first.file = find_.text();
    first.place = find_.text();
    const std::string where = place_of(first);
    return Error{Code::duplicate, subject,
                 "the project has " + article() + noun_ + " " + record.id + " already" +
                     (where.empty() ? "" : ", from " + where),
                 !first.file.empty() && first.file == record.origin.file
                     ? "put the file in place of its former self (add --replace), or give one of "
                       "them another id; nothing was added"
                     : "give one of them another id or leave it out; nothing was added"};
  }

 private:
  std::string article() const { return noun_.starts_with('o') ? "an " : "a "; }  // an opening

  Statement find_;
  std::string noun_;
};

template <class Record, class Also>
Outcome add_records(const Project::State& state, const std::string& table, const std::string& noun,
                    const std::vector<Record>& records, Also&& also) {
  IdGuard<Record> guard(state.database, table, noun);
  Inserter<Record> insert(state.database, table, state.frame);
  for (const Record& record : records) {
    ROOTSTEAD_CHECK(guard(record));
    ROOTSTEAD_CHECK(remember_new(state, table, record.id));
    if (auto done = insert(record); !done) {
      Error error = done.error();
      const bool of_this_row =
          error.code == Code::value_invalid || error.code == Code::invalid_geometry;
      if (of_this_row) error.subject = place_of(record.origin) + ", " + noun + " " + record.id;
      return error;
    }
    ROOTSTEAD_CHECK(also(record));
  }
  return Nothing{};
}

inline constexpr auto kNothingElse = [](const auto&) -> Outcome { return Nothing{}; };

// With the parts that lie in tables of their own.
Outcome add_trees(const Project::State& state, const std::vector<Tree>& trees);
Outcome add_works(const Project::State& state, const std::vector<Work>& works);
Outcome add_barriers(const Project::State& state, const std::vector<Barrier>& barriers);

}  // namespace rootstead::io
