#include "io/revision_ledger.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>

#include "engine/base/text.hpp"
#include "io/frozen.hpp"
#include "io/project_change.hpp"
#include "io/project_settings.hpp"
#include "io/project_state.hpp"
#include "io/revision_rows.hpp"
#include "io/stored_table.hpp"
#include "io/team_address.hpp"
#include "io/whole_file.hpp"

namespace rootstead::io {
namespace {

namespace fs = std::filesystem;
using State = Project::State;

Result<Database> store_at(const fs::path& file) {
  if (!is_team_address(file.string())) return Database::open(file);
  ROOTSTEAD_TRY(const TeamAddress address, team_address(file.string()));
  return Database::connect(address);
}

// What is issued is a whole file, and the ledger lies in the file it speaks of.
Outcome check_in_file(const State& state) {
  if (!state.database.on_server()) return Nothing{};
  return Error{Code::wrong_use, state.database.subject(),
               "plans, comments and issues are kept in project files, not on a server",
               "copy the project to a file first: rootstead copy"};
}

// ---- the journal

struct Entry {
  std::int64_t number = 0;
  std::string action;
};

Result<std::vector<Entry>> entries_of(const Database& database) {
  Statement rows(database, "SELECT fid, action FROM journal ORDER BY fid");
  std::vector<Entry> entries;
  while (true) {
    ROOTSTEAD_TRY(const bool more, rows.next());
    if (!more) return entries;
    Entry entry;
    entry.number = rows.integer();
    entry.action = rows.text();
    entries.push_back(std::move(entry));
  }
}

bool brings_a_source(const std::string& action) {
  return action == "add" || action == "replace" || action == "levels";
}

// ---- plans

bool is_plan(const ImportRow& row) {
  static const std::set<std::string> kKinds{"works",  "barriers", "ground",
                                            "levels", "boundary", "gates"};
  return kKinds.contains(row.kind) || row.works > 0 || row.barriers > 0 || row.surfaces > 0 ||
         row.boundary_areas > 0 || row.gates > 0;
}

Result<std::vector<std::int64_t>> numbers_in(const Database& database, const std::string& table) {
  std::vector<std::int64_t> numbers;
  ROOTSTEAD_TRY(const auto there, columns_in(database, table));
  if (there.empty()) return numbers;
  Statement rows(database, "SELECT fid FROM " + table + " ORDER BY fid");
  while (true) {
    ROOTSTEAD_TRY(const bool more, rows.next());
    if (!more) return numbers;
    numbers.push_back(rows.integer());
  }
}

// A plan with the row that tells of it: 0 where the project has none yet.
struct KnownPlan {
  PlanReviewed plan;
  std::int64_t import_number = 0, row = 0;
};

void tell(const PlanRow& row, PlanReviewed& plan) {
  plan.title = row.title, plan.author = row.author, plan.date = row.date;
  plan.revision = row.revision, plan.sha256 = row.sha256;
}

// The imports are written one with each entry that brings a source, in the same order.
Result<std::vector<KnownPlan>> plans_read_in(const State& state) {
  ROOTSTEAD_TRY(const auto imports,
                read_if_there<ImportRow>(state.database, "imports", state.frame));
  ROOTSTEAD_TRY(const auto numbers, numbers_in(state.database, "imports"));
  ROOTSTEAD_TRY(auto entries, entries_of(state.database));
  std::erase_if(entries, [](const Entry& entry) { return !brings_a_source(entry.action); });
  std::vector<KnownPlan> plans;
  for (std::size_t i = 0; i < imports.size(); ++i) {
    if (!is_plan(imports[i])) continue;
    KnownPlan known;
    known.plan.file = known.plan.title = imports[i].source;
    known.plan.loaded_at = imports[i].when;
    known.plan.entry = i < entries.size() ? entries[i].number : 0;
    known.import_number = numbers[i];
    plans.push_back(std::move(known));
  }
  return plans;
}

Result<std::vector<KnownPlan>> known_plans(const State& state) {
  ROOTSTEAD_TRY(std::vector<KnownPlan> plans, plans_read_in(state));
  ROOTSTEAD_TRY(const auto rows, read_if_there<PlanRow>(state.database, kPlansTable, state.frame));
  ROOTSTEAD_TRY(const auto numbers, numbers_in(state.database, kPlansTable));
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const PlanRow& row = rows[i];
    KnownPlan looked_at;
    looked_at.plan.file = row.file, looked_at.plan.loaded_at = row.when;
    looked_at.plan.entry = row.entry, looked_at.plan.read_in = false;
    const auto known = std::find_if(plans.begin(), plans.end(), [&](const KnownPlan& one) {
      return row.import_number != 0 && one.import_number == row.import_number;
    });
    if (known == plans.end() && row.import_number != 0) continue;  // its import is gone
    KnownPlan& told = known == plans.end() ? looked_at : *known;
    tell(row, told.plan);
    told.row = numbers[i];
    if (known == plans.end()) plans.push_back(std::move(looked_at));
  }
  std::stable_sort(plans.begin(), plans.end(), [](const KnownPlan& a, const KnownPlan& b) {
    return a.plan.entry < b.plan.entry;
  });
  for (std::size_t i = 0; i < plans.size(); ++i)
    plans[i].plan.number = static_cast<std::int64_t>(i) + 1;
  return plans;
}

PlanRow row_of(const KnownPlan& known) {
  const PlanReviewed& plan = known.plan;
  return {known.import_number, known.import_number == 0 ? plan.entry : 0,
          plan.file,           plan.title,
          plan.author,         plan.date,
          plan.revision,       plan.sha256,
          plan.loaded_at};
}

Outcome write_plan(State& state, const KnownPlan& known) {
  ROOTSTEAD_CHECK(ensure_table(state.database, kPlansTable, state.frame));
  if (known.row != 0) {
    Statement remove(state.database, std::string("DELETE FROM ") + kPlansTable + " WHERE fid = ?");
    remove.put(known.row);
    ROOTSTEAD_CHECK(remove.run());
  }
  Inserter<PlanRow> insert(state.database, kPlansTable, state.frame);
  return insert(row_of(known));
}

std::string told(const PlanReviewed& plan) {
  return name_of(plan) + (plan.sha256.empty() ? "" : ", sha256 " + plan.sha256);
}

const std::vector<std::string> kOfPlans{kPlansTable, "journal"};
const std::vector<std::string> kOfIssues{kIssuesTable, "settings", "journal"};
const std::vector<std::string> kOfComments{kCommentsTable, "journal"};

// ---- comments

Outcome write_comment(State& state, const ReviewComment& comment) {
  ROOTSTEAD_CHECK(ensure_table(state.database, kCommentsTable, state.frame));
  if (comment.number == 0) {
    Inserter<ReviewComment> insert(state.database, kCommentsTable, state.frame);
    return insert(comment);
  }
  ROOTSTEAD_TRY(const auto numbers, numbers_in(state.database, kCommentsTable));
  if (comment.number < 1 || comment.number > static_cast<std::int64_t>(numbers.size()))
    return Error{Code::unknown_name, "comment " + std::to_string(comment.number),
                 "the project has no such comment", "list them: rootstead comments FILE"};
  std::string fields;
  for (const Column& column : columns_of<ReviewComment>())
    fields += (fields.empty() ? "" : ", ") + column.name + " = ?";
  Statement update(state.database,
                   std::string("UPDATE ") + kCommentsTable + " SET " + fields + " WHERE fid = ?");
  Putter putter(update, state.frame);
  describe(comment, putter);
  update.put(numbers[static_cast<std::size_t>(comment.number) - 1]);
  return update.run();
}

// ---- issues

Result<std::vector<IssueRow>> issue_rows(const State& state) {
  ROOTSTEAD_TRY(auto rows, read_if_there<IssueRow>(state.database, kIssuesTable, state.frame));
  for (std::size_t i = 0; i < rows.size(); ++i)
    rows[i].issue.number = static_cast<std::int64_t>(i) + 1;
  return rows;
}

Outcome check_new(const State& state, const std::string& revision) {
  if (trimmed(revision).empty())
    return Error{Code::wrong_use, "the issue", "it has no revision",
                 "name one, such as --revision A"};
  ROOTSTEAD_TRY(const auto rows, issue_rows(state));
  for (const IssueRow& row : rows) {
    if (row.issue.revision == revision)
      return Error{Code::duplicate, "revision " + revision,
                   "it was issued on " + row.issue.date + " and stays as it is",
                   "name another revision"};
  }
  return Nothing{};
}

Outcome check_version(const State& state, const std::string& version) {
  Statement last(state.database, "SELECT hash FROM journal ORDER BY fid DESC LIMIT 1");
  ROOTSTEAD_TRY(const bool any, last.next());
  if (any && last.text() == version) return Nothing{};
  return Error{Code::project_busy, state.database.subject(),
               "another program changed the project meanwhile", "try again; nothing was issued"};
}

Outcome insert_issue(State& state, const IssueRow& row, const std::string& packed) {
  ROOTSTEAD_CHECK(ensure_table(state.database, kIssuesTable, state.frame));
  const auto columns = columns_of<IssueRow>();
  std::string places = "?";
  for (std::size_t i = 0; i < columns.size(); ++i) places += ", ?";
  Statement insert(state.database, std::string("INSERT INTO ") + kIssuesTable + " (" +
                                       names_of(columns) + ", " + kFrozenColumn + ") VALUES (" +
                                       places + ")");
  Putter putter(insert, state.frame);
  describe(row, putter);
  insert.put_bytes(packed);
  return insert.run();
}

Outcome freeze(State& state, IssueRow& row, const std::string& when) {
  ROOTSTEAD_TRY(const std::string whole, frozen_project(state, when));
  ROOTSTEAD_TRY(const std::string packed, compressed(whole));
  row.issue.sha256 = sha256(whole);
  row.issue.made_at = when;
  row.size = static_cast<std::int64_t>(whole.size());
  return insert_issue(state, row, packed);
}

}  // namespace

