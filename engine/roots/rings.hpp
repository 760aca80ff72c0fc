// Rings round a stem, and a root field sorted into them: what makes a draw of a simulation cheap.
#pragma once

#include <array>
#include <vector>

#include "engine/roots/root_field.hpp"

namespace rootstead {

// Finer near the stem, from 0 to the widest extent of all draws. Inside a ring roots are taken to
// lie as in the central field.
class Rings {
 public:
  Rings(double reach, RadialSpread central);
  std::size_t count() const { return edges_.size() - 1; }
  double reach() const { return edges_.back(); }
  const std::vector<double>& edges() const { return edges_; }
  std::size_t ring_of(double r) const;                          // requires 0 <= r < reach
  double part(std::size_t ring, double from, double to) const;  // of the ring's roots, 0 to 1

 private:
  std::vector<double> edges_;
  std::vector<double> within_;  // central share within each edge
  RadialSpread central_;
};

// A field in the rings, with the share of roots above each of `depths` (metres). Computed once for
// a draw and used for every work. The depth law hardly bends outward, so it is evaluated at five
// distances and joined straight: within 1e-4.
class RingedField {
 public:
  RingedField(const RootField& field, const Rings& rings, const std::vector<double>& depths);

  double mass(std::size_t ring) const { return rings_[ring].mass; }
  double share_above(std::size_t depth, std::size_t ring) const {
    const Ring& at = rings_[ring];
    const Nodes& nodes = above_[depth];
    return nodes[at.node] + (nodes[at.node + 1] - nodes[at.node]) * at.part;
  }
  double share_above(std::size_t depth) const;  // over all rings
  const Sectors& sectors() const { return sectors_; }
  double pressing() const { return pressing_; }

 private:
  static constexpr std::size_t kNodes = 5;
  using Nodes = std::array<double, kNodes>;
  struct Ring {
    double mass = 0;
    std::size_t node = 0;  // its middle lies this part of the way from a node to the next
    double part = 0;
  };
  std::vector<Ring> rings_;
  std::vector<Nodes> above_;  // by depth
  Sectors sectors_;
  double pressing_;
};

}  // namespace rootstead
