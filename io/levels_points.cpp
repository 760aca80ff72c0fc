// Levels that come as points: contours, 3D lines and points of vector files, spot levels in tables.
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/dxf_scan.hpp"
#include "io/import.hpp"
#include "io/import_coordinates.hpp"
#include "io/levels_source.hpp"
#include "io/spatial_reference.hpp"

namespace rootstead::io {
namespace {

constexpr std::size_t kMostPoints = 2'000'000;  // that can be joined in reasonable time

// Header words of heights in English, German, French, Spanish and Dutch, letters and digits only.
constexpr std::string_view kHeightWords[] = {
    "level",  "elevation",   "elev",   "z",    "height",   "rl",         "reducedlevel", "contour",
    "hoehe",  "h\xC3\xB6he", "hohe",   "kote", "altitude", "niveau",     "cote",         "cota",
    "altura", "elevacion",   "hoogte", "peil", "zcoord",   "groundlevel"};

std::string plain_word(std::string_view header) {
  std::string word;
  for (const char c : lower_case(header)) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c & 0x80) != 0;
    if (letter) word += c;
  }
  return word;
}

// The column that was asked for, or that is called as heights are.
Result<std::optional<std::size_t>> height_column(const LevelsJob& job,
                                                 const std::vector<std::string>& header) {
  using Found = std::optional<std::size_t>;
  const std::string& asked = job.options.height_column;
  for (std::size_t i = 0; i < header.size(); ++i) {
    if (!asked.empty() && header[i] == asked) return Found{i};
  }
  if (!asked.empty()) {
    return Error{Code::column_missing, job.name(), "there is no column \"" + asked + "\"",
                 "use one of: " + joined(header, ", ")};
  }
  for (const std::string_view word : kHeightWords) {
    for (std::size_t i = 0; i < header.size(); ++i) {
      if (plain_word(header[i]) == word) return Found{i};
    }
  }
  return Found{};
}

class Gatherer {
 public:
  explicit Gatherer(const LevelsJob& job) : job_(job) {}

  Outcome add(Point at, double height) {
    if (points_.size() < kMostPoints) {
      points_.push_back({at, height});
      return Nothing{};
    }
    return Error{Code::value_invalid, job_.name(),
                 "it holds more than " + std::to_string(kMostPoints) + " points",
                 "give a grid or a triangulated surface, or cut it to the site"};
  }

  // In project metres; points that cannot be placed are counted.
  std::vector<LevelPoint> placed(const Georeference& place, double metres_per_height) {
    std::vector<Point> places;
    places.reserve(points_.size());
    for (const LevelPoint& point : points_) places.push_back(point.at);
    place.report_exchanged(places, job_.log);
    place.to_project(places);
    place.report(job_.log);
    std::vector<LevelPoint> kept;
    std::size_t lost = 0;
    for (std::size_t i = 0; i < places.size(); ++i) {
      const double height = points_[i].height * metres_per_height;
      const bool fine =
          std::isfinite(places[i].x) && std::isfinite(places[i].y) && std::isfinite(height);
      if (fine) kept.push_back({places[i], height});
      lost += !fine;
    }
    if (lost > 0) {
      job_.log.add(NoteCode::levels_not_taken, "",
                   counted_things(lost, "point has", "points have") +
                       " no place or height in the "
                       "project and were left out",
                   "");
    }
    return kept;
  }

 private:
  const LevelsJob& job_;
  std::vector<LevelPoint> points_;
};

// ---- vector files -------------------------------------------------------------------------------

Result<GDALDatasetUniquePtr> open_shapes(const LevelsJob& job) {
  GDALAllRegister();
  constexpr const char* kDrivers[] = {"GPKG",       "GeoJSON", "ESRI Shapefile",
                                      "FlatGeobuf", "DXF",     nullptr};
  const QuietGdal quiet;
  GDALDatasetUniquePtr data(GDALDataset::Open(job.file.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY,
                                              kDrivers, nullptr, nullptr));
  if (data) return data;
  const std::string said = on_one_line(quiet.last_message());
  return Error{Code::format_broken, job.name(),
               "the file cannot be read as what its ending says" +
                   (said.empty() ? std::string() : " (" + said + ")"),
               "export it again, or check that it opens in a GIS"};
}

