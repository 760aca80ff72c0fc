#include "io/project_format.hpp"

#include "engine/base/text.hpp"
#include "io/dialect.hpp"
#include "io/stored_table.hpp"

namespace rootstead::io {
namespace {

Result<std::int64_t> application_of(const Database& database) {
  Statement read(database, "PRAGMA application_id");
  ROOTSTEAD_TRY(const bool any, read.next());
  return any ? read.integer() : 0;
}

Error not_a_project(const Database& database) {
  return {Code::format_unknown, database.subject(), "this is not a Rootstead project",
          "make a project with `rootstead new` and add this file to it with `rootstead add`"};
}

Result<int> format_of(const Database& database) {
  Statement version(database, "SELECT value FROM settings WHERE key = 'file.format_version'");
  const auto any = version.next();
  if (!any && any.error().code == Code::file_unreadable)
    return any.error();  // the server went away
  if (!any || !*any) return not_a_project(database);
  const std::string text = version.text();
  const auto number = number_from(text);
  if (!number) return database.broken("its format version \"" + text + "\" is not a number");
  if (*number > kCurrentFormat) {
    return Error{Code::format_newer, database.subject(),
                 "the project has format " + text + " and this program reads formats up to " +
                     std::to_string(kCurrentFormat),
                 "open it with a newer Rootstead"};
  }
  if (*number < kOldestReadable) return database.broken("format " + text + " never existed");
  return static_cast<int>(*number);
}

Outcome add_missing_columns(Database& database, const Table& table,
                            const std::vector<std::string>& there, const Frame& frame) {
  for (const Column& column : table.columns) {
    if (contains(there, column.name)) continue;
    const std::string add = add_column_command(database, table.name, column, frame);
    ROOTSTEAD_CHECK(database.run(add.c_str()));
  }
  return Nothing{};
}

}  // namespace

Outcome check_format(const Database& database) {
  if (!database.on_server()) {
    ROOTSTEAD_TRY(const auto id, application_of(database));
    if (id != kGeoPackageId) return not_a_project(database);
  }
  ROOTSTEAD_TRY([[maybe_unused]] const int format, format_of(database));
  return Nothing{};
}

Result<int> raise_format(Database& database, const Frame& frame) {
  ROOTSTEAD_TRY(const int had, format_of(database));
  if (had == kCurrentFormat) return had;
  for (const Table& table : project_tables()) {
    ROOTSTEAD_TRY(const auto there, columns_in(database, table.name));
    ROOTSTEAD_CHECK(there.empty() ? make_table(database, table, frame)
                                  : add_missing_columns(database, table, there, frame));
  }
  Statement name(database, "UPDATE settings SET value = ? WHERE key = 'file.format_version'");
  name.put(std::string_view(std::to_string(kCurrentFormat)));
  ROOTSTEAD_CHECK(name.run());
  return had;
}

}  // namespace rootstead::io
