// Trees and cuts round a stem at a chosen place, for the tests of roots and anchorage.
#pragma once

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "engine/site/site.hpp"

namespace rootstead::test {

inline EnteredLength metres(double value) {
  return {value, LengthUnit::metre};
}

inline Tree tree_at(const Point& at, double diameter, std::string botanical_name = "") {
  Tree tree;
  tree.id = "T1";
  tree.botanical_name = std::move(botanical_name);
  tree.form = GrowthForm::broadleaf;
  tree.position = Position{at, "test", {}};
  if (diameter > 0) tree.stems = {{Stem::Read::diameter, metres(diameter), {}}};
  return tree;
}

inline Crown round_crown(double radius) {
  return {{metres(radius), metres(radius), metres(radius), metres(radius)}, {}, false};
}

// The strip from `near` to `far` metres from `stem`, square to the direction `azimuth`, reaching
// `half_length` to each side: a straight trench, or with a far edge far away all ground beyond.
inline MultiPolygon strip(const Point& stem, double azimuth_degrees, double near, double far,
                          double half_length = 400) {
  const double a = Angle::degrees(azimuth_degrees).radians();
  const auto at = [&](double out, double along) {
    return Point{stem.x + out * std::sin(a) + along * std::cos(a),
                 stem.y + out * std::cos(a) - along * std::sin(a)};
  };
  return {
      {{at(near, -half_length), at(far, -half_length), at(far, half_length), at(near, half_length)},
       {}}};
}

inline MultiPolygon square(const Point& centre, double half_side) {
  const auto [x, y] = centre;
  const double h = half_side;
  return {{{{x - h, y - h}, {x + h, y - h}, {x + h, y + h}, {x - h, y + h}}, {}}};
}

}  // namespace rootstead::test
