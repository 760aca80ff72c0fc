// RootPicture: the best guess of where the absorbing roots of one tree are, point by point.
#pragma once

#include "engine/roots/root_draws.hpp"

namespace rootstead {

class RootPicture {
 public:
  explicit RootPicture(const RootSubject& subject);

  double plan_density(const Point& at) const;               // share of the roots per m2 of plan
  double share_above(const Point& at, double depth) const;  // of those at that point; depth in m

 private:
  double density_above(const Point& at, double depth) const;
  double from_stem(const Point& at) const;

  Point stem_;
  RootField field_;
  GroundMap ground_;
  std::vector<TravelMap> travel_;
  double held_ = 1;  // of what open ground would hold
};

}  // namespace rootstead
