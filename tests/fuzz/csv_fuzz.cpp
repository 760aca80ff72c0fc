// Any bytes are a table or an error; what is read is of bounded size and numbered upwards.
#include <cstdint>
#include <cstdlib>

#include "io/csv.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace rootstead::io;
  const std::string text = decoded(std::string(reinterpret_cast<const char*>(data), size)).text;
  const auto table = parse_csv(text, "fuzz.csv");
  if (!table) return table.error().sentence().empty() ? std::abort(), 0 : 0;
  std::size_t bytes = 0, last = 0;
  for (const CsvRow& row : table->rows) {
    if (row.row <= last) std::abort();
    last = row.row;
    for (const std::string& cell : row.cells) bytes += cell.size();
  }
  if (bytes > text.size()) std::abort();
  return 0;
}
