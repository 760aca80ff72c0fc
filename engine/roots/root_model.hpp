// RootModel: where one tree's roots are likely to be, as a probability: how they thin out with the
// way they came, turned aside by what stands in the ground, by depth and soil, narrowed by what was
// found on site. Sources, formulas and what the model cannot know: docs/methods/roots.md.
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
  friend bool operator==(const GroundTaking&, const GroundTaking&) = default;
};

// How much of the spread of a figure over its draws goes back to one input, and what would narrow
// it. Shares of the variance by squared rank correlation; what they leave of 1 is interplay.
struct Influence {
  std::string input;    // id of a parameter, or "directions", "pressed ground", "hindrances"
  std::string meaning;  // in words
  double share = 0;     // of the variance, 0 to 1
  std::string narrowed_by;
};

// The pit that is expected to narrow the loss most, of those looked at.
struct NextPit {
  Point at;       // centre of a square hole
  Angle bearing;  // from the stem, clockwise from grid north
  Length from_stem;
  Length side, depth;
  double spread_left = 1;  // expected standard deviation after it, per that before
};

// Shares in [0, 1] of the absorbing (fine) roots.
struct RootLoss {
  Range all;  // every taking together, no double count
  struct ByWork {
    std::string work;
    Range alone;  // as if it were the only one
  };
  std::vector<ByWork> by_work = {};           // same order as the works first appear in `takings`
  std::optional<Range> before_evidence = {};  // `all` without what was found on site
  std::vector<Influence> influences = {};     // largest first; empty without draws
  std::optional<NextPit> next_pit = {};       // where a pit would tell anything
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
  std::optional<Range> extent_before_evidence;
  std::vector<std::string>
      hindrances;  // what turns the roots aside: names of barriers and the like
  std::vector<Figure> figures;
  std::vector<Note> notes;
};

struct RootsMet;

class RootModel {
 public:
  virtual ~RootModel() = default;

  // With or without influences and next pit.
  enum class Explained { no, yes };
  // Same seed, same bits. One thread at a time: a model keeps what it has prepared.
  virtual RootLoss loss(const std::vector<GroundTaking>& takings, const RootSimulation& how,
                        Explained explained) const = 0;
  RootLoss loss(const std::vector<GroundTaking>& takings, const RootSimulation& how) const {
    return loss(takings, how, Explained::yes);
  }
  virtual RootEstimate estimate(const RootSimulation& how) const = 0;
  // The thick roots each severing work is likely to meet (engine/roots/roots_met.hpp); none of
  // palms.
  virtual std::vector<RootsMet> thick_roots_met(const std::vector<GroundTaking>& takings,
                                                const RootSimulation& how) const = 0;
  // Share of the absorbing roots in an upright cylinder round the stem, [0, 1]; accuracy 0.01.
  virtual Range share_in_cylinder(Length radius, Length depth, const RootSimulation& how) const = 0;
  virtual Length likely_extent() const = 0;  // best guess in open ground, from the stem; quick

  // Best-estimate density for pictures: share of roots per square metre of plan at a point, and
  // share above a depth at that point.
  virtual double plan_density(const Point& at) const = 0;
  virtual double share_above(const Point& at, Length depth) const = 0;
};

// Palms and other monocots get their own variant; the caller need not know. Fails with
// missing_measurement where no position or, palms apart, no stem diameter is known.
// Requires: tree, site and tables outlive the model, and what stands in the ground stays as it is.
Result<std::unique_ptr<RootModel>> root_model(const Tree& tree, const Site& site,
                                              const Tables& tables);

// A palm or other monocot by its record or by its species (may be null): either is enough, so that
// no palm is ever scaled by its stem.
bool roots_like_a_palm(const Tree& tree, const Species* species);

}  // namespace rootstead