RevisionLedger::RevisionLedger(std::unique_ptr<Project::State> state) : state_(std::move(state)) {}
RevisionLedger::RevisionLedger(RevisionLedger&&) noexcept = default;
RevisionLedger& RevisionLedger::operator=(RevisionLedger&&) noexcept = default;
RevisionLedger::~RevisionLedger() = default;

Result<RevisionLedger> RevisionLedger::open(const fs::path& file) {
  ROOTSTEAD_TRY(const Project project, Project::open(file));  // recovered and checked
  ROOTSTEAD_TRY(Database database, store_at(file));
  return RevisionLedger(std::make_unique<Project::State>(std::move(database), project.system()));
}

Result<std::vector<PlanReviewed>> RevisionLedger::plans() const {
  ROOTSTEAD_TRY(const auto known, known_plans(*state_));
  std::vector<PlanReviewed> plans;
  for (const KnownPlan& one : known) plans.push_back(one.plan);
  return plans;
}

Result<std::int64_t> RevisionLedger::last_assessed() const {
  ROOTSTEAD_TRY(const auto entries, entries_of(state_->database));
  std::int64_t last = 0;
  for (const Entry& entry : entries)
    if (entry.action == "assess") last = entry.number;
  return last;
}

Outcome RevisionLedger::check_final() const {
  ROOTSTEAD_TRY(const auto all, plans());
  ROOTSTEAD_TRY(const std::int64_t assessed, last_assessed());
  return may_be_final(all, assessed);
}

