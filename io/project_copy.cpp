// A project copied row by row, whatever it lies in.
#include "io/dialect.hpp"
#include "io/project_change.hpp"
#include "io/project_format.hpp"
#include "io/project_history.hpp"
#include "io/project_make.hpp"
#include "io/stored_rows.hpp"
#include "io/stored_table.hpp"

namespace rootstead::io {
namespace {

// The geometry with its header as we write it, so that it is the same in every store.
Outcome make_whole(StoredRow& row, const std::vector<Column>& columns, const std::string& table,
                   const Database& from, const Frame& frame) {
  for (std::size_t i = 0; i < columns.size(); ++i) {
    auto* bytes = is_geometry(columns[i]) ? std::get_if<std::string>(&row[i]) : nullptr;
    if (bytes == nullptr) continue;
    auto whole = whole_blob(*bytes, frame);
    if (!whole) return from.broken("a geometry of table " + table + " is none");
    *bytes = std::move(*whole);
  }
  return Nothing{};
}

// The columns that the table has; of an older project it may have fewer.
Result<std::vector<Column>> columns_there(const Database& from, const Table& table) {
  ROOTSTEAD_TRY(const auto there, columns_in(from, table.name));
  std::vector<Column> columns;
  if (there.empty()) return columns;
  columns.push_back({"fid", "INTEGER"});
  for (const Column& column : table.columns)
    if (contains(there, column.name)) columns.push_back(column);
  return columns;
}

Outcome copy_rows(const Database& from, Database& to, const Table& table, const Frame& frame) {
  ROOTSTEAD_TRY(const auto columns, columns_there(from, table));
  if (columns.empty()) return Nothing{};
  std::string places = "?";
  for (std::size_t i = 1; i < columns.size(); ++i) places += ", ?";
  Statement rows(from, "SELECT " + names_of(columns) + " FROM " + table.name + " ORDER BY fid");
  Statement insert(
      to, "INSERT INTO " + table.name + " (" + names_of(columns) + ") VALUES (" + places + ")");
  while (true) {
    ROOTSTEAD_TRY(const bool more, rows.next());
    if (!more) break;
    StoredRow row = take_row(rows, columns);
    ROOTSTEAD_CHECK(make_whole(row, columns, table.name, from, frame));
    put_row(insert, columns, row);
    ROOTSTEAD_CHECK(insert.run());
  }
  ROOTSTEAD_TRY(const auto highest, highest_number(from, table.name));
  return set_highest_number(to, table.name, highest);
}

// In what only a store of its kind has, and in what we made ourselves, there is nothing to copy.
bool is_of_the_store(const std::string& table) {
  return table.starts_with("gpkg_") || table.starts_with("sqlite_") ||
         table.starts_with("rtree_") || table == "layer_styles" || table == "project_lock";
}

Result<std::vector<std::string>> left_behind(const Database& from) {
  std::vector<std::string> left, known;
  for (const Table& table : project_tables()) {
    known.push_back(table.name);
    ROOTSTEAD_TRY(const auto there, columns_in(from, table.name));
    for (const std::string& name : there) {
      const bool ours =
          name == "fid" || std::any_of(table.columns.begin(), table.columns.end(),
                                       [&](const Column& c) { return c.name == name; });
      if (!ours) left.push_back("column " + name + " of table " + table.name);
    }
  }
  Statement tables(from, tables_query(from));
  while (true) {
    ROOTSTEAD_TRY(const bool more, tables.next());
    if (!more) return left;
    const std::string name = tables.text();
    if (!contains(known, name) && !is_of_the_store(name)) left.push_back("table " + name);
  }
}

Outcome copy_into(const Project::State& from, Database& to) {
  ROOTSTEAD_CHECK(make_tables(to, from.system));
  ROOTSTEAD_CHECK(checked_journal(from.database));
  for (const Table& table : project_tables())
    ROOTSTEAD_CHECK(copy_rows(from.database, to, table, from.frame));
  ROOTSTEAD_TRY(const int format, raise_format(to, from.frame));
  const std::string now = utc_now();
  if (format < kCurrentFormat) ROOTSTEAD_CHECK(tell_of_raising(to, now, format));
  std::vector<std::string> names;
  for (const Table& table : project_tables()) names.push_back(table.name);
  return stamp(to, names, now);
}

}  // namespace

Result<std::vector<std::string>> Project::copy(const std::filesystem::path& from,
                                               const std::filesystem::path& to) {
  ROOTSTEAD_TRY(const Project source, open(from));
  const State& state = *source.state_;
  ROOTSTEAD_TRY(const Transaction reading, Transaction::begin_reading(state.database));
  ROOTSTEAD_CHECK(make_project(to, [&](Database& database) { return copy_into(state, database); }));
  return left_behind(state.database);
}

}  // namespace rootstead::io
