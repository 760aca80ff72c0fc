#include "io/import_source.hpp"
namespace rootstead::io {
Outcome read_dxf(const SourceJob& job, Import&) {
  return Error{Code::format_unknown, job.name(), "drawings are not read yet", "export GeoJSON"};
}
}  // namespace rootstead::io
