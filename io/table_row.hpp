// One row of a CSV of data/, read cell by cell into a fact; the first cell that is wrong is the
// row's error.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "engine/base/result.hpp"
#include "engine/base/source.hpp"
#include "engine/base/text.hpp"
#include "io/csv.hpp"

namespace rootstead::io {

// The source that rows of a user's own tables cite where they name none.
inline constexpr std::string_view kOwnTables = "own-tables";

class TableRow {
 public:
  // whole: a shipped table, which has every column. own: a user's table over a shipped one; columns
  // it lacks, and cells left empty, keep what was there.
  enum class Kind { whole, own };
  TableRow(const CsvTable& table, const CsvRow& row, const std::string& file, Kind kind)
      : table_(table), row_(row), subject_(file + " row " + std::to_string(row.row)), kind_(kind) {}

  bool has(std::string_view column);  // a cell with something in it
  std::string text(std::string_view column);

  // Each leaves `value` as it is where the cell is empty. A number that is wanted may only be left
  // out of an own table that has it already.
  void set(std::string_view column, std::string& value);
  void set_number(std::string_view column, double& value, bool known);
  void set_number(std::string_view column, std::optional<double>& value);
  template <class Value>
  void set_word(std::string_view column, Value& value,
                std::optional<Value> (*read)(std::string_view)) {
    const std::string written = text(column);
    if (written.empty()) return;
    if (const auto read_value = read(written)) {
      value = *read_value;
    } else {
      fail("\"" + written + "\" is not known as " + std::string(column), "check the word");
    }
  }
  void set_yes(std::string_view column, bool& value);
  // The columns PREFIXsource, PREFIXplace, PREFIXstatus. In an own table the place goes on to say
  // what it stands in for.
  void set_citation(const std::string& prefix, Citation& from);

  void fail(std::string message, std::string remedy);
  const std::string& subject() const { return subject_; }
  // Columns that were asked for, to find those that nobody knows.
  const std::set<std::string, std::less<>>& asked() const { return asked_; }

  std::optional<Error> error;

 private:
  const CsvTable& table_;
  const CsvRow& row_;
  std::string subject_;
  Kind kind_;
  std::set<std::string, std::less<>> asked_;
};

}  // namespace rootstead::io
