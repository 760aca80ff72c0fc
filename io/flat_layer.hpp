// A layer as every format can take it: named columns, rows of plain cells, and a shape for each
// row. Made from described records (io/records.hpp, io/result_rows.hpp, io/export_rows.hpp).
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "engine/site/work.hpp"
#include "io/stored.hpp"
#include "io/stored_table.hpp"

namespace rootstead::io {

using Cell = std::variant<std::monostate, bool, std::int64_t, double, std::string>;

// "" for nothing, "yes" and "no", the shortest number that reads back the same, or the text.
std::string text_of(const Cell& cell);

struct FlatRow {
  Shape shape;  // in metres of the Site; empty where there is none
  std::vector<Cell> cells;
};

struct FlatLayer {
  std::string name;
  std::string meaning;          // one line
  std::string geometry;         // "POINT", "MULTIPOLYGON", "GEOMETRY" or "" for a plain table
  std::vector<Column> columns;  // of the cells, in their order
  std::vector<FlatRow> rows;

  std::size_t column(std::string_view name) const;  // its index; columns.size() where there is none
};

// Visits a described record and collects its cells; the inverse of Taker.
class Flattener {
 public:
  template <class T>
  void operator()(const char*, const T& value) {
    take(value);
  }
  FlatRow row() { return std::exchange(row_, {}); }

 private:
  void add(Cell cell) { row_.cells.push_back(std::move(cell)); }
  void take(const std::string& v) { add(v); }
  void take(bool v) { add(v); }
  void take(std::int64_t v) { add(v); }
  void take(double v) { add(v); }
  void take(const std::optional<double>& v) { add(v ? Cell(*v) : Cell()); }
  void take(const Shape& v) { row_.shape = v; }
  void take(const MultiPolygon& v) { row_.shape.areas = v; }
  void take(const std::optional<Point>& v) {
    if (v) row_.shape.points = {*v};
  }
  FlatRow row_;
};

template <class Record>
FlatLayer flat_layer(std::string name, std::string meaning, const std::vector<Record>& records) {
  FlatLayer layer{std::move(name), std::move(meaning), "", columns_of<Record>(), {}};
  if (!layer.columns.empty() && layer.columns.front().name == "geom") {
    layer.geometry = layer.columns.front().type;
    layer.columns.erase(layer.columns.begin());
  }
  Flattener flattener;
  for (const Record& record : records) {
    describe(record, flattener);
    layer.rows.push_back(flattener.row());
  }
  return layer;
}

}  // namespace rootstead::io
