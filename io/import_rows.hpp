// Rows of a source under the eyes of a column map: which cell is which field, in what unit.
// Private to the readers.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/site/work.hpp"
#include "io/import.hpp"
#include "io/import_fields.hpp"
#include "io/import_problems.hpp"

namespace rootstead::io {

// One row of a table, one feature of a layer or one entity of a drawing.
struct Record {
  std::vector<std::string> cells;
  std::string place;           // "row 12", "layer TREES feature 3"
  std::string spare_id;        // where the row names none: "row-12", "TREES-3"
  std::optional<Shape> shape;  // in project metres, where the source draws it
};

class FieldTable {
 public:
  // Fails with column_missing where the map names a column that the header has not.
  static Result<FieldTable> make(const ColumnMap& map, const std::vector<std::string>& header,
                                 const std::string& file);

  // Gives a unit to the lengths that have none; where stems and other lengths both have none, to
  // the stems alone, because they are hardly ever written in the same unit.
  void answer_unit(LengthUnit unit);

  bool has(Field field) const;
  // Trimmed; empty for a blank cell and for words that mean nothing is known ("n/a", "-", "?").
  std::string_view text(const Record& record, Field field) const;
  std::optional<LengthUnit> unit(Field field) const;
  std::string column(Field field) const;  // header in the source, or our name for a constant

  // Headers that no field takes.
  const std::vector<std::string>& unread() const { return unread_; }

 private:
  struct Binding {
    std::optional<std::size_t> cell;
    std::string column;
    std::string constant;
    std::optional<LengthUnit> unit;
  };
  const Binding* binding(Field field) const;
  std::array<std::optional<Binding>, kFieldCount> bindings_;
  std::vector<std::string> unread_;
};

// A length in a cell: "45", "16 in", "5'6\"", "~45", "5 1/2 in".
struct ReadLength {
  std::optional<EnteredLength> length;
  bool estimated = false;     // "~", "ca.", "est."
  bool unit_missing = false;  // a number, but of what?
};
ReadLength length_in(std::string_view cell, std::optional<LengthUnit> unit);

// The stems of a cell: "300+250", "300, 250, 200 mm", "3 x 200". One part where it is no list.
std::vector<std::string> stem_parts(std::string_view cell);

// "12.05.2023", "5-Mar": a spreadsheet may have turned a value into a date.
bool looks_like_date(std::string_view cell);

// Yes and no in five languages; nothing for other words.
std::optional<bool> yes_no_from(std::string_view cell);

enum class Unreadable : std::uint8_t { is_told, blocks };

// The length in the cell of a field: nothing where it is blank, or where it cannot be read or is
// below 0, which is said in the log at `place`, and blocks where something else would be assumed in
// its place. Fails only with unit_missing, which is a question about the whole source. `example`
// says how to write it: "900 mm".
Result<std::optional<EnteredLength>> length_cell(const Record& record, const FieldTable& table,
                                                 Field field, std::string_view what,
                                                 ProblemLog& log, const std::string& place,
                                                 std::string_view example = "900 mm",
                                                 Unreadable unreadable = Unreadable::is_told);

Error unit_missing_error(const std::string& file, const FieldTable& table, Field field);

}  // namespace rootstead::io
