// GDAL's view of reference systems, for io's own .cpp files only: no GDAL type crosses into the
// rooms above.
#pragma once

#include <ogr_spatialref.h>
#include <ogrsf_frmts.h>

#include <memory>
#include <optional>
#include <string>

#include "engine/site/site.hpp"

namespace rootstead::io {

// Keeps GDAL and PROJ from printing to stderr while it lives; messages() holds what they said.
class QuietGdal {
 public:
  QuietGdal();
  ~QuietGdal();
  QuietGdal(const QuietGdal&) = delete;
  QuietGdal& operator=(const QuietGdal&) = delete;
  std::string last_message() const;
};

// Any text PROJ knows, and a bare EPSG number. Coordinates are x east, y north (longitude,
// latitude) whatever order the authority prescribes. No files and no network are touched.
std::optional<OGRSpatialReference> spatial_reference(const std::string& text);

// "EPSG:26910", or the definition where the system has no number; empty where there is none.
std::string system_of(OGRLayer& layer);

struct DestroyTransformation {
  void operator()(OGRCoordinateTransformation* t) const;
};
using Transformation = std::unique_ptr<OGRCoordinateTransformation, DestroyTransformation>;

// Null where PROJ knows no way from one to the other.
Transformation transformation(const OGRSpatialReference& from, const OGRSpatialReference& to);

}  // namespace rootstead::io
