// TakenGround: what works do round one stem, boiled down once to a short list of cells, so that
// each draw of a simulation costs a dot product and no geometry.
//
// A root grows straight out from the stem at its depth. It is lost at distance r if any severing
// work met before r is at least as deep; what is left of the roots beneath pressed ground counts
// as lost by the share of engine/soil. Ground beyond a cut, under a cut and between two cuts is
// therefore counted once.
// Accuracy: 180 rays and 64 rings; within 0.003 of the exact integral for straight cuts.
#pragma once

#include <utility>
#include <vector>

#include "engine/base/range.hpp"
#include "engine/geom/shapes.hpp"
#include "engine/roots/rings.hpp"

namespace rootstead {

// One work's taking as the rays see it.
struct RayedTaking {
  bool severs = true;
  double depth = 0;  // severs: metres
  Range pressed;     // presses: share of roots beneath counted as lost
  using Intervals = std::vector<std::pair<double, double>>;
  std::vector<Intervals> by_ray;  // kRays of them, enter and leave in metres
};

inline constexpr int kRays = 180;
Angle ray_azimuth(int ray);  // 1, 3, 5 ... 359 degrees
RayedTaking rayed(const Point& stem, const MultiPolygon& area, double reach);

// Every depth the takings reach, rising, after 0 for ground that is not severed.
std::vector<double> depths_of(const std::vector<RayedTaking>& takings);

class TakenGround {
 public:
  // `depths` must hold every depth of `takings`, as the fields given to lost() do.
  TakenGround(const std::vector<const RayedTaking*>& takings, const Rings& rings,
              const std::vector<double>& depths);

  // Share of the field's roots lost, in [0, 1].
  double lost(const RingedField& field) const;

 private:
  // What happened to the ground somewhere: severed down to `depth`, pressed by `pressed`.
  struct State {
    double depth = 0;
    Range pressed;
    friend bool operator==(const State&, const State&) = default;
  };
  struct Cell {
    std::size_t ring = 0;
    std::size_t state = 0;
    Sectors weight{};  // share of the ring in this state, by sector value
  };
  struct Stretch {
    double from = 0, to = 0;
    State state;
  };
  static std::vector<Stretch> stretches(const std::vector<const RayedTaking*>& takings,
                                        std::size_t ray, double reach);
  void add(const Stretch& stretch, const Sectors& weights, const Rings& rings);
  std::size_t index_of(const State& state);

  std::vector<State> states_;
  std::vector<std::size_t> state_depths_;    // place of each state's depth among the depths
  std::vector<std::vector<Sectors>> dense_;  // by state and ring; emptied into cells_
  std::vector<Cell> cells_;
};

}  // namespace rootstead
