// Any text is a column map or an error; a map that was read survives being written and read again.
#include <cstdint>
#include <cstdlib>

#include "io/import.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace rootstead::io;
  const std::string text(reinterpret_cast<const char*>(data), size);
  propose_columns({text, text + "_cm", "n", "e"});
  const auto map = column_map_from_text(text, "fuzz.toml");
  if (!map) return map.error().sentence().empty() ? std::abort(), 0 : 0;
  const auto again = column_map_from_text(to_toml(*map), "fuzz.toml");
  if (!again || again->fields.size() != map->fields.size() || again->values != map->values ||
      again->layer_kinds != map->layer_kinds || again->crs != map->crs)
    std::abort();
  return 0;
}
