#include "io/frozen.hpp"

#include <zlib.h>

#include "io/revision_rows.hpp"
#include "io/stored_table.hpp"

namespace rootstead::io {
namespace {

void copy_value(Statement& from, const Column& column, Statement& to) {
  const bool left_out = column.name == kFrozenColumn;
  if (left_out || from.null()) {
    from.skip();
    to.put_null();
  } else if (column.type == "TEXT") {
    to.put(std::string_view(from.text()));
  } else if (column.type == "DOUBLE") {
    to.put(from.number());
  } else if (column.type == "INTEGER" || column.type == "BOOLEAN") {
    to.put(from.integer());
  } else {
    const auto bytes = from.bytes();  // a geometry, or the bytes of a surface
    to.put_bytes(*bytes);
  }
}

Outcome copy_rows(const Database& from, const Database& to, const Table& table) {
  std::vector<Column> columns{{"fid", "INTEGER"}};
  columns.insert(columns.end(), table.columns.begin(), table.columns.end());
  std::string places = "?";
  for (std::size_t i = 1; i < columns.size(); ++i) places += ", ?";
  const std::string names = names_of(columns);
  Statement rows(from, "SELECT " + names + " FROM " + table.name + " ORDER BY fid");
  Statement insert(to, "INSERT INTO " + table.name + " (" + names + ") VALUES (" + places + ")");
  while (true) {
    ROOTSTEAD_TRY(const bool more, rows.next());
    if (!more) return Nothing{};
    for (const Column& column : columns) copy_value(rows, column, insert);
    ROOTSTEAD_CHECK(insert.run());
  }
}

Result<std::vector<Table>> tables_there(const Database& database) {
  std::vector<Table> tables;
  for (const std::vector<Table>* all : {&project_tables(), &revision_tables()}) {
    for (const Table& table : *all) {
      ROOTSTEAD_TRY(const auto columns, columns_in(database, table.name));
      if (!columns.empty()) tables.push_back(table);
    }
  }
  return tables;
}

}  // namespace

Result<std::string> frozen_project(const Project::State& state, const std::string& when) {
  ROOTSTEAD_TRY(const std::vector<Table> tables, tables_there(state.database));
  ROOTSTEAD_TRY(Database copy, Database::in_memory(state.database.subject()));
  ROOTSTEAD_CHECK(make_geopackage(copy, state.system, tables));
  std::vector<std::string> names;
  for (const Table& table : tables) {
    ROOTSTEAD_CHECK(copy_rows(state.database, copy, table));
    names.push_back(table.name);
  }
  ROOTSTEAD_CHECK(guard_journal(copy));
  ROOTSTEAD_CHECK(stamp(copy, names, when));
  return copy.image();
}

Result<std::string> compressed(const std::string& bytes) {
  uLongf size = compressBound(static_cast<uLong>(bytes.size()));
  std::string packed(size, '\0');
  const int status = compress2(reinterpret_cast<Bytef*>(packed.data()), &size,
                               reinterpret_cast<const Bytef*>(bytes.data()),
                               static_cast<uLong>(bytes.size()), Z_BEST_COMPRESSION);
  if (status != Z_OK)
    return Error{Code::file_unwritable, "the frozen project", "it could not be compressed",
                 "make room in memory and try again"};
  packed.resize(size);
  return packed;
}

Result<std::string> expanded(const std::string& bytes, std::size_t size,
                             const std::string& subject) {
  std::string whole(size, '\0');
  auto length = static_cast<uLongf>(size);
  const int status =
      uncompress(reinterpret_cast<Bytef*>(whole.data()), &length,
                 reinterpret_cast<const Bytef*>(bytes.data()), static_cast<uLong>(bytes.size()));
  if (status == Z_OK && length == size) return whole;
  return Error{Code::format_broken, subject, "the frozen project is damaged",
               "use a copy of the project from before"};
}

}  // namespace rootstead::io
