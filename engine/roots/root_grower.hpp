// What the growers of laterals, downward, aerial and palm roots share. Only architecture.cpp and
// its siblings include this.
#pragma once

#include "engine/base/random.hpp"
#include "engine/roots/architecture.hpp"
#include "engine/roots/walls.hpp"

namespace rootstead {

// One tree's ground and law, and what has grown so far.
struct Growing {
  const Tree& tree;
  const Site& site;
  const Tables& tables;
  Point stem;
  ThickRootLaw law;         // of woody trees; its sectors are drawn
  double thinnest = 0.005;  // m
  Walls walls;
  RandomStream random;
  RootSystem roots;

  double best(std::string_view parameter) const { return tables.parameter(parameter).best; }
  double drawn(std::string_view parameter) {
    return distribution_of(tables, parameter).draw(random);
  }
  // Index of the new piece.
  int add(const RootPiece& piece) {
    roots.pieces.push_back(piece);
    return static_cast<int>(roots.pieces.size()) - 1;
  }
};

inline constexpr double kShallowestAxis = 0.01;  // m below ground, of a root in the ground

// A root that goes down from a place; tapers as exp(-way / taper) until too thin or at `bottom`.
struct Descent {
  Place3 from;
  double azimuth = 0, slope = 0;                // radians; slope below the level
  double thickness = 0, taper = 1, bottom = 1;  // m
  RootKind kind = RootKind::sinker;
  int parent = -1, order = 0;
};
void descend(Growing& growing, const Descent& root);

// Azimuths of `count` roots round a stem, one in each of as many sectors of equal share of the
// law's sectors. Radians.
std::vector<double> azimuths_round(const Sectors& sectors, std::size_t count, RandomStream& random);

// All laterals; `share` is what of the wood at the base they hold.
void grow_laterals(Growing& growing, double share);
// Taproot or obliques with the rest of it.
void grow_downward(Growing& growing, RootArchitecture architecture, double share);
// Prop roots, pillars and knees of genera that bear them.
void grow_aerial(Growing& growing);
void grow_palm(Growing& growing, const Species* species, std::optional<Length> trunk);

}  // namespace rootstead
