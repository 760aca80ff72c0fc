// Walls: upright faces in the ground that growing roots turn along. Straight geometry, no fields.
#pragma once

#include <vector>

#include "engine/site/site.hpp"

namespace rootstead {

class Walls {
 public:
  // Barriers of the site whose shape comes within `reach` of `near`.
  Walls(const Site& site, const Point& near, double reach);

  // Where a root at `from` gets that would grow to `to` at `depth`: there; or, where a wall stands
  // in the way that is deeper than the root, along it by what is left of the way; or as far as a
  // second wall lets it.
  Point way(const Point& from, const Point& to, double depth) const;
  bool empty() const { return faces_.empty(); }

 private:
  struct Face {
    Point a, b;
    double underside = 0;  // m
  };
  struct Meeting {
    double part = 1;  // of the way
    const Face* face = nullptr;
  };
  Meeting first_met(const Point& from, const Point& to, double depth) const;
  void add(const Point& a, const Point& b, double underside, const Point& near, double reach);

  std::vector<Face> faces_;
};

}  // namespace rootstead
