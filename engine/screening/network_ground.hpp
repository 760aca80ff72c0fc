// NetworkGround: the ground that the works of a whole network take, held compactly and asked
// millions of times. Ground that several works take is counted once: each work, in the order they
// were added, gets what no earlier one has. Large works are cut into pieces, so that a tree meets
// only what is near it.
//
// Accuracy: areas within circles are those of common_area(), 1e-9 relative or better; cutting and
// taking apart (GEOS) costs about 1e-12. What is asked of one circle depends only on the works near
// it and their order, bit for bit, however many others there are.
// Memory: about 180 bytes a work of four corners, and its id where the caller keeps one.
#pragma once

#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "engine/geom/shapes.hpp"
#include "engine/screening/cell_table.hpp"

namespace rootstead {

// What the works of a network do to one zone. Works are told by their number, in the order added.
struct GroundAnswer {
  static constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();
  Area taken;                     // of the zone, by all works together
  std::uint32_t nearest = kNone;  // the work with ground nearest to the centre
  Length distance;                // to it, 0 where the centre lies in it
  std::uint32_t worst = kNone;    // the work that takes most of the zone alone
  Area by_worst;
};

// An order in which neighbours in the list are neighbours in the plan. Asking in it is twice as
// fast, because what one place needs of the ground is still at hand for the next.
std::vector<std::uint32_t> in_order_of_place(std::span<const Point> places);

class NetworkGround {
 public:
  NetworkGround() = default;

  std::size_t work_count() const { return works_; }
  std::size_t piece_count() const { return boxes_.size(); }
  Box box() const { return box_; }

  // The circle may have no radius: then only the nearest work is looked for. It is looked for as
  // far as `look` or the zone reaches, whichever is farther. An area too small to be more than a
  // touch, 1e-12 of the zone, counts as nothing.
  GroundAnswer ask(const Circle& zone, Length look) const;
  // The same for a zone that is no circle; `reach` is the distance from `centre` to its farthest
  // point, `area` its exact area. Slower: GEOS overlays its outline.
  GroundAnswer ask(const MultiPolygon& zone, const Point& centre, Length reach, Area area,
                   Length look) const;

 private:
  friend class NetworkBuilder;

  struct Piece {
    std::uint32_t first_corner = 0, corners = 0;  // of the outer ring
    std::uint32_t first_hole = 0, holes = 0;      // in holes_
    std::uint32_t work = 0;
    bool counted = true;  // false where an earlier work takes this ground too
  };
  struct Hole {
    std::uint32_t first_corner = 0, corners = 0;
  };
  class Tally;

  std::span<const Point> corners(std::uint32_t first, std::uint32_t count) const {
    return {corners_.data() + first, count};
  }
  Polygon polygon(std::uint32_t piece) const;
  double area_within(const Circle& zone, const Piece& piece) const;
  double distance_squared(const Point& from, const Piece& piece) const;
  void look_beyond(const Point& centre, double reach, double look, GroundAnswer& answer) const;
  void take_nearest(const Point& centre, std::uint32_t piece, double& least,
                    GroundAnswer& answer) const;

  std::size_t works_ = 0;
  std::vector<Box> boxes_;  // of pieces_
  std::vector<Piece> pieces_;
  std::vector<Hole> holes_;
  std::vector<Point> corners_;
  CellTable cells_;
  Box box_;
};

// Takes works one after the other and makes the ground of them.
class NetworkBuilder {
 public:
  // The ground of the next work; its polygons overlap nowhere (as footprint() gives them). Empty
  // ground keeps the number. False, and nothing is kept but the number, where the ground is wider
  // than kWidestWork, which no work is: its coordinates are wrong.
  bool add(const MultiPolygon& ground);
  std::size_t work_count() const { return works_; }

  // Requires: threads >= 1. The result does not depend on it.
  NetworkGround finish(int threads = 1) &&;

  static constexpr Length kWidestWork = Length::metres(300'000);

 private:
  struct Part {
    Polygon polygon;
    std::uint32_t work = 0;
    bool counted = true;
  };
  void part_overlaps(int threads);
  std::vector<std::uint32_t> order_of_parts() const;
  static void lay(Part& part, NetworkGround& ground);

  std::uint32_t works_ = 0;
  std::vector<Part> parts_;
};

}  // namespace rootstead
