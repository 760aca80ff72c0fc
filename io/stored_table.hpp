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

// All records of a table, in the order in which they were added.
template <class Record>
Result<std::vector<Record>> read_all(const Database& database, const std::string& table,
                                     const Frame& frame) {
  Statement rows(database,
                 "SELECT " + names_of(columns_of<Record>()) + " FROM " + table + " ORDER BY fid");
  Taker taker(rows, database, frame, table);
  std::vector<Record> records;
  while (true) {
    ROOTSTEAD_TRY(const bool more, rows.next());
    if (!more) return records;
    describe(records.emplace_back(), taker);
  }
}

}  // namespace rootstead::io
