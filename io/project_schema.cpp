#include "io/project_schema.hpp"

#include <cpl_conv.h>

#include <cstdlib>

#include "io/dialect.hpp"
#include "io/layer_styles.hpp"
#include "io/project_levels.hpp"
#include "io/records.hpp"
#include "io/result_rows.hpp"
#include "io/spatial_reference.hpp"
#include "io/stored_table.hpp"

namespace rootstead::io {
namespace {

// GeoPackage leaves numbers from here on to the file, for systems no authority has numbered.
constexpr std::int64_t kOwnSystemNumber = 100000;

constexpr const char* kGeoPackageTables = R"(
CREATE TABLE gpkg_spatial_ref_sys (
  srs_name TEXT NOT NULL, srs_id INTEGER NOT NULL PRIMARY KEY, organization TEXT NOT NULL,
  organization_coordsys_id INTEGER NOT NULL, definition TEXT NOT NULL, description TEXT);
CREATE TABLE gpkg_contents (
  table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL, identifier TEXT UNIQUE,
  description TEXT DEFAULT '',
  last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
  min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE, srs_id INTEGER,
  CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
CREATE TABLE gpkg_geometry_columns (
  table_name TEXT NOT NULL, column_name TEXT NOT NULL, geometry_type_name TEXT NOT NULL,
  srs_id INTEGER NOT NULL, z TINYINT NOT NULL, m TINYINT NOT NULL,
  CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),
  CONSTRAINT uk_gc_table_name UNIQUE (table_name),
  CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
  CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id));
INSERT INTO gpkg_spatial_ref_sys VALUES
  ('Undefined Cartesian', -1, 'NONE', -1, 'undefined', 'a plane without a place'),
  ('Undefined geographic', 0, 'NONE', 0, 'undefined', 'longitude and latitude of unknown datum');
)";

template <class Record>
Table table(const char* name, const char* meaning, const char* constraint = "") {
  return {name, meaning, columns_of<Record>(), constraint};
}

constexpr const char* kOwnId = "UNIQUE (id), CHECK (id IS NOT NULL AND id <> '')";
constexpr const char* kOfTree =
    "FOREIGN KEY (tree_id) REFERENCES trees (id) ON UPDATE CASCADE ON DELETE CASCADE";
constexpr const char* kOneOfTree =
    "UNIQUE (tree_id), "
    "FOREIGN KEY (tree_id) REFERENCES trees (id) ON UPDATE CASCADE ON DELETE CASCADE";
constexpr const char* kOfEvidence =
    "FOREIGN KEY (evidence_id) REFERENCES evidence_pits (id) ON UPDATE CASCADE ON DELETE CASCADE";
constexpr const char* kOneOfWork =
    "UNIQUE (work_id), "
    "FOREIGN KEY (work_id) REFERENCES works (id) ON UPDATE CASCADE ON DELETE CASCADE";
constexpr const char* kOfWork =
    "FOREIGN KEY (work_id) REFERENCES works (id) ON UPDATE CASCADE ON DELETE CASCADE";

Outcome add_system(const Database& database, std::int64_t number, const ReferenceSystem& system,
                   const OGRSpatialReference& definition) {
  const QuietGdal quiet;
  char* text = nullptr;
  const char* const options[] = {"FORMAT=WKT1_GDAL", nullptr};
  if (definition.exportToWkt(&text, options) != OGRERR_NONE) definition.exportToWkt(&text);
  const std::string wkt = text == nullptr ? "undefined" : text;
  CPLFree(text);
  const auto colon = system.code.find(':');
  const bool own = number >= kOwnSystemNumber;
  Statement insert(database, "INSERT INTO gpkg_spatial_ref_sys VALUES (?, ?, ?, ?, ?, ?)");
  insert.put(std::string_view(system.name));
  insert.put(number);
  insert.put(own ? std::string_view("NONE") : std::string_view(system.code).substr(0, colon));
  insert.put(number);
  insert.put(std::string_view(wkt));
  insert.put(std::string_view(system.code));
  return insert.run();
}

Outcome register_table(const Database& database, const Table& table, const Frame& frame) {
  const auto geometry = table.geometry();
  Statement contents(database,
                     "INSERT INTO gpkg_contents (table_name, data_type, identifier, description, "
                     "srs_id) VALUES (?, ?, ?, ?, ?)");
  contents.put(std::string_view(table.name));
  contents.put(std::string_view(geometry ? "features" : "attributes"));
  contents.put(std::string_view(table.name));
  contents.put(std::string_view(table.meaning));
  geometry ? contents.put(frame.srs_id) : contents.put_null();
  ROOTSTEAD_CHECK(contents.run());
  if (!geometry) return Nothing{};
  Statement columns(database, "INSERT INTO gpkg_geometry_columns VALUES (?, ?, ?, ?, 0, 0)");
  columns.put(std::string_view(table.name));
  columns.put(std::string_view(geometry->name));
  columns.put(std::string_view(geometry->type));
  columns.put(frame.srs_id);
  return columns.run();
}

}  // namespace

std::optional<Column> Table::geometry() const {
  for (const Column& column : columns) {
    if (column.name == "geom") return column;
  }
  return std::nullopt;
}

