#include "io/spatial_reference.hpp"

#include <cpl_conv.h>
#include <cpl_error.h>

#include <algorithm>

#include "engine/base/text.hpp"

namespace rootstead::io {

QuietGdal::QuietGdal() {
  CPLPushErrorHandler(CPLQuietErrorHandler);
  CPLErrorReset();
}

QuietGdal::~QuietGdal() {
  CPLPopErrorHandler();
}

std::string QuietGdal::last_message() const {
  return CPLGetLastErrorMsg();
}

std::optional<OGRSpatialReference> spatial_reference(const std::string& text) {
  const QuietGdal quiet;
  std::string name(trimmed(text));
  const bool bare_number = !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
    return c >= '0' && c <= '9';
  });
  if (bare_number) name = "EPSG:" + name;
  OGRSpatialReference system;
  const auto no_files = OGRSpatialReference::SET_FROM_USER_INPUT_LIMITATIONS_get();
  if (name.empty() || system.SetFromUserInput(name.c_str(), no_files) != OGRERR_NONE) {
    return std::nullopt;
  }
  system.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  return system;
}

std::string system_of(OGRLayer& layer) {
  const OGRSpatialReference* system = layer.GetSpatialRef();
  if (system == nullptr || system->IsEmpty() != 0) return {};
  const char* authority = system->GetAuthorityName(nullptr);
  const char* number = system->GetAuthorityCode(nullptr);
  if (authority != nullptr && number != nullptr) return std::string(authority) + ":" + number;
  const char* name = system->GetName();
  if (name != nullptr && std::string_view(name).starts_with("Undefined")) return {};
  char* text = nullptr;
  system->exportToWkt(&text);
  std::string wkt = text == nullptr ? "" : text;
  CPLFree(text);
  return wkt;
}

void DestroyTransformation::operator()(OGRCoordinateTransformation* t) const {
  OGRCoordinateTransformation::DestroyCT(t);
}

Transformation transformation(const OGRSpatialReference& from, const OGRSpatialReference& to) {
  const QuietGdal quiet;
  return Transformation(OGRCreateCoordinateTransformation(&from, &to));
}

}  // namespace rootstead::io
