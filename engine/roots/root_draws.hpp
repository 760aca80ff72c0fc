// RootDraws: the thousand possible root systems of one tree, with the ground they grow in and what
// was found on site. Everything that no work changes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <memory>

#include "engine/roots/field_source.hpp"
#include "engine/roots/openings.hpp"
#include "engine/roots/thick_roots.hpp"
#include "engine/roots/ways.hpp"

namespace rootstead {

// One tree and all that its roots depend on. Everything pointed to must outlive it.
struct RootSubject {
  const Tree& tree;
  const Site& site;
  const Tables& tables;
  std::unique_ptr<FieldSource> fields;
  std::optional<ThickRootSource> thick;  // not of palms

  const Point& stem() const { return tree.position->at; }
  Length likely_extent() const { return Length::metres(extent_of(fields->central().spread)); }
};

// The grid on which roots find their way reaches so many of the likely extents; beyond, few draws
// have roots, and those run straight on.
inline constexpr double kGridExtents = 1.6;
inline constexpr Length kGridCell = Length::metres(0.2);

struct RootDraws {
  RootSimulation how;
  std::vector<RootField> fields;
  std::vector<ThickRootLaw> laws = {};  // of thick roots, one a field; none for palms
  std::vector<RootField> before = {};   // without what was found on site; empty where nothing was
  DrawWeights find = {};
  Rings rings;
  std::vector<Ways> ways = {};           // one for each of three grounds, or one for all
  std::optional<TravelMap> travel = {};  // of the uppermost ground, where it hinders
  std::vector<std::string> hindrances = {};

  // How easily roots pass half-open ground is drawn too; three grounds stand for its whole range.
  std::size_t ways_of(const RootField& field) const;
};

// Without draws: the central values alone, and nothing found on site can narrow them.
RootDraws draw_roots(const RootSubject& subject, const RootSimulation& how);

}  // namespace rootstead
