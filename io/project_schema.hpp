// The tables of a project file (docs/formats/project.md) and the version of their layout.
#pragma once

#include <string>
#include <vector>

#include "engine/site/site.hpp"
#include "io/stored.hpp"

namespace rootstead::io {

// "GPKG" as the application id, and GeoPackage 1.3.0 as the user version (OGC 12-128r17).
inline constexpr int kGeoPackageId = 0x47504B47;
inline constexpr int kGeoPackageVersion = 10300;

struct Table {
  std::string name;
  std::string meaning;  // one line, shown by a GIS
  std::vector<Column> columns;
  std::string constraint;  // SQL, may be empty

  std::optional<Column> geometry() const;
};

const std::vector<Table>& project_tables();
const std::vector<std::string>& result_tables();  // replaced as a whole by each assessment

// The reference system as a row of gpkg_spatial_ref_sys: an EPSG number or, for other systems, a
// number of this file.
Frame frame_of(const ReferenceSystem& system);

// Makes an empty database a GeoPackage with these tables.
Outcome make_geopackage(Database& database, const ReferenceSystem& system,
                        const std::vector<Table>& tables);

// Makes one of these tables, in a GeoPackage or on a server.
Outcome make_table(Database& database, const Table& table, const Frame& frame);

// Refuses every change and removal of rows of the journal.
Outcome guard_journal(Database& database);

// GeoPackage wants to know when a table was last changed; a server does not.
Outcome stamp(const Database& database, const std::vector<std::string>& tables,
              const std::string& when);

}  // namespace rootstead::io
