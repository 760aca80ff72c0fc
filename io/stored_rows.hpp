// Rows of any table as plain values, for what does not care what they mean: copying, history.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "io/stored.hpp"

namespace rootstead::io {

// NULL, a number, or the bytes of a text, blob or geometry (as a blob of a GeoPackage): which, the
// type of its column says.
using StoredValue = std::variant<std::monostate, std::int64_t, double, std::string>;
using StoredRow = std::vector<StoredValue>;

StoredRow take_row(Statement& row, const std::vector<Column>& columns);
void put_row(Statement& to, const std::vector<Column>& columns, const StoredRow& row);

inline bool is_geometry(const Column& column) {
  return column.type == "GEOMETRY" || column.type == "POINT" || column.type == "MULTIPOLYGON";
}

}  // namespace rootstead::io
