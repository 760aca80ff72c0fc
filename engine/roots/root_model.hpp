// RootModel: where one tree's roots are likely to be, as a probability. The first estimate
// (separable, no barriers) and the full model stand behind the same interface.
// Source: handbook of the project's root notes, docs/methods/roots.md.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/random.hpp"
#include "engine/base/range.hpp"
#include "engine/geom/shapes.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// A plan area in which the ground is taken, or pressed, down to a depth.
struct GroundTaking {
  std::string work;  // id
  MultiPolygon area;
  Length depth;
  // severs: what lies beyond it on the roots' way from the stem is lost too.
  // presses: roots stay but suffer; only a share of those beneath is counted (engine/soil).
  enum class Effect { severs, presses } effect = Effect::severs;
};

// Shares in [0, 1] of the absorbing (fine) roots.
struct RootLoss {
  Range all;  // every taking together, no double count
  struct ByWork {
    std::string work;
    Range alone;  // as if it were the only one
  };
  std::vector<ByWork> by_work;  // same order as the works first appear in `takings`
};

struct RootSimulation {
  std::uint64_t seed = 1;
  int draws = 1000;
};

// What one tree's estimate rests on, for the trail and the page: extent, decay, depth law.
struct RootEstimate {
  Range extent_m;            // R_ext
  Range share_in_top_150mm;  // of absorbing roots
  Range share_under_crown;
  double depth_beta = 0;
  std::vector<Figure> figures;
  std::vector<Note> notes;
};

class RootModel {
 public:
  virtual ~RootModel() = default;

  // Requires: tree.position. Same seed, same bits.
  virtual RootLoss loss(const std::vector<GroundTaking>& takings,
                        const RootSimulation& how) const = 0;
  virtual RootEstimate estimate(const RootSimulation& how) const = 0;

  // Best-estimate density for pictures: share of roots per square metre of plan at a point, and
  // share above a depth at that point.
  virtual double plan_density(const Point& at) const = 0;
  virtual double share_above(const Point& at, Length depth) const = 0;
};

// Palms get their own variant; the caller need not know. Fails with missing_measurement where no
// stem diameter (or, for palms, no position) is known.
Result<std::unique_ptr<RootModel>> first_estimate(const Tree& tree, const Site& site,
                                                  const Tables& tables);

}  // namespace rootstead
