// What the readers of levels share. Private to them.
#pragma once

#include <string>

#include "io/import_problems.hpp"
#include "io/levels.hpp"

namespace rootstead::io {

struct LevelsJob {
  const std::filesystem::path& file;
  const ReadLevelsOptions& options;
  const ReferenceSystem& project;
  ProblemLog& log;

  std::string name() const { return file.filename().string(); }
};

Result<ReadLevels> read_landxml(const LevelsJob& job);
Result<ReadLevels> read_height_raster(const LevelsJob& job);
Result<ReadLevels> read_height_shapes(const LevelsJob& job);
Result<ReadLevels> read_spot_levels(const LevelsJob& job);

// The unit of heights: as answered, else as the file says, else that of the plan where it is
// metres. Fails with unit_missing where the plan is in feet and nothing says what the heights are
// in.
Result<LengthUnit> height_unit(const LevelsJob& job, std::optional<LengthUnit> in_file,
                               LengthUnit of_plan);

// Points in project metres as a surface of triangles; says what triangulation leaves out.
Result<ReadLevels> surface_of_points(const LevelsJob& job, const std::vector<LevelPoint>& points,
                                     std::string how);

// "12 points" and "1 point".
std::string counted_things(std::size_t count, const std::string& one, const std::string& many);

}  // namespace rootstead::io
