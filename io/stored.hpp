// How values of our types lie in the columns of a table. A record is described once
// (io/records.hpp), as a list of (column name, field); from that one list come CREATE TABLE, INSERT
// and SELECT, so that they cannot disagree.
#pragma once

#include <concepts>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "engine/site/site.hpp"
#include "io/database.hpp"
#include "io/words.hpp"

namespace rootstead::io {

// What the geometries of a project file are counted in.
struct Frame {
  std::int64_t srs_id = 0;
  double metres_per_unit = 1;
};

// GeoPackage geometry blobs (OGC 12-128, 2.1.3). Empty where a coordinate is not finite.
std::optional<std::string> geometry_blob(const Shape& shape, const Frame& frame);
std::optional<std::string> geometry_blob(const MultiPolygon& area, const Frame& frame);
std::optional<std::string> geometry_blob(const Point& point, const Frame& frame);
// Empty where the bytes are no geometry blob.
std::optional<Shape> shape_of_blob(std::string_view blob, const Frame& frame);

// Its well-known binary; empty where the bytes are no geometry blob.
std::string_view wkb_of_blob(std::string_view blob);
// The same geometry with the header that geometry_blob() writes.
std::optional<std::string> whole_blob(std::string_view blob, const Frame& frame);

// Words of which one says that nothing is known: NULL, as in a column an older project lacks or a
// GIS left empty, is that word. The kind of a work, say, is never left out.
template <class Word>
inline constexpr bool kMayBeLeftOut =
    std::same_as<Word, GrowthForm> || std::same_as<Word, Condition> ||
    std::same_as<Word, LifeStage> || std::same_as<Word, GrowthHistory> ||
    std::same_as<Word, Intent> || std::same_as<Word, Flare::State> ||
    std::same_as<Word, SoilTexture> || std::same_as<Word, Drainage>;

struct Column {
  std::string name;
  std::string type;  // as SQLite and GeoPackage name it
};

// Lists the columns of a record.
class ColumnLister {
 public:
  template <class T>
  void operator()(const char* name, const T& value) {
    list(name, value);
  }
  const std::vector<Column>& columns() const { return columns_; }

 private:
  void add(const std::string& name, const char* type) { columns_.push_back({name, type}); }
  void list(const std::string& n, const std::string&) { add(n, "TEXT"); }
  void list(const std::string& n, bool) { add(n, "BOOLEAN"); }
  void list(const std::string& n, double) { add(n, "DOUBLE"); }
  void list(const std::string& n, std::int64_t) { add(n, "INTEGER"); }
  void list(const std::string& n, const std::optional<double>&) { add(n, "DOUBLE"); }
  void list(const std::string& n, const std::optional<int>&) { add(n, "INTEGER"); }
  void list(const std::string& n, const Shape&) { add(n, "GEOMETRY"); }
  void list(const std::string& n, const MultiPolygon&) { add(n, "MULTIPOLYGON"); }
  void list(const std::string& n, const std::optional<Point>&) { add(n, "POINT"); }
  void list(const std::string& n, const Point&) { add(n, "POINT"); }
  void list(const std::string& n, const EnteredLength&) {
    add(n, "DOUBLE");
    add(n + "_unit", "TEXT");
  }
  void list(const std::string& n, const std::optional<EnteredLength>&) { list(n, EnteredLength{}); }
  void list(const std::string& n, const std::optional<Lean>&) {
    add(n + "_deg", "DOUBLE");
    add(n + "_towards_deg", "DOUBLE");
  }
  void list(const std::string& n, const std::optional<Position>&) {
    add("geom", "POINT");
    add(n + "_source", "TEXT");
    list(n + "_error", EnteredLength{});
  }
  void list(const std::string& n, const Origin&) {
    add(n + "_file", "TEXT");
    add(n + "_place", "TEXT");
  }
  template <class Word>
  requires std::is_enum_v<Word>
  void list(const std::string& n, Word) { add(n, "TEXT"); }
  std::vector<Column> columns_;
};

// Puts the fields of a record into a statement.
class Putter {
 public:
  Putter(Statement& statement, const Frame& frame) : to_(statement), frame_(frame) {}
  template <class T>
  void operator()(const char*, const T& value) {
    put(value);
  }

 private:
  void put(const std::string& v) { to_.put(std::string_view(v)); }
  void put(bool v) { to_.put(std::int64_t{v}); }
  void put(double v) { to_.put(v); }
  void put(std::int64_t v) { to_.put(v); }
  void put(const std::optional<double>& v) { v ? to_.put(*v) : to_.put_null(); }
  void put(const std::optional<int>& v) { v ? to_.put(std::int64_t{*v}) : to_.put_null(); }
  void put(const EnteredLength& v) {
    to_.put(v.value);
    to_.put(symbol(v.unit));
  }
  void put(const std::optional<EnteredLength>& v);
  void put(const std::optional<Lean>& v);
  void put(const std::optional<Position>& v);
  void put(const Origin& v) {
    put(v.file);
    put(v.place);
  }
  void put(const Shape& v);
  void put(const MultiPolygon& v);
  void put(const std::optional<Point>& v);
  void put(const Point& v);
  template <class Word>
  requires std::is_enum_v<Word>
  void put(Word v) { to_.put(word_of(v)); }
  void put_blob(const std::optional<std::string>& blob);
  Statement& to_;
  const Frame& frame_;
};

// Takes the fields of a record out of a row; an unknown word or unit makes the statement object,
// naming the column.
class Taker {
 public:
  Taker(Statement& row, const Database& database, const Frame& frame, std::string table)
      : from_(row), database_(database), frame_(frame), table_(std::move(table)) {}
  template <class T>
  void operator()(const char* name, T& value) {
    column_ = name;
    take(value);
  }

 private:
  void take(std::string& v) { v = from_.text(); }
  void take(bool& v) { v = from_.integer() != 0; }
  void take(double& v) { v = from_.number(); }
  void take(std::int64_t& v) { v = from_.integer(); }
  void take(std::optional<double>& v);
  void take(std::optional<int>& v);
  void take(EnteredLength& v);
  void take(std::optional<EnteredLength>& v);
  void take(std::optional<Lean>& v);
  void take(std::optional<Position>& v);
  void take(Origin& v) {
    take(v.file);
    take(v.place);
  }
  void take(Shape& v);
  void take(MultiPolygon& v);
  void take(std::optional<Point>& v);
  void take(Point& v);
  template <class Word>
  requires std::is_enum_v<Word>
  void take(Word& v) {
    if constexpr (kMayBeLeftOut<Word>) {
      if (from_.null()) return from_.skip();  // nothing is said: it stays not known
    }
    const std::string text = from_.text();
    if (!read_word(text, v)) not_understood(text);
  }
  void not_understood(const std::string& text);
  Statement& from_;
  const Database& database_;
  const Frame& frame_;
  std::string table_;
  std::string column_;
};

}  // namespace rootstead::io
