// RootModel: where one tree's roots are likely to be, as a probability. The first estimate
// (separable, no barriers) and the full model stand behind the same interface.
// Sources, formulas and what the model cannot know: docs/methods/roots.md.
#pragma once

#include <memory>
#include <optional>
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
  // presses: that share. Left out, it is looked up for the work of that id in the site: fill,
  // paving and traffic by engine/soil, any other work as working room.
  std::optional<Range> pressed_share;
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

// Draws are the same for every set of works, so adding, widening or deepening a work never lowers
// a figure. With no draws at all a range is the central value three times.
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

  // Same seed, same bits.
  virtual RootLoss loss(const std::vector<GroundTaking>& takings,
                        const RootSimulation& how) const = 0;
  virtual RootEstimate estimate(const RootSimulation& how) const = 0;

  // Best-estimate density for pictures: share of roots per square metre of plan at a point, and
  // share above a depth at that point.
  virtual double plan_density(const Point& at) const = 0;
  virtual double share_above(const Point& at, Length depth) const = 0;
};

// Palms and other monocots get their own variant; the caller need not know. Fails with
// missing_measurement where no position or, palms apart, no stem diameter is known.
// Requires: tree, site and tables outlive the model.
Result<std::unique_ptr<RootModel>> first_estimate(const Tree& tree, const Site& site,
                                                  const Tables& tables);

// A palm or other monocot by its record or by its species (may be null): either is enough, so that
// no palm is ever scaled by its stem.
bool roots_like_a_palm(const Tree& tree, const Species* species);

}  // namespace rootstead
