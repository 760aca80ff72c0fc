#include "io/table_row.hpp"

#include <utility>

namespace rootstead::io {

std::string TableRow::text(std::string_view column) {
  asked_.emplace(column);
  const auto at = column_of(table_, column);
  if (!at && kind_ == Kind::whole)
    fail("the column \"" + std::string(column) + "\" is missing", "add it to the header");
  if (!at || *at >= row_.cells.size()) return {};
  return std::string(trimmed(row_.cells[*at]));
}

bool TableRow::has(std::string_view column) {
  return !text(column).empty();
}

void TableRow::set(std::string_view column, std::string& value) {
  std::string written = text(column);
  if (!written.empty()) value = std::move(written);
}

void TableRow::set_number(std::string_view column, double& value, bool known) {
  if (kind_ == Kind::own && known && !has(column)) return;
  const auto number = number_from(text(column));
  if (!number) fail(std::string(column) + " is not a number", "write it with a decimal point");
  value = number.value_or(value);
}

void TableRow::set_number(std::string_view column, std::optional<double>& value) {
  if (!has(column)) return;
  double number = 0;
  set_number(column, number, false);
  value = number;
}

void TableRow::set_yes(std::string_view column, bool& value) {
  const std::string written = lower_case(text(column));
  if (written.empty()) return;
  value = written == "yes" || written == "true" || written == "1";
}

void TableRow::set_citation(const std::string& prefix, Citation& from) {
  Citation cited;
  set(prefix + "source", cited.source);
  set(prefix + "place", cited.place);
  set_word(prefix + "status", cited.status, status_from);
  if (kind_ == Kind::own) {
    if (cited.source.empty()) cited.source = kOwnTables;
    cited.place += (cited.place.empty() ? "" : "; ") + subject_;
    if (!from.source.empty()) cited.place += ", in place of " + from.source;
  }
  from = std::move(cited);
}

void TableRow::fail(std::string message, std::string remedy) {
  if (error) return;
  error = Error{Code::table_incoherent, subject_, std::move(message), std::move(remedy)};
}

}  // namespace rootstead::io
