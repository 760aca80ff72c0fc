// TakenGround: what works do round one stem, boiled down once to a short list of cells, so that
// each draw of a simulation costs a dot product and no geometry.
//
// A root grows out from the stem at its depth, straight in open ground and as engine/roots/ways
// says behind a hindrance. It is lost where any severing work met on its way is at least as deep;
// what is left of the roots beneath pressed ground counts as lost by the share of engine/soil.
// Ground beyond a cut, under a cut and between two cuts is therefore counted once.
// Accuracy: 180 rays and 64 rings; within 0.003 of the exact integral for straight cuts in open
// ground.
#pragma once

#include <utility>
#include <vector>

#include "engine/base/range.hpp"
#include "engine/geom/shapes.hpp"
#include "engine/roots/rings.hpp"
#include "engine/roots/ways.hpp"

namespace rootstead {

// One work's taking as the rays see it.
struct RayedTaking {
  bool severs = true;
  double depth = 0;  // severs: metres
  Range pressed;     // presses: share of roots beneath counted as lost
  using Intervals = std::vector<std::pair<double, double>>;
  std::vector<Intervals> by_ray;  // kRays of them, enter and leave in metres
};
RayedTaking rayed(const Point& stem, const MultiPolygon& area, double reach);

// Every depth the takings reach and every depth at which layers meet, rising, from 0 to infinity.
std::vector<double> depths_of(const std::vector<RayedTaking>& takings, const Ways& ways);

class TakenGround {
 public:
  // `subset` says which of `takings` count, by index; `marks` are those of all of them.
  // `depths` must hold every depth of `takings`, as the fields given to lost() do.
  TakenGround(const std::vector<RayedTaking>& takings, const std::vector<std::size_t>& subset,
              const Ways& ways, const WayMarks& marks, const Rings& rings,
              const std::vector<double>& depths);
  // All the ground that roots come to, as if it were taken down to a depth.
  static TakenGround everything(const Ways& ways, const Rings& rings,
                                const std::vector<double>& depths, double down_to);

  // Share of what open ground would hold of the field's roots that is taken, 0 or more.
  double taken(const RingedField& field) const;

 private:
  // What happened to the ground somewhere: in the layer from `top` to `bottom`, severed down to
  // `cut`, pressed by `pressed`.
  struct State {
    double top = 0, cut = 0, bottom = 0;
    Range pressed;
    bool untouched() const { return cut <= top && pressed == Range{}; }
    friend bool operator==(const State&, const State&) = default;
  };
  struct Cell {
    std::size_t ring = 0;
    std::size_t state = 0;
    Sectors weight{};  // share of the ring in this state, by sector value
  };
  // Places of the three depths of a state among the depths.
  struct StateDepths {
    std::size_t top = 0, cut = 0, bottom = 0;
  };
  struct Stretch {
    double from = 0, to = 0;
    State state;
  };
  TakenGround() = default;
  static std::vector<Stretch> stretches(const std::vector<RayedTaking>& takings,
                                        const std::vector<std::size_t>& subset, std::size_t ray,
                                        const Ways::Layer& layer);
  static State state_of(const std::vector<RayedTaking>& takings,
                        const std::vector<std::uint64_t>& subset, const std::uint64_t* severed,
                        const std::uint64_t* pressed, const Ways::Layer& layer);
  void add(const Stretch& stretch, const Sectors& weights, const Rings& rings);
  void add(const TracedCell& cell, const State& state, const Rings& rings);
  void finish(const std::vector<double>& depths);
  std::vector<Sectors>& dense(const State& state, const Rings& rings);

  std::vector<State> states_;
  std::vector<StateDepths> state_depths_;
  std::vector<std::vector<Sectors>> dense_;  // by state and ring; emptied into cells_
  std::vector<Cell> cells_;
};

}  // namespace rootstead