Outcome RevisionLedger::keep_checksum(const fs::path& source, const std::string& when) {
  if (state_->database.on_server()) return Nothing{};
  ROOTSTEAD_TRY(const std::string sum, checksum_of(source));
  ROOTSTEAD_TRY(auto known, known_plans(*state_));
  const std::string name = source.filename().string();
  const auto newest = std::find_if(known.rbegin(), known.rend(), [&](const KnownPlan& one) {
    return one.import_number != 0 && one.plan.file == name;
  });
  if (newest == known.rend()) return Nothing{};
  newest->plan.sha256 = sum;
  return change(*state_, when, "plan", told(newest->plan), kOfPlans,
                [&] { return write_plan(*state_, *newest); });
}

Outcome RevisionLedger::look_at(const PlanReviewed& plan, const fs::path& file,
                                const std::string& when) {
  ROOTSTEAD_CHECK(check_in_file(*state_));
  KnownPlan known{plan, 0, 0};
  ROOTSTEAD_TRY(known.plan.sha256, checksum_of(file));
  known.plan.file = file.filename().string();
  if (known.plan.title.empty()) known.plan.title = known.plan.file;
  known.plan.loaded_at = when;
  return change(*state_, when, "plan", "looked at: " + told(known.plan), kOfPlans,
                [&]() -> Outcome {
                  // The journal gives the next number to the entry of this change.
                  ROOTSTEAD_TRY(const auto last, last_journal_number(state_->database));
                  known.plan.entry = last + 1;
                  return write_plan(*state_, known);
                });
}

