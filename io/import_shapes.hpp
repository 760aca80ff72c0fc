// GDAL geometries to plan shapes: 3D stripped, curves to chords, collections taken apart.
// Private to the readers.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/result.hpp"
#include "engine/site/work.hpp"

class OGRGeometry;

namespace rootstead::io {

// Largest angle of a chord of an arc, degrees. The area of a full circle comes out 1.3e-5 low.
inline constexpr double kArcStepDegrees = 0.5;

// What could not be taken, or is doubtful, in words: "a polygon crosses itself".
struct ShapeReading {
  Shape shape;
  std::vector<std::string> doubts;
};

// `place` moves one point from the source to project metres.
ShapeReading shape_of(const OGRGeometry& geometry, const std::function<Point(Point)>& place);

// Fails with invalid_geometry, saying what WKT looks like.
Result<ShapeReading> shape_of_wkt(std::string_view wkt, const std::function<Point(Point)>& place);

// The point of "POINT (x y)".
std::optional<Point> point_of_wkt(std::string_view wkt);

}  // namespace rootstead::io
