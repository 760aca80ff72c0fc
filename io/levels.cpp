#include "io/levels.hpp"

#include <array>

#include "engine/base/text.hpp"
#include "engine/base/words.hpp"
#include "engine/geom/triangulate.hpp"
#include "engine/levels/prepared_levels.hpp"
#include "io/levels_source.hpp"
#include "io/whole_file.hpp"

namespace rootstead::io {
namespace {

namespace fs = std::filesystem;

constexpr Words<LevelState, 2> kStates{
    {{LevelState::existing, "existing"}, {LevelState::proposed, "proposed"}}};

using Reader = Result<ReadLevels> (*)(const LevelsJob&);

struct Ending {
  std::string_view text;
  Reader reader;
  bool levels_only;
};
constexpr std::array<Ending, 17> kEndings{{{".xml", read_landxml, true},
                                           {".xml.gz", read_landxml, true},
                                           {".landxml", read_landxml, true},
                                           {".landxml.gz", read_landxml, true},
                                           {".tif", read_height_raster, true},
                                           {".tiff", read_height_raster, true},
                                           {".asc", read_height_raster, true},
                                           {".csv", read_spot_levels, false},
                                           {".txt", read_spot_levels, false},
                                           {".tsv", read_spot_levels, false},
                                           {".csv.gz", read_spot_levels, false},
                                           {".gpkg", read_height_shapes, false},
                                           {".geojson", read_height_shapes, false},
                                           {".json", read_height_shapes, false},
                                           {".shp", read_height_shapes, false},
                                           {".fgb", read_height_shapes, false},
                                           {".dxf", read_height_shapes, false}}};

const Ending* ending_of(const fs::path& file) {
  const std::string name = lower_case(file.filename().string());
  for (const Ending& ending : kEndings) {
    if (name.ends_with(ending.text)) return &ending;
  }
  return nullptr;
}

}  // namespace

std::string_view to_text(LevelState state) {
  return word_for(kStates, state);
}

std::optional<LevelState> level_state_from(std::string_view text) {
  return value_for<LevelState>(kStates, text);
}

bool holds_levels_only(const fs::path& source) {
  const Ending* ending = ending_of(source);
  return ending != nullptr && ending->levels_only;
}

std::string counted_things(std::size_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

Result<LengthUnit> height_unit(const LevelsJob& job, std::optional<LengthUnit> in_file,
                               LengthUnit of_plan) {
  if (job.options.height_unit) return *job.options.height_unit;
  if (in_file) return *in_file;
  if (of_plan == LengthUnit::metre) {
    job.log.add(NoteCode::assumed_in_reading, "",
                "nothing says the unit of the heights: they are taken to be metres, as the plan is",
                "answer with --height-unit if they are not");
    return of_plan;
  }
  return Error{
      Code::unit_missing, job.name(),
      "nothing says the unit of its heights, and the plan is in " + std::string(symbol(of_plan)),
      "answer with --height-unit m, ft or us-ft"};
}

Result<ReadLevels> surface_of_points(const LevelsJob& job, const std::vector<LevelPoint>& points,
                                     std::string how) {
  auto mesh = triangulated(points);
  if (!mesh) {
    Error error = mesh.error();
    error.subject = job.name();
    return error;
  }
  job.log.add(NoteCode::levels_no_breaklines, "",
              "its points were joined to triangles without regard to breaklines: at kerbs, walls "
              "and feet of banks the ground is smoothed",
              "read a triangulated surface (LandXML) where that matters");
  ReadLevels read;
  read.surface.levels = std::move(mesh).value();
  const auto& made = std::get<TriangleMesh>(read.surface.levels);
  read.understood = std::move(how) + ", " + counted_things(made.points.size(), "point", "points") +
                    ", joined to " + counted_things(made.triangles.size(), "triangle", "triangles");
  return read;
}

Result<ReadLevels> read_levels(const fs::path& source, const ReadLevelsOptions& options,
                               const ReferenceSystem& project) {
  ROOTSTEAD_CHECK(check_file(source));
  const Ending* ending = ending_of(source);
  if (ending == nullptr) {
    return Error{
        Code::format_unknown, source.filename().string(),
        "files with this ending are not read as levels",
        "give .xml or .landxml (also .gz), .tif, .asc, .csv, .gpkg, .geojson, .shp or .dxf"};
  }
  ProblemLog log(source.filename().string());
  const LevelsJob job{source, options, project, log};
  ROOTSTEAD_TRY(ReadLevels read, ending->reader(job));
  if (!options.name.empty()) read.surface.name = options.name;
  if (read.surface.name.empty()) read.surface.name = source.filename().string();
  if (!options.vertical_datum.empty() && read.surface.vertical_datum.empty())
    read.surface.vertical_datum = options.vertical_datum;
  if (!options.date.empty()) read.surface.date = options.date;
  // What the engine would refuse is refused here, before anything is stored.
  auto prepared = PreparedLevels::prepare(read.surface);
  if (!prepared) {
    Error error = prepared.error();
    error.subject = source.filename().string() + ", " + error.subject;
    return error;
  }
  for (const Note& note : prepared->notes()) log.add(note.code, "", note.text, "");
  read.problems = log.take();
  return read;
}

}  // namespace rootstead::io
