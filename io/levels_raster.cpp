// GeoTIFF and ESRI ASCII grids through GDAL.
#include <cpl_conv.h>
#include <gdal_priv.h>

#include <cmath>
#include <limits>

#include "engine/base/text.hpp"
#include "io/levels_source.hpp"
#include "io/spatial_reference.hpp"

namespace rootstead::io {
namespace {

constexpr std::int64_t kMostCells = 100'000'000;

Result<GDALDatasetUniquePtr> open_raster(const LevelsJob& job) {
  GDALAllRegister();
  constexpr const char* kDrivers[] = {"GTiff", "AAIGrid", nullptr};
  const QuietGdal quiet;
  GDALDatasetUniquePtr data(GDALDataset::Open(job.file.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY,
                                              kDrivers, nullptr, nullptr));
  if (data) return data;
  const std::string said = on_one_line(quiet.last_message());
  return Error{Code::format_broken, job.name(),
               "the file cannot be read as a grid of heights" +
                   (said.empty() ? std::string() : " (" + said + ")"),
               "export it again, or check that it opens in a GIS"};
}

struct RasterFrame {
  double west = 0, north = 0, cell = 0;  // in the unit of the plan
  bool south_up = false;
};

Result<RasterFrame> frame_of_raster(const LevelsJob& job, GDALDataset& data) {
  std::array<double, 6> t{};
  if (data.GetGeoTransform(t.data()) != CE_None) {
    return Error{Code::crs_unknown, job.name(), "the grid does not say where it lies",
                 "export it with its georeference, or add its world file"};
  }
  const double size = std::abs(t[1]);
  constexpr double kHair = 1e-6;
  if (std::abs(t[2]) > kHair * size || std::abs(t[4]) > kHair * size) {
    return Error{Code::invalid_geometry, job.name(), "the grid is turned against the axes",
                 "resample it to a grid along easting and northing"};
  }
  if (!(t[1] > 0) || t[5] == 0 || !std::isfinite(t[0]) || !std::isfinite(t[3])) {
    return Error{Code::invalid_geometry, job.name(),
                 "its cell size of " + shortest_number(t[1]) + " is not above zero",
                 "export it again with a cell size above zero"};
  }
  if (std::abs(std::abs(t[5]) - size) > kHair * size) {
    return Error{Code::invalid_geometry, job.name(),
                 "its cells are not square (" + shortest_number(size) + " by " +
                     shortest_number(std::abs(t[5])) + ")",
                 "resample it to square cells"};
  }
  RasterFrame frame{t[0], t[3], size, t[5] > 0};
  if (frame.south_up) frame.north = t[3] + t[5] * data.GetRasterYSize();
  return frame;
}

// The plane part of the system, and what it says of heights.
struct RasterSystem {
  std::string vertical_datum;
  std::optional<LengthUnit> height_unit;
};

std::optional<LengthUnit> unit_named(const std::string& name) {
  if (const auto unit = length_unit_from(name)) return unit;
  const std::string lower = lower_case(name);
  if (lower.find("survey") != std::string::npos) return LengthUnit::us_survey_foot;
  if (lower.starts_with("foot") || lower.starts_with("feet")) return LengthUnit::foot;
  if (lower.starts_with("met")) return LengthUnit::metre;
  return std::nullopt;
}

Result<RasterSystem> check_system(const LevelsJob& job, GDALDataset& data) {
  RasterSystem found;
  const OGRSpatialReference* system = data.GetSpatialRef();
  if (system == nullptr || system->IsEmpty() != 0) {
    job.log.add(NoteCode::assumed_in_reading, "",
                "it names no reference system: it is taken to be on the project's grid, " +
                    job.project.code,
                "check one level against a known one");
    return found;
  }
  OGRSpatialReference plane(*system);
  if (plane.IsCompound() != 0) {
    const char* datum = plane.GetAttrValue("VERT_DATUM");
    if (datum != nullptr) found.vertical_datum = datum;
    const char* unit = plane.GetAttrValue("VERT_CS|UNIT");
    if (unit != nullptr) found.height_unit = unit_named(unit);
    plane.StripVertical();
  }
  plane.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  const auto project = spatial_reference(job.project.code);
  const char* const options[] = {"IGNORE_DATA_AXIS_TO_SRS_AXIS_MAPPING=YES",
                                 "CRITERION=EQUIVALENT_EXCEPT_AXIS_ORDER_GEOGCRS", nullptr};
  if (project && plane.IsSame(&*project, options) != 0) return found;
  const char* name = plane.GetName();
  return Error{Code::crs_unsuitable, job.name(),
               "the grid is in " + std::string(name == nullptr ? "another system" : name) +
                   " and the project in " + job.project.code +
                   (job.project.name.empty() ? "" : " (" + job.project.name + ")"),
               "resample it to the project's system in a GIS: heights must not be moved blindly"};
}

Result<int> chosen_band(const LevelsJob& job, GDALDataset& data) {
  const int bands = data.GetRasterCount();
  if (bands < 1)
    return Error{Code::empty_geometry, job.name(), "it has no band", "export it again"};
  if (job.options.surface.empty()) {
    if (bands == 1) return 1;
    return Error{Code::wrong_use, job.name(),
                 "it has " + std::to_string(bands) + " bands: a picture, or several surfaces",
                 "say which band holds heights with --surface 1 to " + std::to_string(bands)};
  }
  const auto number = number_from(job.options.surface);
  if (number && *number >= 1 && *number <= bands && *number == std::floor(*number))
    return static_cast<int>(*number);
  return Error{Code::unknown_name, job.name(), "there is no band \"" + job.options.surface + "\"",
               "use 1 to " + std::to_string(bands)};
}

// Heights in metres, NaN where the band has none.
Outcome read_heights(const LevelsJob& job, GDALRasterBand& band, bool south_up,
                     double metres_per_height, HeightGrid& grid) {
  const auto columns = static_cast<int>(grid.columns), rows = static_cast<int>(grid.rows);
  int has_no_data = 0;
  const double no_data = band.GetNoDataValue(&has_no_data);
  const double scale = band.GetScale(), offset = band.GetOffset();
  std::vector<double> line(grid.columns);
  for (int row = 0; row < rows; ++row) {
    const int source = south_up ? rows - 1 - row : row;
    if (band.RasterIO(GF_Read, 0, source, columns, 1, line.data(), columns, 1, GDT_Float64, 0, 0,
                      nullptr) != CE_None) {
      return Error{Code::format_broken, job.name(),
                   "row " + std::to_string(source + 1) + " of the grid cannot be read",
                   "copy or export the file again: it may be cut short"};
    }
    for (std::size_t column = 0; column < line.size(); ++column) {
      const double raw = line[column];
      const bool none = !std::isfinite(raw) || (has_no_data != 0 && raw == no_data);
      const double height = (raw * scale + offset) * metres_per_height;
      grid.heights.push_back(none ? std::numeric_limits<float>::quiet_NaN()
                                  : static_cast<float>(height));
    }
  }
  return Nothing{};
}

}  // namespace

Result<ReadLevels> read_height_raster(const LevelsJob& job) {
  ROOTSTEAD_TRY(const GDALDatasetUniquePtr data, open_raster(job));
  const QuietGdal quiet;
  ROOTSTEAD_TRY(const RasterFrame frame, frame_of_raster(job, *data));
  ROOTSTEAD_TRY(const RasterSystem system, check_system(job, *data));
  ROOTSTEAD_TRY(const int number, chosen_band(job, *data));
  const std::int64_t columns = data->GetRasterXSize(), rows = data->GetRasterYSize();
  if (columns * rows > kMostCells) {
    return Error{Code::value_invalid, job.name(),
                 "the grid has " + std::to_string(columns * rows) + " cells, more than " +
                     std::to_string(kMostCells),
                 "cut it to the site in a GIS first"};
  }
  GDALRasterBand& band = *data->GetRasterBand(number);
  const LengthUnit plan = job.options.length_unit.value_or(job.project.file_unit);
  const char* written = band.GetUnitType();
  auto said = written == nullptr ? std::nullopt : unit_named(written);
  if (!said) said = system.height_unit;
  ROOTSTEAD_TRY(const LengthUnit heights, height_unit(job, said, plan));

  HeightGrid grid;
  const double unit = metres_per(plan);
  grid.north_west = {frame.west * unit, frame.north * unit};
  grid.cell = frame.cell * unit;
  grid.columns = static_cast<std::uint32_t>(columns);
  grid.rows = static_cast<std::uint32_t>(rows);
  grid.heights.reserve(static_cast<std::size_t>(columns * rows));
  ROOTSTEAD_CHECK(read_heights(job, band, frame.south_up, metres_per(heights), grid));
  ReadLevels read;
  read.surface.vertical_datum = system.vertical_datum;
  read.understood = "grid of " + std::to_string(columns) + " by " + std::to_string(rows) +
                    " cells of " + shortest_number(frame.cell) + " " + std::string(symbol(plan)) +
                    ", heights in " + std::string(symbol(heights));
  read.surface.levels = std::move(grid);
  return read;
}

}  // namespace rootstead::io
