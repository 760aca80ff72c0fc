// Any bytes are ground levels or one sentence: LandXML, a grid of heights, contours or spot levels,
// by how they begin. What is read has finite heights and gives earthworks that are finite too.
//   build/fuzz/bin/fuzz_levels -max_total_time=60 tests/fuzz/corpus/levels
#include <unistd.h>

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string_view>

#include "engine/levels/prepared_levels.hpp"
#include "io/levels.hpp"

namespace {

using namespace rootstead;

void demand(bool holds) {
  if (!holds) std::abort();
}

std::string_view ending_of(std::string_view text) {
  if (text.starts_with('<')) return ".xml";
  if (text.starts_with('n')) return ".asc";  // ncols
  if (text.starts_with('{')) return ".geojson";
  return ".csv";
}

void look_at(const io::ReadLevels& read) {
  demand(!read.understood.empty() && !read.surface.name.empty());
  for (const Problem& problem : read.problems) demand(!problem.message.empty());
  const auto ready = PreparedLevels::prepare(read.surface);
  demand(ready.ok());
  if (const auto* mesh = std::get_if<TriangleMesh>(&read.surface.levels)) {
    for (const LevelPoint& point : mesh->points) {
      const auto height = ready->height_at(point.at);
      demand(!height || std::isfinite(*height));
    }
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const ReferenceSystem system = io::reference_system("EPSG:27700").value();
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto file = std::filesystem::temp_directory_path() /
                    ("rootstead-fuzz-" + std::to_string(::getpid()) + std::string(ending_of(text)));
  std::ofstream(file, std::ios::binary).write(text.data(), static_cast<std::streamsize>(size));
  for (const bool answered : {false, true}) {
    io::ReadLevelsOptions options;
    if (answered) options.length_unit = options.height_unit = LengthUnit::us_survey_foot;
    const auto read = io::read_levels(file, options, system);
    read ? look_at(*read) : demand(!read.error().sentence().empty());
  }
  return 0;
}
