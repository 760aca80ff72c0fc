// The sides of works that face one stem, boiled down once to pieces and short lists of parts, so
// that a law of thick roots costs a table over distance and dot products. Only roots_met.cpp
// needs this.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "engine/roots/roots_met.hpp"

namespace rootstead::facing {

inline constexpr std::size_t kNodes = 48;  // distances at which a law is worked out

// A depth range of roots that one taking severs, by the places of its depths among all depths.
struct Slab {
  std::size_t top = 0, bottom = 0;
  friend bool operator==(const Slab&, const Slab&) = default;
};

// Where a ray first meets ground that is taken deeper than anything nearer.
struct Hit {
  std::size_t ray = 0, taking = 0, slab = 0;
  double radius = 0;  // m from the stem, straight
  double x = 0;       // m of open ground from the trunk face
  Point at;
};

// Part of a piece: rays at one node, by sector value.
struct Part {
  std::size_t node = 0;
  Sectors weight{};
  friend bool operator==(const Part&, const Part&) = default;
};

// The depths of its slab are those of the face.
struct Piece {
  std::size_t work = 0, slab = 0;
  FacePiece face;
  std::vector<Part> parts;
};

// Distances from the trunk face out to the reach, each step longer by the same factor. They hang on
// no work, so that what one work meets does not change with another that is moved.
class Nodes {
 public:
  explicit Nodes(double span);
  double x(std::size_t node) const { return x_[node]; }
  double span() const { return x_.back(); }
  struct Place {
    std::size_t below = 0;
    double part = 0;  // of the next one
  };
  Place place(double x_asked) const;

 private:
  std::array<double, kNodes> x_{};
};

// The side of the works that faces the stem, boiled down to pieces and their parts.
class Sides {
 public:
  Sides(const Point& stem, double face, double reach, const std::vector<GroundTaking>& takings,
        const WayTravelled& travelled);

  const std::vector<std::string>& works() const { return works_; }
  const std::vector<Piece>& pieces() const { return pieces_; }
  const std::vector<Slab>& slabs() const { return slabs_; }
  const std::vector<ThickDepthLaw::Depth>& depths() const { return depths_; }
  const Nodes& nodes() const { return nodes_; }

 private:
  void name_works(const std::vector<GroundTaking>& takings);
  void cast(std::size_t ray, const std::vector<GroundTaking>& takings,
            const WayTravelled& travelled);
  void cut_into_pieces();
  void add(const Hit& hit, double step);
  std::size_t slab_of(double top, double bottom);
  std::size_t index_of(double depth);

  Point stem_;
  double face_, reach_;
  std::vector<std::string> works_;
  std::vector<std::size_t> work_of_;  // by taking
  std::vector<ThickDepthLaw::Depth> depths_;
  std::vector<Slab> slabs_;
  std::vector<Hit> hits_;
  Nodes nodes_;
  std::vector<Piece> pieces_;
  double length_ = 0;  // m, of the piece being made
};

// What one work met on the side it has. The same side, met by the same laws, meets the same.
struct KnownSide {
  std::vector<Piece> pieces;
  RootsMet met;
};
// Do the pieces lie on the same ground?
bool same_side(const std::vector<const Piece*>& asked, const std::vector<Piece>& known);

}  // namespace rootstead::facing
