#include "io/stored_table.hpp"

#include <algorithm>

#include "io/dialect.hpp"

namespace rootstead::io {

Result<std::vector<std::string>> columns_in(const Database& database, const std::string& table) {
  Statement rows(database, columns_query(database));
  rows.put(std::string_view(table));
  std::vector<std::string> names;
  while (true) {
    ROOTSTEAD_TRY(const bool more, rows.next());
    if (!more) return names;
    names.push_back(rows.text());
  }
}

bool contains(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace rootstead::io
