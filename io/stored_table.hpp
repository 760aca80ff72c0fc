// Whole tables of described records (io/records.hpp): made, filled and read from one description.
#pragma once

#include <string>
#include <vector>

#include "engine/base/text.hpp"
#include "io/stored.hpp"

namespace rootstead::io {

template <class Record>
std::vector<Column> columns_of() {
  ColumnLister lister;
  const Record record{};
  describe(record, lister);
  return lister.columns();
}

inline std::string names_of(const std::vector<Column>& columns) {
  std::vector<std::string> names;
  for (const Column& column : columns) names.push_back(column.name);
  return joined(names, ", ");
}

// Inserts records one after the other.
template <class Record>
class Inserter {
 public:
  Inserter(const Database& database, const std::string& table, const Frame& frame)
      : statement_(database, command(table)), putter_(statement_, frame) {}
  Inserter(const Inserter&) = delete;
  Inserter& operator=(const Inserter&) = delete;

  Outcome operator()(const Record& record) {
    describe(record, putter_);
    return statement_.run();
  }

 private:
  static std::string command(const std::string& table) {
    const auto columns = columns_of<Record>();
    std::string places = "?";
    for (std::size_t i = 1; i < columns.size(); ++i) places += ", ?";
    return "INSERT INTO " + table + " (" + names_of(columns) + ") VALUES (" + places + ")";
  }
  Statement statement_;
  Putter putter_;
};

// Names of the columns of a table; none where there is no such table.
Result<std::vector<std::string>> columns_in(const Database& database, const std::string& table);
bool contains(const std::vector<std::string>& names, const std::string& name);

// All records of a table, in the order in which they were added, as one SELECT of `columns` gives
// them: names, or what stands for them.
template <class Record>
Result<std::vector<Record>> read_as(const Database& database, const std::string& table,
                                    const std::string& columns, const Frame& frame) {
  Statement rows(database, "SELECT " + columns + " FROM " + table + " ORDER BY fid");
  Taker taker(rows, database, frame, table);
  std::vector<Record> records;
  while (true) {
    ROOTSTEAD_TRY(const bool more, rows.next());
    if (!more) return records;
    describe(records.emplace_back(), taker);
  }
}

// Of a table that every project has.
template <class Record>
Result<std::vector<Record>> read_all(const Database& database, const std::string& table,
                                     const Frame& frame) {
  return read_as<Record>(database, table, names_of(columns_of<Record>()), frame);
}

// Of a table that a project of an older format may lack, or whose later columns it may lack: there
// is then nothing in them.
template <class Record>
Result<std::vector<Record>> read_if_there(const Database& database, const std::string& table,
                                          const Frame& frame) {
  ROOTSTEAD_TRY(const auto there, columns_in(database, table));
  if (there.empty()) return std::vector<Record>{};
  std::vector<std::string> columns;
  for (const Column& column : columns_of<Record>())
    columns.push_back(contains(there, column.name) ? column.name : "NULL");
  return read_as<Record>(database, table, joined(columns, ", "), frame);
}

}  // namespace rootstead::io
