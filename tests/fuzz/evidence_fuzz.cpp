// Any bytes are openings, a soil, or one sentence; what is read is finite and no more than the
// rows.
//   build/fuzz/bin/fuzz_evidence -max_total_time=60 tests/fuzz/corpus/evidence
#include <unistd.h>

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "io/import.hpp"

namespace {

using namespace rootstead;

void demand(bool holds) {
  if (!holds) std::abort();
}

bool is_sound(const EnteredLength& length) {
  return length.value >= 0 && !std::isnan(length.value);
}

void look_at(const io::Import& import) {
  demand(import.rows_read > 0);
  demand(import.evidence.size() <= import.rows_read);
  for (const Evidence& opening : import.evidence) {
    demand(!opening.id.empty());
    for (const FoundRoot& root : opening.roots) {
      demand(is_sound(root.diameter));
      demand(!root.at || (std::isfinite(root.at->x) && std::isfinite(root.at->y)));
    }
  }
  if (!import.soil) return;
  demand(import.soil->layers.size() <= import.rows_read);
  for (const SoilLayer& layer : import.soil->layers) {
    demand(is_sound(layer.bottom));
    demand(!layer.bulk_density || (*layer.bulk_density >= 0.3 && *layer.bulk_density <= 2.2));
    demand(!layer.air_filled || (*layer.air_filled >= 0 && *layer.air_filled <= 1));
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const auto file = std::filesystem::temp_directory_path() /
                           ("rootstead-fuzz-" + std::to_string(::getpid()) + ".csv");
  static const ReferenceSystem system = io::reference_system("EPSG:32632").value();
  std::ofstream(file, std::ios::binary)
      .write(reinterpret_cast<const char*>(data), static_cast<std::streamsize>(size));
  for (const char* as : {"evidence", "soil"}) {
    io::ImportOptions options;
    options.as = as;
    for (const bool answered : {false, true}) {
      if (answered) options.length_unit = LengthUnit::millimetre;
      const auto import = io::read_source(file, options, system);
      import ? look_at(*import) : demand(!import.error().sentence().empty());
    }
  }
  return 0;
}
