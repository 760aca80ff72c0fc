// The best next pit: of many places round a stem, the one whose find is expected to narrow a figure
// most. Every draw foretells how many roots the pit would show; the spread left after each number
// is weighed with the chance of that number (preposterior analysis, Raiffa & Schlaifer 1961).
#pragma once

#include <optional>
#include <vector>

#include "engine/roots/root_model.hpp"
#include "engine/roots/thick_roots.hpp"

namespace rootstead {

// The places that are looked at, with what every draw foretells of each: no work changes that.
class PitPlaces {
 public:
  PitPlaces(const Point& stem, const std::vector<ThickRootLaw>& laws);

  // `values`: the figure, one a law. Nothing where it has no spread or no pit would narrow it by a
  // fiftieth.
  std::optional<NextPit> best(const std::vector<double>& values) const;

 private:
  struct Place {
    Point at;
    Angle azimuth;
    Length from_centre;
    std::vector<double> roots;  // mean number, by draw looked at
  };
  double spread_left(const Place& place, const std::vector<double>& values, double before) const;

  std::size_t laws_ = 0, step_ = 1;
  std::vector<double> crowding_;  // by draw looked at
  std::vector<Place> places_;
};

}  // namespace rootstead
