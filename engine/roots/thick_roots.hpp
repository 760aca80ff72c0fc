// Thick (structural) roots of one tree: how much wood crosses a ring, how many roots of which
// thickness a trench face shows, and the chance of meeting one. Woody trees; palms have none.
// Formulas, sources, domain: docs/methods/thick_roots.md. Open data: Upson & Burgess 2013 (Silsoe).
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/random.hpp"
#include "engine/base/range.hpp"
#include "engine/roots/root_field.hpp"
#include "engine/roots/root_model.hpp"

namespace rootstead {

// One possible law: the best estimate, or one draw of it. Distances are metres of open ground from
// the face of the trunk at the ground.
struct ThickRootLaw {
  double diameter = 0.3;  // m, of the stem
  double extent = 8;      // m, of this draw, from the stem centre
  double face = 0.2;      // m, radius of the trunk at the ground
  double base = 1.0;      // wood crossing at the face per stem cross-section
  double near_share = 0.9, near_length = 0.9, far_length = 0.5;  // of D, of the extent
  double count_factor = 1;                                       // on the numbers of roots
  double crowding = 2.5;  // variance of counts over their mean
  DepthLaw depth;         // of thick roots
  Sectors sectors = kEvenSectors;

  double cross_section(double x) const;                        // m2 crossing the ring at x
  double count_per_area(double thicker_than, double x) const;  // per m2 of face, upper metre
  double share_above(double depth, double x) const;
};

ThickRootLaw thick_roots(const Tree& tree, Length diameter, const Species* species,
                         const RootField& field, const Tables& tables);
// Takes the same number of numbers from the stream every time.
ThickRootLaw draw_thick_roots(const Tree& tree, Length diameter, const Species* species,
                              const RootField& field, const Tables& tables, RandomStream& random);

// Chance that a count with this mean and crowding is not zero: negative binomial.
double chance_of_any(double mean, double crowding);
// ln of the chance of exactly `count`.
double log_chance_of_count(int count, double mean, double crowding);

// The thicknesses a report speaks of, in metres.
inline constexpr std::array<double, 3> kSpokenThickness = {0.025, 0.050, 0.100};

// A metre or less of the side of a work that faces the tree.
struct FacePiece {
  Point from, to;
  double distance = 0;                                    // from the trunk face, its middle
  std::array<Range, kSpokenThickness.size()> expected{};  // roots at least so thick, mean number
  std::array<Range, kSpokenThickness.size()> chance{};    // of at least one
};

// What one severing work meets, piece by piece along its near side.
struct RootsMet {
  std::string work;
  std::vector<FacePiece> pieces;
  std::array<Range, kSpokenThickness.size()> expected{};  // over all pieces
};

}  // namespace rootstead