Result<OGRLayer*> chosen_layer(const LevelsJob& job, GDALDataset& data) {
  std::vector<std::string> names;
  for (OGRLayer* layer : data.GetLayers()) {
    names.emplace_back(layer->GetName());
    if (job.options.surface == layer->GetName()) return layer;
  }
  if (!job.options.surface.empty()) {
    return Error{Code::unknown_name, job.name(),
                 "there is no layer \"" + job.options.surface + "\"",
                 "use one of: " + joined(names, ", ")};
  }
  if (names.size() == 1) return data.GetLayer(0);
  return Error{
      Code::wrong_use, job.name(),
      names.empty() ? "it holds no layer" : "it holds several layers: " + joined(names, ", "),
      "say which with --surface"};
}

struct PlanSystem {
  std::string crs;
  std::optional<LengthUnit> unit;
  bool metres = true;
};

Result<PlanSystem> plan_system(const LevelsJob& job, OGRLayer& layer) {
  if (lower_case(job.file.extension().string()) == ".dxf") {
    ROOTSTEAD_TRY(const DxfSummary summary, dxf_summary(job.file));
    const auto said = summary.insunits ? dxf_unit(*summary.insunits) : std::nullopt;
    const auto unit = job.options.length_unit ? job.options.length_unit : said;
    if (unit) return PlanSystem{"", unit, *unit == LengthUnit::metre};
    return Error{Code::unit_missing, job.name(),
                 "the drawing does not say its unit ($INSUNITS is missing or 0)",
                 "answer with --length-unit m, mm, cm, ft, us-ft or in"};
  }
  const OGRSpatialReference* system = layer.GetSpatialRef();
  if (system == nullptr || system->IsEmpty() != 0) {
    return Error{Code::crs_unknown, job.name(), "the file does not say its coordinate system",
                 "export it again with its system, best in " + job.project.code};
  }
  OGRSpatialReference plane(*system);
  if (plane.IsCompound() != 0) plane.StripVertical();
  const char* authority = plane.GetAuthorityName(nullptr);
  const char* number = plane.GetAuthorityCode(nullptr);
  PlanSystem found;
  found.metres = plane.IsProjected() == 0 || std::abs(plane.GetLinearUnits() - 1) < 1e-9;
  if (authority != nullptr && number != nullptr) {
    found.crs = std::string(authority) + ":" + number;
    return found;
  }
  char* text = nullptr;
  plane.exportToWkt(&text);
  found.crs = text == nullptr ? "" : text;
  CPLFree(text);
  return found;
}

// The corners of any shape, with their own heights or one height for all.
class CornerTaker {
 public:
  CornerTaker(Gatherer& gatherer, std::optional<double> height)
      : gatherer_(gatherer), height_(height) {}

  Outcome take(const OGRGeometry& shape) {
    const auto type = wkbFlatten(shape.getGeometryType());
    if (type == wkbPoint) {
      const OGRPoint& point = *shape.toPoint();
      return gatherer_.add({point.getX(), point.getY()}, height_.value_or(point.getZ()));
    }
    if (type == wkbLineString || type == wkbLinearRing) return take_line(*shape.toSimpleCurve());
    if (type == wkbPolygon) {
      for (const OGRLinearRing* ring : *shape.toPolygon()) ROOTSTEAD_CHECK(take_line(*ring));
      return Nothing{};
    }
    if (OGR_GT_IsSubClassOf(type, wkbGeometryCollection) != 0) {
      for (const OGRGeometry* part : *shape.toGeometryCollection()) ROOTSTEAD_CHECK(take(*part));
      return Nothing{};
    }
    const Geometry straight(shape.getLinearGeometry());
    if (straight && wkbFlatten(straight->getGeometryType()) != type) return take(*straight);
    return Nothing{};
  }

 private:
  using Geometry = std::unique_ptr<OGRGeometry>;

  Outcome take_line(const OGRSimpleCurve& line) {
    for (int i = 0; i < line.getNumPoints(); ++i)
      ROOTSTEAD_CHECK(gatherer_.add({line.getX(i), line.getY(i)}, height_.value_or(line.getZ(i))));
    return Nothing{};
  }

  Gatherer& gatherer_;
  std::optional<double> height_;
};

bool has_heights(const OGRGeometry& shape) {
  if (shape.Is3D() == 0) return false;
  OGREnvelope3D box;
  shape.getEnvelope(&box);
  return box.MinZ != 0 || box.MaxZ != 0;  // many programs write 0 for "no height"
}

