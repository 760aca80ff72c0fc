#include "io/import_coordinates.hpp"

#include <proj.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/text.hpp"

namespace rootstead::io {
namespace {

struct DestroyProj {
  void operator()(PJ* object) const { proj_destroy(object); }
};
using Proj = std::unique_ptr<PJ, DestroyProj>;

// One context for the thread; PROJ's messages become ours or nobody's.
PJ_CONTEXT* context() {
  struct Owner {
    PJ_CONTEXT* held = proj_context_create();
    Owner() { proj_log_level(held, PJ_LOG_NONE); }
    ~Owner() { proj_context_destroy(held); }
    Owner(const Owner&) = delete;
    Owner& operator=(const Owner&) = delete;
  };
  thread_local Owner owner;
  return owner.held;
}

bool is_geographic(PJ* system) {
  const PJ_TYPE type = proj_get_type(system);
  return type == PJ_TYPE_GEOGRAPHIC_2D_CRS || type == PJ_TYPE_GEOGRAPHIC_3D_CRS;
}

bool is_system(PJ* object) {
  return object != nullptr && proj_is_crs(object);
}

// Metres of one unit of the system's first axis; 1 where it has none.
double axis_metres(PJ* system) {
  const Proj axes(proj_crs_get_coordinate_system(context(), system));
  double factor = 1;
  const bool known = axes && proj_cs_get_axis_info(context(), axes.get(), 0, nullptr, nullptr,
                                                   nullptr, &factor, nullptr, nullptr, nullptr);
  return known && factor > 0 ? factor : 1;
}

// The box on the system's grid, in its own units, around the area it is meant for.
Box area_box(PJ* system, const std::string& code) {
  double west = 0, south = 0, east = 0, north = 0;
  const char* name = nullptr;
  if (!proj_get_area_of_use(context(), system, &west, &south, &east, &north, &name)) return {};
  if (west < -180 || east < west) return {};
  const Proj raw(proj_create_crs_to_crs(context(), "OGC:CRS84", code.c_str(), nullptr));
  if (!raw) return {};
  const Proj to_grid(proj_normalize_for_visualization(context(), raw.get()));
  if (!to_grid) return {};
  constexpr int kEdgePoints = 21;
  Box box;
  const int failed = proj_trans_bounds(context(), to_grid.get(), PJ_FWD, west, south, east, north,
                                       &box.min_x, &box.min_y, &box.max_x, &box.max_y, kEdgePoints);
  if (failed == 0 || !std::isfinite(box.max_x - box.min_x)) return Box{};
  return box;
}

constexpr double kAreaMargin = 0.05;  // of the box, beyond it: surveys cross borders

Box widened(Box box, double metres_per_unit) {
  if (box.empty()) return box;
  const double x = (box.max_x - box.min_x) * kAreaMargin;
  const double y = (box.max_y - box.min_y) * kAreaMargin;
  return {(box.min_x - x) * metres_per_unit, (box.min_y - y) * metres_per_unit,
          (box.max_x + x) * metres_per_unit, (box.max_y + y) * metres_per_unit};
}

constexpr double kNoNumber = std::numeric_limits<double>::quiet_NaN();

}  // namespace

void Georeference::Close::operator()(void* transformation) const {
  proj_destroy(static_cast<PJ*>(transformation));
}

Result<Georeference> Georeference::make(const SourceSystem& source, const ReferenceSystem& project,
                                        const std::string& file) {
  Georeference made;
  made.to_ = project.code;
  made.project_metres_ = metres_per(project.file_unit);
  const Proj target(proj_create(context(), project.code.c_str()));
  if (is_system(target.get()))
    made.area_ = widened(area_box(target.get(), project.code), made.project_metres_);
  const bool own_system = !source.crs.empty() && source.crs != project.code;
  if (!own_system) {
    made.source_scale_ = source.unit ? metres_per(*source.unit) : made.project_metres_;
    return made;
  }
  const Proj origin(proj_create(context(), source.crs.c_str()));
  if (!is_system(origin.get()))
    return Error{Code::crs_unknown, file,
                 "the coordinate system \"" + source.crs + "\" is not known",
                 "name it as EPSG:n, for example crs = \"EPSG:4326\" in the column map"};
  made.from_ = source.crs;
  made.geographic_ = is_geographic(origin.get());
  if (source.unit && !made.geographic_)
    made.source_scale_ = metres_per(*source.unit) / axis_metres(origin.get());
  const Proj raw(
      proj_create_crs_to_crs_from_pj(context(), origin.get(), target.get(), nullptr, nullptr));
  if (raw)
    made.transformation_.reset(proj_normalize_for_visualization(context(), raw.get()), Close{});
  if (!made.transformation_)
    return Error{Code::crs_unsuitable, file,
                 "there is no transformation from " + source.crs + " to " + project.code,
                 "export the source in the system of the project"};
  return made;
}

void Georeference::to_project(std::vector<Point>& points) const {
  for (Point& point : points) point = {point.x * source_scale_, point.y * source_scale_};
  if (!transformation_ || points.empty()) return;
  auto* transformation = static_cast<PJ*>(transformation_.get());
  constexpr std::size_t kStep = sizeof(Point);
  proj_trans_generic(transformation, PJ_FWD, &points[0].x, kStep, points.size(), &points[0].y,
                     kStep, points.size(), nullptr, 0, 0, nullptr, 0, 0);
  for (Point& point : points) {
    const bool fine = std::isfinite(point.x) && std::isfinite(point.y);
    point = fine ? Point{point.x * project_metres_, point.y * project_metres_}
                 : Point{kNoNumber, kNoNumber};
  }
}

Point Georeference::to_project(Point point) const {
  std::vector<Point> one{point};
  to_project(one);
  return one.front();
}

bool Georeference::in_area(const Point& point) const {
  if (!std::isfinite(point.x) || !std::isfinite(point.y)) return false;
  return area_.empty() || (point.x >= area_.min_x && point.x <= area_.max_x &&
                           point.y >= area_.min_y && point.y <= area_.max_y);
}

void Georeference::report(ProblemLog& log) const {
  if (!transformation_) return;
  auto* transformation = static_cast<PJ*>(transformation_.get());
  const Proj used(proj_trans_get_last_used_operation(transformation));
  const double accuracy =
      proj_coordoperation_get_accuracy(context(), used ? used.get() : transformation);
  const std::string exact = accuracy < 0    ? "an accuracy that is not known"
                            : accuracy == 0 ? "no loss of accuracy"
                                            : "an accuracy of " + fixed_number(accuracy, 1) + " m";
  log.add(NoteCode::coordinates_transformed, "",
          "the coordinates were transformed from " + from_ + " to " + to_ + " with " + exact,
          "check one tree against a known point where that matters");
}

void Georeference::report_exchanged(const std::vector<Point>& raw, ProblemLog& log) const {
  if (raw.empty() || area_.empty()) return;
  std::vector<Point> as_written = raw, exchanged = raw;
  for (Point& point : exchanged) std::swap(point.x, point.y);
  to_project(as_written);
  to_project(exchanged);
  const auto inside = [this](const std::vector<Point>& points) {
    return std::count_if(points.begin(), points.end(),
                         [this](const Point& p) { return in_area(p); });
  };
  const auto half = static_cast<std::ptrdiff_t>(raw.size() / 2);
  if (inside(as_written) > half || inside(exchanged) <= half) return;
  const std::string_view axes = geographic_ ? "latitude and longitude" : "easting and northing";
  log.add_blocking(NoteCode::coordinates_swapped, "",
                   std::string(axes) +
                       " look exchanged: as written most points lie outside the area of " + to_ +
                       ", the other way round inside",
                   "exchange the two columns in a column map");
}

}  // namespace rootstead::io
