// Layers of GIS files and tables of PostgreSQL, opened to be read once from beginning to end.
// Private to the screening; for its .cpp files only.
#pragma once

#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/screening.hpp"
#include "io/spatial_reference.hpp"

namespace rootstead::io {

struct OpenLayer {
  GDALDatasetUniquePtr data;
  OGRLayer* rows = nullptr;  // of `data`
  bool of_query = false;     // then rows is given back to data
  std::string system;        // "EPSG:n" or a definition; empty where it says none
  GIntBig features = 0;
  OpenLayer() = default;
  OpenLayer(OpenLayer&& other) noexcept;
  OpenLayer& operator=(OpenLayer&&) = delete;
  ~OpenLayer();
};

// Rows of a database come in the order of its key, so that they come the same way each time.
Result<OpenLayer> open_layer(const ScreenSource& source);

}  // namespace rootstead::io
