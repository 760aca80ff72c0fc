// The tables of a project about its revisions (docs/formats/project.md), each record described
// once. A project has them from the first thing that is written into them. io's own.
#pragma once

#include <string>

#include "engine/revisions/record.hpp"
#include "io/project_schema.hpp"
#include "io/records.hpp"

namespace rootstead::io {

// What is known of a plan besides what table `imports` says of it.
struct PlanRow {
  std::int64_t import_number = 0;  // fid of the import; 0: only looked at
  std::int64_t entry = 0;          // of the journal, where it was only looked at
  std::string file, title, author, date, revision, sha256, when;
};

struct IssueRow {
  IssueMade issue;
  std::int64_t size = 0;  // of the frozen project in bytes, before it was compressed
};

void describe(Is<PlanRow> auto& row, auto&& visit) {
  visit("import_number", row.import_number);
  visit("journal_entry", row.entry);
  visit("file", row.file);
  visit("title", row.title);
  visit("author", row.author);
  visit("date", row.date);
  visit("revision", row.revision);
  visit("sha256", row.sha256);
  visit("loaded_at", row.when);
}

void describe(Is<IssueRow> auto& row, auto&& visit) {
  visit("revision", row.issue.revision);
  visit("date", row.issue.date);
  visit("issued_by", row.issue.by);
  visit("status", row.issue.status);
  visit("note", row.issue.note);
  visit("made_at", row.issue.made_at);
  visit("program", row.issue.program);
  visit("data_version", row.issue.data_version);
  visit("sha256", row.issue.sha256);
  visit("size", row.size);
}

void describe(Is<ReviewComment> auto& comment, auto&& visit) {
  visit("said_by", comment.from);
  visit("date", comment.date);
  visit("revision", comment.revision);
  visit("said", comment.text);
  visit("answer", comment.answer);
  visit("seen_where", comment.where);
}

inline constexpr const char* kPlansTable = "plans_reviewed";
inline constexpr const char* kIssuesTable = "issues_made";
inline constexpr const char* kCommentsTable = "comments";
inline constexpr const char* kFrozenColumn = "frozen";

const std::vector<Table>& revision_tables();

// Makes the table where the project has none yet. Issues made are then never changed or removed.
Outcome ensure_table(Database& database, const std::string& name, const Frame& frame);

}  // namespace rootstead::io
