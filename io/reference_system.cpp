// Which systems a plan can be measured in, and which way north lies there.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string_view>
#include <utility>

#include "engine/base/text.hpp"
#include "io/project.hpp"
#include "io/spatial_reference.hpp"

namespace rootstead::io {
namespace {

Error refused(const std::string& code, const std::string& reason, const std::string& remedy) {
  return Error{Code::crs_unsuitable, code, reason, remedy};
}

std::string from_sentence(const OGRSpatialReference& system) {
  const char* name = system.GetName();
  return name == nullptr ? "this system" : name;
}

// The UTM zone at the middle of the system's area of use, where that is one or two zones wide.
std::string utm_zone_of(const OGRSpatialReference& system) {
  constexpr double kNarrow = 20;  // degrees of longitude
  double west = 0, south = 0, east = 0, north = 0;
  const bool known = system.GetAreaOfUse(&west, &south, &east, &north, nullptr);
  if (!known || east < west || east - west > kNarrow) {
    return "the UTM zone of the site (zone number: whole part of (longitude + 180) / 6, plus 1; "
           "EPSG:32601 to 32660 north and EPSG:32701 to 32760 south of the equator)";
  }
  const int zone = static_cast<int>(std::floor(((west + east) / 2 + 180) / 6)) + 1;
  const bool northern = south + north >= 0;
  return "the UTM zone of the site, here about zone " + std::to_string(zone) +
         (northern ? " north (EPSG:" : " south (EPSG:") +
         std::to_string((northern ? 32600 : 32700) + zone) + ")";
}

std::string plane_system_advice(const OGRSpatialReference& system) {
  return "choose a plane system with metres or feet: the grid of your country or state, or " +
         utm_zone_of(system);
}

// 900913 is an old private number of Web Mercator that PROJ no longer lists.
bool is_web_mercator(const std::string& code, const OGRSpatialReference& system) {
  if (lower_case(code).find("900913") != std::string::npos) return true;
  char* text = nullptr;
  const QuietGdal quiet;
  system.exportToProj4(&text);
  const std::string proj = text == nullptr ? "" : text;
  CPLFree(text);
  return proj.find("+proj=webmerc") != std::string::npos ||
         (proj.find("+proj=merc") != std::string::npos &&
          proj.find("+nadgrids=@null") != std::string::npos);
}

Error web_mercator(const std::string& code) {
  return refused(code,
                 "Web Mercator stretches every length by 1/cos(latitude), for example 1.18 times "
                 "at 32 degrees, so no distance or area in it is true",
                 "choose a plane system with true lengths: the grid of your country or state, or "
                 "the UTM zone of the site (zone number: whole part of (longitude + 180) / 6, "
                 "plus 1; EPSG:32601 to 32660 north and EPSG:32701 to 32760 south of the equator)");
}

std::optional<LengthUnit> unit_of(const OGRSpatialReference& system) {
  // The two feet differ by 2e-6; PROJ gives the factors to about 1e-15.
  constexpr double kSame = 1e-9;
  const double factor = system.GetLinearUnits();
  for (const LengthUnit unit : {LengthUnit::metre, LengthUnit::foot, LengthUnit::us_survey_foot}) {
    if (std::abs(factor / metres_per(unit) - 1) < kSame) return unit;
  }
  return std::nullopt;
}

bool counts_westward(const OGRSpatialReference& system) {
  for (const int axis : {0, 1}) {
    OGRAxisOrientation orientation = OAO_Other;
    system.GetAxis(nullptr, axis, &orientation);
    if (orientation == OAO_West) return true;
  }
  return false;
}

// Between a plane system and the longitudes and latitudes of its own datum: no datum shift.
struct OwnGraticule {
  explicit OwnGraticule(const OGRSpatialReference& plane) {
    const std::unique_ptr<OGRSpatialReference> own(plane.CloneGeogCS());
    if (!own) return;
    own->SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    to_plane = transformation(*own, plane);
    from_plane = transformation(plane, *own);
  }
  Transformation to_plane, from_plane;
};

using Vector = std::array<double, 2>;

// The step on the plane for one degree along a parallel or a meridian, by central differences.
// PROJ's own factors are not used: in PROJ 9.1 they are wrong for systems in feet.
std::optional<Vector> step_per_degree(const OwnGraticule& graticule, double longitude,
                                      double latitude, bool northward) {
  constexpr double kHalfStep = 1e-4;  // degrees, about 11 m
  const QuietGdal quiet;
  const double dx = northward ? 0 : kHalfStep;
  const double dy = northward ? kHalfStep : 0;
  double x[2] = {longitude - dx, longitude + dx};
  double y[2] = {latitude - dy, latitude + dy};
  if (!graticule.to_plane || !graticule.to_plane->Transform(2, x, y)) return std::nullopt;
  return Vector{(x[1] - x[0]) / (2 * kHalfStep), (y[1] - y[0]) / (2 * kHalfStep)};
}

// How much longer lengths are on the plane than on the ellipsoid, north-south and east-west; the
// one that is further from true.
std::optional<double> stretch_at(const OGRSpatialReference& system, const OwnGraticule& graticule,
                                 double longitude, double latitude) {
  const double a = system.GetSemiMajor();
  const double f = 1 / system.GetInvFlattening();
  const double e2 = system.GetInvFlattening() == 0 ? 0 : f * (2 - f);
  const double sine = std::sin(latitude * std::numbers::pi / 180);
  const double w = std::sqrt(1 - e2 * sine * sine);
  const double degree = std::numbers::pi / 180;
  const double meridian = a * (1 - e2) / (w * w * w) * degree;
  const double parallel = a / w * std::sqrt(1 - sine * sine) * degree;
  const auto north = step_per_degree(graticule, longitude, latitude, true);
  const auto east = step_per_degree(graticule, longitude, latitude, false);
  if (!north || !east) return std::nullopt;
  const double unit = system.GetLinearUnits();
  const double ns = std::hypot((*north)[0], (*north)[1]) * unit / meridian;
  const double ew = std::hypot((*east)[0], (*east)[1]) * unit / parallel;
  return std::abs(std::log(ns)) > std::abs(std::log(ew)) ? ns : ew;
}

// Systems for maps of the world have true lengths almost nowhere. Nine points inside the area of
// use are tried; where most are off by more than a tenth, the middle one of them is the example.
std::optional<double> typical_stretch(const OGRSpatialReference& system) {
  constexpr double kTolerated = 1.1;  // our assumption: national grids stay far below
  double west = 0, south = 0, east = 0, north = 0;
  if (!system.GetAreaOfUse(&west, &south, &east, &north, nullptr)) return std::nullopt;
  if (east < west) east += 360;
  const OwnGraticule graticule(system);
  std::vector<double> bad;
  for (const double i : {0.25, 0.5, 0.75}) {
    for (const double j : {0.25, 0.5, 0.75}) {
      const auto stretch =
          stretch_at(system, graticule, west + i * (east - west), south + j * (north - south));
      if (stretch && std::abs(std::log(*stretch)) > std::log(kTolerated)) bad.push_back(*stretch);
    }
  }
  if (bad.size() < 5) return std::nullopt;
  std::sort(bad.begin(), bad.end());
  return bad[bad.size() / 2];
}

std::optional<Error> objection(const std::string& code, const OGRSpatialReference& system) {
  if (is_web_mercator(code, system)) return web_mercator(code);
  if (system.IsGeographic()) {
    return refused(code,
                   from_sentence(system) +
                       " gives longitude and latitude in degrees, and degrees "
                       "are not lengths",
                   plane_system_advice(system));
  }
  if (system.IsGeocentric()) {
    return refused(code,
                   from_sentence(system) +
                       " counts from the centre of the Earth, not in a "
                       "plane",
                   plane_system_advice(system));
  }
  if (!system.IsProjected()) {
    return refused(code, from_sentence(system) + " is not a plane system with a place on the Earth",
                   plane_system_advice(system));
  }
  if (counts_westward(system)) {
    return refused(code,
                   from_sentence(system) +
                       " counts westward and southward, so its angles "
                       "are not clockwise from north",
                   plane_system_advice(system));
  }
  if (!unit_of(system)) {
    const char* name = nullptr;
    system.GetLinearUnits(&name);
    return refused(code,
                   "its unit, " + std::string(name == nullptr ? "unnamed" : name) +
                       ", is neither the metre, the foot nor the US survey foot",
                   plane_system_advice(system));
  }
  if (const auto stretch = typical_stretch(system)) {
    return refused(code,
                   from_sentence(system) + " is made for maps of large regions: lengths are " +
                       fixed_number(*stretch, 2) + " times the true ones in much of it",
                   plane_system_advice(system));
  }
  return std::nullopt;
}

std::string datum_of(const OGRSpatialReference& system) {
  const char* name = system.GetAttrValue("DATUM");
  std::string datum = name == nullptr ? "" : name;
  std::replace(datum.begin(), datum.end(), '_', ' ');
  return datum;
}

std::string code_of(const OGRSpatialReference& system, const std::string& as_given) {
  const char* authority = system.GetAuthorityName(nullptr);
  const char* number = system.GetAuthorityCode(nullptr);
  if (authority == nullptr || number == nullptr) return as_given;
  return std::string(authority) + ":" + number;
}

}  // namespace

Result<ReferenceSystem> reference_system(const std::string& code) {
  const std::string given(trimmed(code));
  auto system = spatial_reference(given);
  if (!system) {
    if (given.find("900913") != std::string::npos) return web_mercator(given);
    return Error{Code::crs_unknown, given.empty() ? "the reference system" : given,
                 given.empty() ? "no name is given" : "PROJ knows no reference system of this name",
                 "give its EPSG number, for example EPSG:27700, or the text of its .prj file"};
  }
  if (system->IsCompound()) system->StripVertical();
  if (auto error = objection(given, *system)) return *std::move(error);
  ReferenceSystem found;
  found.code = code_of(*system, given);
  found.name = from_sentence(*system);
  found.file_unit = *unit_of(*system);
  found.datum = datum_of(*system);
  return found;
}

Angle convergence_at(const ReferenceSystem& plane, const Point& at) {
  const auto system = spatial_reference(plane.code);
  if (!system) return {};
  const OwnGraticule graticule(*system);
  const double unit = metres_per(plane.file_unit);
  double longitude = at.x / unit;
  double latitude = at.y / unit;
  const QuietGdal quiet;
  if (!graticule.from_plane || !graticule.from_plane->Transform(1, &longitude, &latitude))
    return {};
  const auto true_north = step_per_degree(graticule, longitude, latitude, true);
  if (!true_north) return {};
  return Angle::radians(-std::atan2((*true_north)[0], (*true_north)[1]));
}

}  // namespace rootstead::io
