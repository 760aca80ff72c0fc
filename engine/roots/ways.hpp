// Ways: the ground round one stem in polar cells, each with how far a root has come to be there and
// the way it came. In open ground roots grow straight out and nothing is solved; from the first
// hindrance on a ray outward, cells are reached the way the travel map says: round it, or beneath.
//
// Behind a hindrance every grid cell hangs on one of its two neighbours towards the stem, chosen by
// a fixed lot in proportion to the direction of travel: ways wander a little, as roots do, their
// mean direction is right, and the same ground always gives the same ways. What severs a way is
// then seen at once for all cells, however many works there are.
// Accuracy: straight ground exact; behind hindrances about one cell of the grid.
#pragma once

#include <cstdint>
#include <limits>
#include <vector>

#include "engine/roots/ground_map.hpp"
#include "engine/roots/rings.hpp"
#include "engine/roots/root_model.hpp"

namespace rootstead {

inline constexpr int kRays = 180;
Angle ray_azimuth(int ray);           // 1, 3, 5 ... 359 degrees
const Sectors& ray_sectors(int ray);  // sector_weights of that azimuth

// A taking on the grid of a Ways: severing ones touch cells, pressing ones hold their centres.
struct LaidTaking {
  bool severs = true;
  double depth = 0;  // m
  std::vector<std::size_t> cells;
};

// A piece of a ray beyond a hindrance.
struct TracedCell {
  int ray = 0;
  std::size_t ring = 0;   // of the distance travelled, not of the place
  double share = 0;       // of the roots that open ground holds in that ring all round
  std::size_t place = 0;  // cell of the grid
};

// Which takings severed the way to a traced cell, and which press on the cell itself: one bit each,
// `blocks` words a cell, in the order of the takings.
inline constexpr std::size_t kBitsPerBlock = 64;
struct WayMarks {
  std::size_t blocks = 0;
  struct OfLayer {
    std::vector<std::uint64_t> severed, pressed;
  };
  std::vector<OfLayer> layers;
};

class Ways {
 public:
  // Open ground.
  explicit Ways(const Rings& rings);
  // Beyond the grid of the ground roots are taken to run straight on.
  // `travel` is that of root_travel() through the ground.
  Ways(const GroundMap& ground, const std::vector<TravelMap>& travel, const Point& stem,
       const Rings& rings);

  struct Layer {
    double top = 0, bottom = std::numeric_limits<double>::infinity();  // m below ground
    std::vector<double> straight_to;                                   // m, by ray
    std::vector<TracedCell> traced;
  };
  const std::vector<Layer>& layers() const { return layers_; }
  bool open() const { return onward_.empty(); }
  // Depths at which layers meet, without 0 and infinity.
  std::vector<double> boundaries() const;

  // Grounds that differ only in ease have the same grid, so what is laid on one lies on all.
  LaidTaking laid(const GroundTaking& taking) const;
  WayMarks marks(const std::vector<const LaidTaking*>& takings) const;

 private:
  class Tracer;
  enum class Onward : std::uint8_t { none, west, east, south, north, below };
  void add_ray(Layer& layer, const GroundLayer& ground, const TravelMap& travel, int ray,
               const Rings& rings) const;
  double open_along(const GroundLayer& ground, int ray, double reach) const;
  std::vector<Onward> onward_of(const TravelMap& travel, const TravelMap* below,
                                double climb) const;
  std::size_t next(std::size_t cell, Onward onward) const;

  Point stem_;
  PlanGrid grid_;
  std::vector<Layer> layers_;
  std::vector<std::vector<Onward>> onward_;  // by layer and grid cell: where it hangs
};

}  // namespace rootstead
