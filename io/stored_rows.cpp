#include "io/stored_rows.hpp"

namespace rootstead::io {
namespace {

StoredValue take_value(Statement& row, const Column& column) {
  if (row.null()) {
    row.skip();
    return std::monostate{};
  }
  if (is_geometry(column)) return row.geometry().value_or("");
  if (column.type == "BLOB") return row.bytes().value_or("");
  if (column.type == "DOUBLE") return row.number();
  if (column.type == "INTEGER" || column.type == "BOOLEAN") return row.integer();
  return row.text();
}

struct Put {
  Statement& to;
  const Column& column;
  void operator()(std::monostate) const { to.put_null(); }
  void operator()(std::int64_t number) const { to.put(number); }
  void operator()(double number) const { to.put(number); }
  void operator()(const std::string& bytes) const {
    if (is_geometry(column)) return to.put_geometry(bytes);
    column.type == "BLOB" ? to.put_bytes(bytes) : to.put(std::string_view(bytes));
  }
};

}  // namespace

StoredRow take_row(Statement& row, const std::vector<Column>& columns) {
  StoredRow values;
  values.reserve(columns.size());
  for (const Column& column : columns) values.push_back(take_value(row, column));
  return values;
}

void put_row(Statement& to, const std::vector<Column>& columns, const StoredRow& row) {
  for (std::size_t i = 0; i < columns.size(); ++i) std::visit(Put{to, columns[i]}, row[i]);
}

}  // namespace rootstead::io