Outcome gather(const LevelsJob& job, OGRLayer& layer, Gatherer& gatherer) {
  std::vector<std::string> header;
  OGRFeatureDefn* fields = layer.GetLayerDefn();
  for (int i = 0; i < fields->GetFieldCount(); ++i)
    header.emplace_back(fields->GetFieldDefn(i)->GetNameRef());
  ROOTSTEAD_TRY(const auto column, height_column(job, header));
  std::size_t without = 0, taken = 0;
  for (const auto& feature : layer) {
    const OGRGeometry* shape = feature->GetGeometryRef();
    if (shape == nullptr || shape->IsEmpty() != 0) continue;
    std::optional<double> height;
    const bool own = has_heights(*shape) && job.options.height_column.empty();
    if (!own && column && feature->IsFieldSetAndNotNull(static_cast<int>(*column)) != 0)
      height = number_from(feature->GetFieldAsString(static_cast<int>(*column)));
    if (!own && !height) {
      ++without;
      continue;
    }
    ++taken;
    ROOTSTEAD_CHECK(CornerTaker(gatherer, height).take(*shape));
  }
  if (without > 0) {
    job.log.add(
        NoteCode::levels_not_taken, "",
        counted_things(without, "shape has", "shapes have") + " no height and were left out",
        "name the column of heights with --height-column");
  }
  if (taken > 0) return Nothing{};
  return Error{Code::missing_measurement, job.name(),
               "none of its shapes has a height, in itself or in a column",
               "export it with heights (3D), or name the column with --height-column"};
}

}  // namespace

Result<ReadLevels> read_height_shapes(const LevelsJob& job) {
  ROOTSTEAD_TRY(const GDALDatasetUniquePtr data, open_shapes(job));
  const QuietGdal quiet;
  ROOTSTEAD_TRY(OGRLayer* const layer, chosen_layer(job, *data));
  ROOTSTEAD_TRY(const PlanSystem plan, plan_system(job, *layer));
  ROOTSTEAD_TRY(const Georeference place,
                Georeference::make({plan.crs, plan.unit}, job.project, job.name()));
  const LengthUnit of_plan =
      plan.unit.value_or(plan.metres ? LengthUnit::metre : LengthUnit::us_survey_foot);
  ROOTSTEAD_TRY(const LengthUnit heights, height_unit(job, plan.unit, of_plan));
  Gatherer gatherer(job);
  ROOTSTEAD_CHECK(gather(job, *layer, gatherer));
  return surface_of_points(job, gatherer.placed(place, metres_per(heights)),
                           "shapes of layer " + std::string(layer->GetName()) + ", heights in " +
                               std::string(symbol(heights)));
}

Result<ReadLevels> read_spot_levels(const LevelsJob& job) {
  ROOTSTEAD_TRY(const CsvTable table, read_csv(job.file));
  const ColumnMap map = propose_columns(table.header, "trees");
  const auto place_column = [&](const char* field) -> std::optional<std::size_t> {
    const auto found = map.fields.find(field);
    return found == map.fields.end() ? std::nullopt : column_of(table, found->second.column);
  };
  const auto east = place_column("easting"), north = place_column("northing");
  ROOTSTEAD_TRY(const auto level, height_column(job, table.header));
  if (!east || !north || !level) {
    return Error{Code::column_missing, job.name(),
                 std::string("there is no column of ") +
                     (!east    ? "eastings"
                      : !north ? "northings"
                               : "levels") +
                     " (its columns are " + joined(table.header, ", ") + ")",
                 "head its columns easting, northing and level"};
  }
  const LengthUnit plan = job.options.length_unit.value_or(job.project.file_unit);
  ROOTSTEAD_TRY(const LengthUnit heights, height_unit(job, job.options.length_unit, plan));
  ROOTSTEAD_TRY(const Georeference place, Georeference::make({"", plan}, job.project, job.name()));
  Gatherer gatherer(job);
  for (const CsvRow& row : table.rows) {
    const auto cell = [&](std::size_t column) {
      return column < row.cells.size() ? coordinate_from(row.cells[column]) : std::nullopt;
    };
    const auto x = cell(*east), y = cell(*north), z = cell(*level);
    if (!x || !y || !z) {
      job.log.add_repeated(NoteCode::levels_not_taken, "row " + std::to_string(row.row),
                           "a row without easting, northing and level is left out",
                           "fill in what is missing");
      continue;
    }
    ROOTSTEAD_CHECK(gatherer.add({*x, *y}, *z));
  }
  return surface_of_points(job, gatherer.placed(place, metres_per(heights)),
                           "spot levels, heights in " + std::string(symbol(heights)));
}

}  // namespace rootstead::io
