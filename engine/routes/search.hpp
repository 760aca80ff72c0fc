// The cheapest way over a cost field from one point to another, its method changing on the way:
// first over a lattice of thirty-two directions, then with corners taken out and moved wherever
// that is cheaper, so that no step of the lattice is left.
// Accuracy: within 2 % of known optima (tests/engine/routes).
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "engine/routes/cost_field.hpp"

namespace rootstead {

struct RouteStretch {
  Line line;  // the next stretch begins where this one ends
  RouteMethod method = RouteMethod::open;
  friend bool operator==(const RouteStretch&, const RouteStretch&) = default;
};
using RouteWay = std::vector<RouteStretch>;

using AllowedMethods = std::array<bool, kRouteMethods>;  // by RouteMethod

struct SearchOptions {
  AllowedMethods allowed = {true, true, true};
  double least_radius = 0;  // m, of bends of what is dug; 0: they may be sharp
  double bend_angle = 5;    // degrees: a smaller turn is no bend
};

// The cheapest way of the lattice, its straight pieces merged, and what it costs there without
// bends: exactly the least, so it never falls where ground grows dearer.
struct LatticeWay {
  RouteWay way;
  double cost = 0;
};
// Nothing where there is no way.
std::optional<LatticeWay> lattice_way(const CostField& field, const Point& from, const Point& to,
                                      const AllowedMethods& allowed);
// The same way, smoothed against the cost; never dearer by cost_of(). `fixed` points stay.
RouteWay smoothed(RouteWay way, const CostField& field, const SearchOptions& options,
                  const std::vector<Point>& fixed = {});

// Money and weights of a way over the field: its metres, pits, changes of method and bends.
// Infinite where it meets ground it may not, or has no room for its least radius.
double cost_of(const RouteWay& way, const CostField& field, const SearchOptions& options);

Line line_of(const RouteWay& way);  // all of it, without points on top of each other
int bends_of(const Line& line, double least_degrees);
// Corners as arcs of this radius in chords of at most ten degrees. Nothing where the straight
// pieces between two corners are too short for it.
std::optional<Line> rounded(const Line& line, double radius);
int pits_of(const RouteWay& way);     // one at each end of a bore and at each of its bends
int changes_of(const RouteWay& way);  // between digging by machine and by hand

}  // namespace rootstead