Outcome RevisionLedger::describe_plan(const PlanReviewed& plan, const std::string& when) {
  ROOTSTEAD_CHECK(check_in_file(*state_));
  return change(*state_, when, "plan", told(plan), kOfPlans, [&]() -> Outcome {
    ROOTSTEAD_TRY(auto known, known_plans(*state_));
    if (plan.number < 1 || plan.number > static_cast<std::int64_t>(known.size()))
      return Error{Code::unknown_name, "plan " + std::to_string(plan.number),
                   "the project has no such plan", "list them: rootstead plans FILE"};
    KnownPlan& one = known[static_cast<std::size_t>(plan.number) - 1];
    one.plan.title = plan.title, one.plan.author = plan.author, one.plan.date = plan.date;
    one.plan.revision = plan.revision, one.plan.sha256 = plan.sha256;
    return write_plan(*state_, one);
  });
}

Result<std::vector<ReviewComment>> RevisionLedger::comments() const {
  ROOTSTEAD_TRY(auto comments,
                read_if_there<ReviewComment>(state_->database, kCommentsTable, state_->frame));
  for (std::size_t i = 0; i < comments.size(); ++i)
    comments[i].number = static_cast<std::int64_t>(i) + 1;
  return comments;
}

Outcome RevisionLedger::save_comment(const ReviewComment& comment, const std::string& when) {
  ROOTSTEAD_CHECK(check_in_file(*state_));
  const std::string detail = comment.number == 0
                                 ? "of " + comment.from
                                 : "number " + std::to_string(comment.number) + ", answered";
  return change(*state_, when, "comment", detail, kOfComments,
                [&] { return write_comment(*state_, comment); });
}

Result<std::vector<IssueMade>> RevisionLedger::issues() const {
  ROOTSTEAD_TRY(const auto rows, issue_rows(*state_));
  std::vector<IssueMade> issues;
  for (const IssueRow& row : rows) issues.push_back(row.issue);
  return issues;
}

Result<bool> RevisionLedger::stands_as_issued() const {
  ROOTSTEAD_TRY(const auto entries, entries_of(state_->database));
  return !entries.empty() && entries.back().action == "issue";
}

Outcome RevisionLedger::make_issue(IssueMade issue, const ProjectSettings& settings,
                                   const std::string& version, const std::string& when) {
  ROOTSTEAD_CHECK(check_in_file(*state_));
  IssueRow row{std::move(issue), 0};
  std::string detail;  // the journal's line is known when the project is frozen
  return change(*state_, when, "issue", detail, kOfIssues, [&]() -> Outcome {
    ROOTSTEAD_CHECK(check_version(*state_, version));
    ROOTSTEAD_CHECK(check_new(*state_, row.issue.revision));
    ROOTSTEAD_CHECK(write_settings(state_->database, settings));
    ROOTSTEAD_CHECK(freeze(*state_, row, when));
    detail =
        "revision " + row.issue.revision + ", " + row.issue.status + ", sha256 " + row.issue.sha256;
    return Nothing{};
  });
}

Outcome RevisionLedger::take_out(const std::string& revision, const fs::path& to) const {
  const std::string subject = "revision " + revision;
  ROOTSTEAD_TRY(const auto rows, issue_rows(*state_));
  const auto row = std::find_if(rows.begin(), rows.end(), [&](const IssueRow& one) {
    return one.issue.revision == revision;
  });
  if (row == rows.end())
    return Error{Code::unknown_name, subject, "the project has no such issue",
                 "list them: rootstead issue FILE"};
  Statement find(state_->database, std::string("SELECT ") + kFrozenColumn + " FROM " +
                                       kIssuesTable + " WHERE revision = ?");
  find.put(std::string_view(revision));
  ROOTSTEAD_TRY(const bool any, find.next());
  const auto packed = any ? find.bytes() : std::nullopt;
  if (!packed)
    return Error{Code::unknown_name, subject, "this copy of the project has not kept its state",
                 "ask the project it was taken from"};
  ROOTSTEAD_TRY(const std::string whole,
                expanded(*packed, static_cast<std::size_t>(row->size), subject));
  if (sha256(whole) != row->issue.sha256)
    return Error{Code::format_broken, subject, "the frozen project is not the one that was issued",
                 "use a copy of the project from before"};
  return write_bytes(to, whole);
}

Result<std::string> checksum_of(const fs::path& file) {
  ROOTSTEAD_CHECK(check_file(file));
  std::ifstream stream(file, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(stream), {}};
  if (!stream)
    return Error{Code::file_unreadable, file.filename().string(), "the file cannot be read",
                 "check its permissions"};
  return sha256(bytes);
}

}  // namespace rootstead::io
