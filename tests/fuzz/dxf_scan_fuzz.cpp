// Any bytes are a drawing or an error; entities lie inside the text, symbols are cut out cleanly.
#include <cstdint>
#include <cstdlib>

#include "io/dxf_symbols.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace rootstead::io;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const std::string file = "fuzz.dxf";
  const auto drawing = scan_dxf(text, file);
  if (!drawing) return drawing.error().sentence().empty() ? std::abort(), 0 : 0;
  for (const DxfEntity& entity : drawing->entities) {
    if (entity.begin >= entity.end || entity.end > text.size()) std::abort();
  }
  const DxfSymbols found =
      take_symbols(*drawing, text, [](const std::string& layer, const std::string& block) {
        return layer == "T" || block == "T";
      });
  if (found.rest.size() > text.size()) std::abort();
  return 0;
}
