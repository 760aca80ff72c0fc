#include "io/project_make.hpp"

#include "io/dialect.hpp"
#include "io/project_history.hpp"
#include "io/project_schema.hpp"
#include "io/team_address.hpp"
#include "io/whole_file.hpp"

namespace rootstead::io {
namespace {

namespace fs = std::filesystem;

Outcome make_on_server(const std::string& text, const std::function<Outcome(Database&)>& fill) {
  ROOTSTEAD_TRY(const TeamAddress address, team_address(text));
  ROOTSTEAD_TRY(Database database, Database::connect(address));
  ROOTSTEAD_TRY(Transaction transaction, Transaction::begin(database));
  ROOTSTEAD_TRY(const bool there, project_exists(database, address.project));
  if (there)
    return Error{Code::file_unwritable, address.subject,
                 "there is a project (or a schema) of this name already", "choose another name"};
  ROOTSTEAD_CHECK(database.run(create_project_commands(address.project).c_str()));
  ROOTSTEAD_CHECK(fill(database));
  return transaction.commit();
}

// Made in memory and written whole.
Outcome make_file(const fs::path& file, const std::function<Outcome(Database&)>& fill) {
  ROOTSTEAD_TRY(PartFolder folder, PartFolder::beside(file));
  ROOTSTEAD_TRY(Database database, Database::in_memory(file));
  ROOTSTEAD_CHECK(fill(database));
  ROOTSTEAD_CHECK(write_bytes(folder.file(), database.image()));
  return folder.publish_new();
}

}  // namespace

Outcome make_tables(Database& database, const ReferenceSystem& system) {
  if (database.on_server()) {
    const Frame frame = frame_of(system);
    for (const Table& table : project_tables()) ROOTSTEAD_CHECK(make_table(database, table, frame));
  } else {
    ROOTSTEAD_CHECK(make_geopackage(database, system, project_tables()));
  }
  ROOTSTEAD_CHECK(guard_journal(database));
  return guard_history(database);
}

Outcome make_project(const fs::path& file, const std::function<Outcome(Database&)>& fill) {
  const std::string text = file.string();
  return is_team_address(text) ? make_on_server(text, fill) : make_file(file, fill);
}

}  // namespace rootstead::io
