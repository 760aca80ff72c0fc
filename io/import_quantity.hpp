// Numbers of a source that are no lengths: shares, masses, loads, pressures, with the unit in the
// cell or the header. Private to the readers.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "io/import_problems.hpp"
#include "io/import_rows.hpp"

namespace rootstead::io {

struct QuantityUnit {  // as it stands in a cell or header, in lower case and without blanks
  std::string_view text;
  double factor;
};

// Shares as they are, or in percent.
inline constexpr std::array<QuantityUnit, 4> kShareUnits{
    {{"", 1}, {"%", 0.01}, {"pct", 0.01}, {"percent", 0.01}}};

struct Quantity {
  Field field;
  std::string_view what;                // "bulk density"
  std::span<const QuantityUnit> units;  // the first is taken where none is written
  double low, high;                     // of what is possible
  std::string_view example;             // "1.45 g/cm3"
  std::string_view nonsense;            // said of others: "is none that a soil has"
  NoteCode code;                        // of nonsense
  Unreadable unreadable = Unreadable::is_told;
};

// The number of a cell in the first of its units; nothing where the cell is blank, or cannot be
// read, or is not possible, which is said in the log at `place`.
std::optional<double> quantity_cell(const Record& record, const FieldTable& table,
                                    const Quantity& quantity, ProblemLog& log,
                                    const std::string& place);

// Is a unit of it written, in the cell or the header?
bool unit_written(const Record& record, const FieldTable& table, const Quantity& quantity);

}  // namespace rootstead::io
