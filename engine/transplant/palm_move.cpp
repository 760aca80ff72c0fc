#include "engine/transplant/palm_move.hpp"

#include <algorithm>
#include <array>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "engine/transplant/trail.hpp"

namespace rootstead {
namespace {

// The first is the one that was read at its source, from trials: its figure is the best one.
constexpr std::array kSources = {"hodel-2005", "grounds-mag-palms", "elcaribeo-palms",
                                 "florida-palm-bid"};
constexpr double kAlike = 1.05;  // figures within this factor do not disagree

const Parameter* radius_row(const Tables& tables, const std::string& source,
                            std::string_view botanical_name) {
  const std::string start = "transplant_palms.radius." + source;
  if (const Parameter* own = taxon_row(tables, start, botanical_name)) return own;
  return taxon_row(tables, start, "any");
}

Figure radius_figure(const Parameter& row, const std::string& source,
                     std::string_view botanical_name) {
  return Trail("transplant.palm-ball." + source, "m")
      .formula("from the face of the trunk, by species")
      .given("species", "the palm", std::string(botanical_name))
      .by(row, "radius")
      .is(range_of(row));
}

// How deep, by where new roots were found.
Range depth_range(std::string_view botanical_name, const Tables& tables) {
  const double usual = tables.parameter("transplant_palms.depth.usual").best;
  const double deep = tables.parameter("transplant_palms.depth.deep").best;
  const Parameter& from = tables.parameter("transplant_palms.deep_from");
  const Species* species = tables.species_of(botanical_name);
  if (!species || !species->palm_top_share) return {usual, usual, deep};
  constexpr double kRounding = 1e-9;
  const double below = 1 - *species->palm_top_share + kRounding;
  if (below >= from.high) return same(deep);
  return below >= from.low ? Range{usual, usual, deep} : same(usual);
}

Figure depth_figure(std::string_view botanical_name, const Range& depth, const Tables& tables) {
  const Species* species = tables.species_of(botanical_name);
  const bool studied = species && species->palm_top_share;
  Trail trail("transplant.palm-ball.depth", "m");
  trail.formula("12 in; 24 in where 30 % or more of new roots lie below 12 in")
      .given("species", "the palm", std::string(botanical_name))
      .given("p", "share of new roots below 12 in",
             studied ? percent(1 - *species->palm_top_share, 0) : "not known")
      .by(tables.parameter("transplant_palms.depth.usual"), "usual")
      .by(tables.parameter("transplant_palms.depth.deep"), "deep");
  if (depth.low < depth.high)
    trail.by(Citation{"rootstead", "docs/methods/palms_moved.md", Status::assumption});
  return trail.is(depth);
}

}  // namespace

PalmBall palm_ball(std::string_view botanical_name, const Tables& tables) {
  PalmBall ball;
  for (const std::string source : kSources) {
    const Parameter* row = radius_row(tables, source, botanical_name);
    if (!row) continue;
    Range& all = ball.beyond_trunk_m;
    all = ball.by_source.empty()
              ? range_of(*row)
              : Range{std::min(all.low, row->low), all.best, std::max(all.high, row->high)};
    ball.by_source.push_back(radius_figure(*row, source, botanical_name));
  }
  ball.depth_m = depth_range(botanical_name, tables);
  ball.by_source.push_back(depth_figure(botanical_name, ball.depth_m, tables));
  ball.sources_disagree = ball.beyond_trunk_m.high > kAlike * ball.beyond_trunk_m.low;
  return ball;
}

PalmLeafRule palm_leaf_rule(std::string_view botanical_name, const Tables& tables) {
  if (const Parameter* off = taxon_row(tables, "transplant_palms.leaves_off", botanical_name);
      off && off->best > 0) {
    const double with = tables.parameter("transplant_palms.survival.leaves_off").best;
    const double without = tables.parameter("transplant_palms.survival.leaves_on").best;
    return {PalmLeaves::all_off,
            "With all leaves off " + percent(with, 0) +
                " lived after eight months, with leaves on " + percent(without, 0) +
                ": the leaves left on died anyway.",
            off->from};
  }
  const Parameter& tied = tables.parameter("transplant_palms.tied_months");
  return {
      PalmLeaves::keep_and_tie,
      "Reviewed trials found no gain from taking green leaves off other palms; some crews still "
      "take half to two thirds where nobody waters, and a nursery keeps leaves tied for up to " +
          fixed_number(tied.high, 0) + " month (" + cited(tied.from) + ").",
      {"pittenger-palms", "other species: no gain from removal", Status::published}};
}

const Parameter* needs_trunk_first(std::string_view botanical_name, const Tables& tables) {
  const Parameter* row = taxon_row(tables, "transplant_palms.trunk_first", botanical_name);
  return row && row->best > 0 ? row : nullptr;
}

}  // namespace rootstead
