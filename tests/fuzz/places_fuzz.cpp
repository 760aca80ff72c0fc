// Any bytes are things with places or one sentence: trees, works, barriers, surfaces, boundary and
// gates, of a table or of a map. What is read stands somewhere and is no more than the rows.
//   build/fuzz/bin/fuzz_places -max_total_time=60 tests/fuzz/corpus/places
#include <unistd.h>

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string_view>

#include "io/import.hpp"

namespace {

using namespace rootstead;

void demand(bool holds) {
  if (!holds) std::abort();
}

bool is_finite(const Point& at) {
  return std::isfinite(at.x) && std::isfinite(at.y);
}

void look_at(const Ring& ring) {
  for (const Point& at : ring) demand(is_finite(at));
}

void look_at(const MultiPolygon& areas) {
  for (const Polygon& area : areas) {
    look_at(area.outer);
    for (const Ring& hole : area.holes) look_at(hole);
  }
}

void look_at(const Shape& shape) {
  look_at(shape.points);
  look_at(shape.areas);
  for (const Line& line : shape.lines) look_at(line);
}

void look_at(const io::Import& import) {
  demand(import.trees.size() <= import.rows_read && import.gates.size() <= import.rows_read);
  for (const Tree& tree : import.trees) {
    demand(!tree.id.empty());
    if (tree.position) demand(is_finite(tree.position->at));
  }
  for (const Work& work : import.works) look_at(work.shape);
  for (const Barrier& barrier : import.barriers) look_at(barrier.shape);
  for (const Surface& surface : import.surfaces) look_at(surface.area);
  look_at(import.boundary);
  for (const Gate& gate : import.gates) {
    demand(!gate.id.empty() && is_finite(gate.at));
    demand(gate.width.value > 0 && std::isfinite(gate.width.value));
  }
  for (const Problem& problem : import.problems) demand(!problem.message.empty());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const ReferenceSystem system = io::reference_system("EPSG:32632").value();
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto file = std::filesystem::temp_directory_path() /
                    ("rootstead-fuzz-places-" + std::to_string(::getpid()) +
                     (text.starts_with('{') ? ".geojson" : ".csv"));
  std::ofstream(file, std::ios::binary).write(text.data(), static_cast<std::streamsize>(size));
  for (const char* as : {"", "trees", "works", "barriers", "ground", "boundary", "gates"}) {
    io::ImportOptions options;
    options.as = as;
    options.length_unit = LengthUnit::metre;
    const auto import = io::read_source(file, options, system);
    import ? look_at(*import) : demand(!import.error().sentence().empty());
  }
  return 0;
}
