#include "io/project.hpp"

#include <chrono>
#include <ctime>
#include <fstream>

#include "io/dialect.hpp"
#include "io/project_format.hpp"
#include "io/project_journal.hpp"
#include "io/project_make.hpp"
#include "io/project_settings.hpp"
#include "io/project_state.hpp"
#include "io/records.hpp"
#include "io/stored_table.hpp"
#include "io/team_address.hpp"

namespace rootstead::io {
namespace {

namespace fs = std::filesystem;

// Does a killed program's rollback journal lie beside the file? Finished ones are removed.
bool unfinished_change_beside(const fs::path& file) {
  std::ifstream journal(file.string() + "-journal", std::ios::binary);
  return journal.is_open() && journal.get() > 0;
}

// Starting to write makes SQLite undo what a killed program left half done.
Outcome recover(Database& database, bool unfinished) {
  if (database.write_protected()) {
    if (!unfinished) return Nothing{};
    return Error{Code::file_unwritable, database.subject(),
                 "a program was stopped while it changed the project, and undoing that needs leave "
                 "to write",
                 "allow writing to the file and its folder and open it again"};
  }
  return database.run("BEGIN IMMEDIATE; ROLLBACK");
}

Outcome fill_new(Database& database, const ReferenceSystem& system, const ProjectSettings& settings,
                 const std::string& when) {
  ROOTSTEAD_CHECK(make_tables(database, system));
  ROOTSTEAD_CHECK(write_file_settings(database, system));
  ROOTSTEAD_CHECK(write_settings(database, settings));
  ROOTSTEAD_TRY([[maybe_unused]] const auto number,
                append_journal(database, when, "new", "project in " + system.code));
  std::vector<std::string> names;
  for (const Table& table : project_tables()) names.push_back(table.name);
  return stamp(database, names, when);
}

Result<std::unique_ptr<Project::State>> state_of(Database database, bool recovered) {
  ROOTSTEAD_CHECK(check_format(database));
  ROOTSTEAD_TRY(const SettingMap settings, read_settings(database));
  ROOTSTEAD_TRY(ReferenceSystem system, system_from(settings, database));
  auto state = std::make_unique<Project::State>(std::move(database), std::move(system));
  state->recovered = recovered;
  return state;
}

Result<std::unique_ptr<Project::State>> open_on_server(const std::string& text) {
  ROOTSTEAD_TRY(const TeamAddress address, team_address(text));
  ROOTSTEAD_TRY(Database database, Database::connect(address));
  ROOTSTEAD_TRY(const bool there, project_exists(database, address.project));
  if (!there)
    return Error{Code::file_not_found, address.subject, "the server has no project of this name",
                 "check the name, or make it with `rootstead new`"};
  return state_of(std::move(database), false);
}

}  // namespace

std::string utc_now() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm parts{};
  gmtime_r(&now, &parts);
  char text[32];
  std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts);
  return text;
}

Project::Project(std::unique_ptr<State> state) : state_(std::move(state)) {}
Project::Project(Project&&) noexcept = default;
Project& Project::operator=(Project&&) noexcept = default;
Project::~Project() = default;

Result<Project> Project::create(const fs::path& file, const ReferenceSystem& system,
                                const ProjectSettings& settings, const std::string& when) {
  ROOTSTEAD_TRY(const ReferenceSystem known, reference_system(system.code));
  ROOTSTEAD_CHECK(make_project(
      file, [&](Database& database) { return fill_new(database, known, settings, when); }));
  return open(file);
}

Result<Project> Project::open(const fs::path& file) {
  if (is_team_address(file.string())) {
    ROOTSTEAD_TRY(auto state, open_on_server(file.string()));
    return Project(std::move(state));
  }
  std::error_code ignored;
  if (!fs::is_regular_file(file, ignored)) {
    return Error{Code::file_not_found, file.string(), "there is no such project file",
                 "check the name, or make a project with `rootstead new`"};
  }
  const bool unfinished = unfinished_change_beside(file);
  ROOTSTEAD_TRY(Database database, Database::open(file));
  ROOTSTEAD_CHECK(recover(database, unfinished));
  ROOTSTEAD_CHECK(database.run("PRAGMA foreign_keys = ON"));
  ROOTSTEAD_TRY(auto state, state_of(std::move(database), unfinished));
  return Project(std::move(state));
}

bool Project::recovered() const {
  return state_->recovered;
}

const ReferenceSystem& Project::system() const {
  return state_->system;
}

Result<std::string> Project::version() const {
  Statement last(state_->database, "SELECT hash FROM journal ORDER BY fid DESC LIMIT 1");
  ROOTSTEAD_TRY(const bool any, last.next());
  return any ? last.text() : std::string();
}

Result<std::vector<JournalEntry>> Project::journal() const {
  return checked_journal(state_->database);
}

std::vector<Problem> Project::import_problems() const {
  const auto rows = read_all<ProblemRow>(state_->database, "problems", state_->frame);
  if (!rows) {
    const Error& error = rows.error();
    return {{true, NoteCode::not_taken, error.subject, error.message, error.remedy}};
  }
  std::vector<Problem> problems;
  for (const ProblemRow& row : *rows) {
    problems.push_back(
        {row.blocks, static_cast<NoteCode>(row.code), row.subject, row.message, row.remedy});
  }
  return problems;
}

}  // namespace rootstead::io
