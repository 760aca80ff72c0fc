#include "io/revision_rows.hpp"

#include <algorithm>

#include "io/stored_table.hpp"

namespace rootstead::io {
namespace {

constexpr const char* kIssueGuards = R"(
CREATE TRIGGER issues_are_never_changed BEFORE UPDATE ON issues_made
BEGIN SELECT RAISE(ABORT, 'issues made are only added to'); END;
CREATE TRIGGER issues_are_never_removed BEFORE DELETE ON issues_made
BEGIN SELECT RAISE(ABORT, 'issues made are only added to'); END;
)";

Table issues_table() {
  Table table{kIssuesTable, "Issues made, each with the project as it was, compressed",
              columns_of<IssueRow>(), "UNIQUE (revision)"};
  table.columns.push_back({kFrozenColumn, "BLOB"});
  return table;
}

}  // namespace

const std::vector<Table>& revision_tables() {
  static const std::vector<Table> tables{
      {kPlansTable, "Plans that were reviewed", columns_of<PlanRow>(), ""},
      issues_table(),
      {kCommentsTable, "What reviewers said, and what was answered", columns_of<ReviewComment>(),
       ""}};
  return tables;
}

Outcome ensure_table(Database& database, const std::string& name, const Frame& frame) {
  ROOTSTEAD_TRY(const auto there, columns_in(database, name));
  if (!there.empty()) return Nothing{};
  const auto& tables = revision_tables();
  const auto table =
      std::find_if(tables.begin(), tables.end(), [&](const Table& t) { return t.name == name; });
  ROOTSTEAD_CHECK(make_table(database, *table, frame));
  return name == kIssuesTable ? database.run(kIssueGuards) : Outcome(Nothing{});
}

}  // namespace rootstead::io
