// From the coordinates of a source to metres on the project's grid. Private to the readers.
//
// Axes are east, north whatever the order of the system's definition. Accuracy: that of the
// transformation PROJ chooses, which is said in a problem of the import.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/result.hpp"
#include "engine/geom/shapes.hpp"
#include "engine/site/site.hpp"
#include "io/import_problems.hpp"

namespace rootstead::io {

// What the numbers of a source are: a system of its own, or a length on the project's grid.
struct SourceSystem {
  std::string crs;                 // empty: the project's
  std::optional<LengthUnit> unit;  // of its numbers; nothing: the unit of the system's axes
};

class Georeference {
 public:
  // Fails with crs_unknown, naming `file`.
  static Result<Georeference> make(const SourceSystem& source, const ReferenceSystem& project,
                                   const std::string& file);

  // In place. A point that cannot be transformed becomes NaN.
  void to_project(std::vector<Point>& points) const;
  Point to_project(Point point) const;

  bool transforms() const { return transformation_ != nullptr; }
  bool source_is_geographic() const { return geographic_; }

  // Is the point (project metres) in the area for which the project's system is meant, by the box
  // around it? True where the area is unknown.
  bool in_area(const Point& point) const;

  // Says what was done: which system to which, and how exact PROJ knows that to be.
  void report(ProblemLog& log) const;

  // Where most points lie outside the area and most of their mirror images (east and north
  // exchanged) inside: says so. `raw` are the points as written in the source.
  void report_exchanged(const std::vector<Point>& raw, ProblemLog& log) const;

 private:
  struct Close {
    void operator()(void* transformation) const;
  };
  std::shared_ptr<void> transformation_;
  std::string from_, to_;
  bool geographic_ = false;
  double source_scale_ = 1;  // to the unit that the transformation takes, or to metres
  double project_metres_ = 1;
  Box area_;
};

// "49.26, -123.25", "N 49° 15' 34" W 123° 14' 56"" and the like. Nothing where it is no such pair.
std::optional<Point> latitude_longitude_from(std::string_view text, bool longitude_first = false);

// One coordinate: "-123.25", "430 035,12", "1,234,567.8", "49°15'34.2"N".
std::optional<double> coordinate_from(std::string_view text);

}  // namespace rootstead::io