const std::vector<Table>& project_tables() {
  static const std::vector<Table> tables{
      table<Tree>("trees", "Trees as surveyed", kOwnId),
      table<StemRow>("stems", "Stems of each tree, as measured", kOfTree),
      table<CrownRow>("crowns", "Crown radii by direction, as measured", kOneOfTree),
      table<FlareRow>("flares", "Root flare of each tree, where it was looked at", kOneOfTree),
      table<TaperRow>("taper_readings", "Diameters of the trunk a little above the ground",
                      kOfTree),
      table<FlareSignRow>("flare_signs", "What is seen at the base without digging", kOfTree),
      table<FlareRecordRow>("flare_records", "What was found where the base was uncovered",
                            kOneOfTree),
      table<Work>("works", "Proposed and existing works", kOwnId),
      table<BorePitRow>("bore_pits", "Launch and reception pits of bores", kOfWork),
      table<VehicleRow>("vehicles", "What drives or stands on the ground", kOneOfWork),
      table<CoverRow>("ground_covers", "What lies between the wheels and the soil", kOneOfWork),
      table<Barrier>("barriers", "Walls, kerbs and other things roots meet", kOwnId),
      table<Surface>("ground", "Ground that is surfaced today", kOwnId),
      table<Soil>("soils", "Soil of the site"),
      table<SoilLayerRow>("soil_layers", "Layers of the soil, from the top down"),
      table<Wind>("wind", "Wind the anchorage is checked with"),
      table<BoundaryRow>("boundary", "The ground the client may use"),
      table<Gate>("gates", "Where people and machines come in", kOwnId),
      table<Climate>("climate", "Climate of the site"),
      table<ClimateMonthRow>("climate_months", "Climate of the site by month, as means a day"),
      table<Evidence>("evidence_pits", "Ground that was opened and looked at", kOwnId),
      table<FoundRootRow>("evidence_roots", "Roots found in the openings", kOfEvidence),
      levels_table(),
      table<SettingRow>("settings", "Title block texts and choices",
                        "UNIQUE (key), CHECK (key IS NOT NULL)"),
      table<ImportRow>("imports", "What was added, from where, by which column map"),
      table<ProblemRow>("problems", "Rows of sources that were doubtful or not taken"),
      table<JournalRow>("journal", "What was done, in order; each row seals the one before"),
      table<HistoryRow>("history", "What each thing was before each change"),
      table<EditKeyRow>("edit_keys", "Keys of changes, so that none is done twice",
                        "UNIQUE (key), CHECK (key IS NOT NULL)"),
      table<AssessmentRow>("assessment", "What the results below were computed with"),
      table<CautionRow>("cautions", "Read before using any result"),
      table<ZoneRow>("zones", "Zones by rule, and what works take of them"),
      table<LossRow>("losses", "What each work takes of each zone"),
      table<RootLossRow>("root_losses", "Likely share of absorbing roots lost, by work"),
      table<LimitRow>("limits", "Limits of the rules, passed or not"),
      table<AnchorageRow>("anchorage", "Anchorage kept after the works"),
      table<VerdictRow>("verdicts", "What should happen to each tree, and why"),
  };
  return tables;
}

const std::vector<std::string>& result_tables() {
  static const std::vector<std::string> names{"assessment",  "cautions", "zones",     "losses",
                                              "root_losses", "limits",   "anchorage", "verdicts"};
  return names;
}

Frame frame_of(const ReferenceSystem& system) {
  const auto colon = system.code.find(':');
  const std::string authority = system.code.substr(0, colon);
  std::int64_t number = 0;
  if (colon != std::string::npos && (authority == "EPSG" || authority == "ESRI")) {
    number = std::atoll(system.code.c_str() + colon + 1);
  }
  return {number > 0 ? number : kOwnSystemNumber, metres_per(system.file_unit)};
}

Outcome make_table(Database& database, const Table& table, const Frame& frame) {
  ROOTSTEAD_CHECK(database.run(create_command(database, table, frame).c_str()));
  if (database.on_server()) return Nothing{};
  return register_table(database, table, frame);
}

Outcome make_geopackage(Database& database, const ReferenceSystem& system,
                        const std::vector<Table>& tables) {
  const auto definition = spatial_reference(system.code);
  const auto degrees = spatial_reference("EPSG:4326");
  if (!definition || !degrees) {
    return Error{Code::crs_unknown, system.code, "PROJ knows no reference system of this name",
                 "check that the PROJ database (proj-data) is installed"};
  }
  const Frame frame = frame_of(system);
  const std::string pragmas = "PRAGMA application_id = " + std::to_string(kGeoPackageId) +
                              "; PRAGMA user_version = " + std::to_string(kGeoPackageVersion) + ";";
  ROOTSTEAD_CHECK(database.run(pragmas.c_str()));
  ROOTSTEAD_CHECK(database.run(kGeoPackageTables));
  ROOTSTEAD_CHECK(add_system(database, 4326, {"EPSG:4326", "WGS 84", {}, {}, {}}, *degrees));
  ROOTSTEAD_CHECK(add_system(database, frame.srs_id, system, *definition));
  for (const Table& table : tables) ROOTSTEAD_CHECK(make_table(database, table, frame));
  return add_layer_styles(database);
}

Outcome guard_journal(Database& database) {
  return database.run(guard_command(database, "journal").c_str());
}

Outcome stamp(const Database& database, const std::vector<std::string>& tables,
              const std::string& when) {
  if (database.on_server()) return Nothing{};
  Statement update(database,
                   "UPDATE gpkg_contents SET last_change = strftime('%Y-%m-%dT%H:%M:%fZ', "
                   "coalesce(julianday(?), julianday('now'))) WHERE table_name = ?");
  for (const std::string& table : tables) {
    update.put(std::string_view(when));
    update.put(std::string_view(table));
    ROOTSTEAD_CHECK(update.run());
  }
  return Nothing{};
}

}  // namespace rootstead::io
