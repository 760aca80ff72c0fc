// Shapes as the page sends and gets them (api/schema.json): positions are [x, y] in metres.
#pragma once

#include "engine/base/result.hpp"
#include "engine/geom/shapes.hpp"
#include "engine/site/work.hpp"
#include "io/json.hpp"

namespace rootstead::serve {

inline constexpr std::size_t kMostPositions = 10'000;  // of one shape; our assumption

io::Json to_json(const Point& point);
io::Json to_json(const Line& line);
io::Json to_json(const MultiPolygon& areas);
io::Json to_json(const Shape& shape);

// Fails with value_invalid where the text is no such shape: a key that is not known or missing, a
// position that is no pair of finite numbers, a line of fewer than two positions or a ring of fewer
// than three, more than kMostPositions.
Result<Shape> shape_from(const io::Json& json);

}  // namespace rootstead::serve
