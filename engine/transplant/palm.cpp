// Palms, and what little is known of other monocots. Nothing here reads how thick a trunk is, save
// to weigh it and to say how wide the whole ball becomes.
#include <algorithm>

#include "engine/base/text.hpp"
#include "engine/roots/palm_regrowth.hpp"
#include "engine/site/diameter.hpp"
#include "engine/transplant/move_case.hpp"
#include "engine/transplant/moved_roots.hpp"
#include "engine/transplant/palm_move.hpp"
#include "engine/transplant/trail.hpp"
#include "engine/transplant/weights.hpp"

namespace rootstead {
namespace {

struct PalmMove {
  PalmBall ball;
  Length trunk_width;
  PalmRegrowth regrowth;
};

PalmMove size_up(const MoveCase& c, TransplantAdvice& advice) {
  PalmMove move;
  move.ball = palm_ball(c.tree.botanical_name, c.tables);
  move.regrowth = palm_regrowth(c.tables.species_of(c.tree.botanical_name), c.tables);
  const auto width = combined_diameter(c.tree, {});
  move.trunk_width = width ? *width : Length::metres(c.best("palms.trunk_diameter"));
  if (!width)
    c.note(advice, NoteCode::trunk_width_assumed,
           "the width of the trunk is not recorded: that of an ordinary palm is used for weights");
  for (const Figure& figure : move.ball.by_source) advice.figures.push_back(figure);
  return move;
}

double whole_width(const PalmMove& move, double beyond) {
  return move.trunk_width.metres() + 2 * beyond;
}

Range ball_weight(const MoveCase& c, const Range& width, const Range& depth,
                  TransplantAdvice& advice) {
  const auto weight = [&](double d, double h) {
    return ball_weight_cylinder(Length::metres(d), Length::metres(h), {}, c.tables);
  };
  Figure figure = weight(width.best, depth.best);
  figure.range = Range{weight(width.low, depth.low).range->low, figure.value,
                       weight(width.high, depth.high).range->high};
  advice.figures.push_back(figure);
  return *figure.range;
}

// Length of trunk to be lifted: where it is not recorded, the whole height stands in.
std::optional<Length> trunk_length(const Tree& tree) {
  if (tree.clear_trunk && tree.clear_trunk->length() > Length()) return tree.clear_trunk->length();
  if (tree.height) return tree.height->length();
  return std::nullopt;
}

void weigh_up(const MoveCase& c, const PalmMove& move, TransplantAdvice& advice) {
  const Range& beyond = move.ball.beyond_trunk_m;
  MovedBall ball;
  ball.diameter_m = {whole_width(move, beyond.low), whole_width(move, beyond.best),
                     whole_width(move, beyond.high)};
  ball.depth_m = move.ball.depth_m;
  ball.weight_kg = ball_weight(c, ball.diameter_m, ball.depth_m, advice);
  ball.wider_than_road = ball.diameter_m.high > c.best("transplant.road_width");
  advice.ball = ball;
  const auto trunk = trunk_length(c.tree);
  if (!trunk)
    return c.note(advice, NoteCode::weight_incomplete,
                  "neither trunk nor height is recorded, so only the ball is weighed");
  const Figure weight = palm_trunk_weight(move.trunk_width, *trunk, {}, c.tables);
  advice.figures.push_back(weight);
  advice.total_weight_kg = plus(ball.weight_kg, *weight.range);
  c.note(advice, NoteCode::weight_incomplete, "leaves and fruit are not weighed");
  if (const Parameter* whole =
          taxon_row(c.tables, "transplant_palms.whole", c.tree.botanical_name)) {
    advice.total_weight_kg->high = std::max(advice.total_weight_kg->high, whole->best);
    advice.figures.push_back(Trail("transplant.palm-whole-weight", "kg")
                                 .formula("as printed for a whole palm of this species")
                                 .by(*whole, "W")
                                 .is(range_of(*whole)));
  }
}

Outcome tell_roots(const MoveCase& c, TransplantAdvice& advice) {
  ROOTSTEAD_TRY(
      const Figure share,
      share_in_ball(c.tree, c.site, c.tables, Length::metres(advice.ball->diameter_m.best / 2),
                    Length::metres(advice.ball->depth_m.best), c.how));
  advice.roots_moved = share.range.value_or(same(share.value));
  advice.figures.push_back(share);
  const Parameter& months = c.tables.parameter("transplant_palms.established_months");
  advice.establishment_months = range_of(months);
  advice.figures.push_back(Trail("transplant.palm-establishment", "months")
                               .formula("container stock kept moist")
                               .by(months, "t")
                               .is(range_of(months)));
  return Nothing{};
}

// ---- what to do ---------------------------------------------------------------------------------

Prescription season(const MoveCase& c) {
  const Parameter& warm = c.tables.parameter("transplant_palms.soil_growing");
  const Parameter& cold = c.tables.parameter("transplant_palms.soil_resting");
  return c.prescribe(
      "season",
      "Move it at the start of the warm season, with the soil on its way to " +
          c.amounts.temperature(warm.best) + "; not while it is near " +
          c.amounts.temperature(cold.best) + ". Where it is warm all year, at any time.",
      "A trial found many times more new roots in the warm months than in the cold ones.",
      warm.from);
}

bool cutting_ahead_helps(const PalmRegrowth& regrowth) {
  return regrowth.kind == PalmRegrowth::Kind::longer_more ||
         regrowth.kind == PalmRegrowth::Kind::any_length;
}

Prescription root_cutting(const MoveCase& c, const PalmMove& move) {
  const Parameter& weeks = c.tables.parameter("transplant_palms.root_cut_weeks");
  const Parameter& from_trunk = c.tables.parameter("transplant_palms.root_cut_from_trunk");
  if (cutting_ahead_helps(move.regrowth))
    return c.prescribe(
        "root cutting ahead",
        "Cut the roots " + numbers(range_of(weeks), 0) + " weeks before lifting, no nearer than " +
            c.amounts.length(Length::metres(from_trunk.best)) + " to the face of the trunk.",
        in_words(move.regrowth), weeks.from);
  return c.prescribe("root cutting ahead",
                     "Do not cut its roots ahead: all of them are cut once, on the day of lifting.",
                     in_words(move.regrowth),
                     move.regrowth.from.value_or(
                         Citation{"rootstead", "docs/methods/palms_moved.md", Status::assumption}));
}

Prescription leaves(const MoveCase& c) {
  const PalmLeafRule rule = palm_leaf_rule(c.tree.botanical_name, c.tables);
  const bool off = rule.what == PalmLeaves::all_off;
  std::string text =
      off ? "Cut off all leaves before lifting; leave the bud whole. Its crown is back in up to " +
                fixed_number(c.best("transplant_palms.crown_back_months"), 0) + " months."
          : "Take off dead leaves only; tie the others up round the bud for lifting and untie them "
            "once it is planted.";
  return c.prescribe("leaves", std::move(text), rule.text, rule.from);
}

// The sources in one sentence: "hodel-2005 300 mm, grounds-mag-palms 610 mm".
std::string side_by_side(const MoveCase& c, const PalmBall& ball) {
  std::vector<std::string> said;
  const std::string start = "transplant.palm-ball.";
  for (const Figure& figure : ball.by_source) {
    if (figure.name == start + "depth") continue;
    said.push_back(figure.name.substr(start.size()) + " " +
                   small_lengths(c.amounts, figure.range.value_or(same(figure.value))));
  }
  return joined(said, ", ");
}

Prescription digging(const MoveCase& c, const PalmMove& move) {
  const PalmBall& ball = move.ball;
  std::string text = "Dig no nearer than " +
                     c.amounts.small_length(Length::metres(ball.beyond_trunk_m.best)) +
                     " to the face of the trunk and at least " +
                     c.amounts.small_length(Length::metres(ball.depth_m.low)) + " deep";
  if (ball.depth_m.high > ball.depth_m.low)
    text += ", better " + c.amounts.small_length(Length::metres(ball.depth_m.high));
  if (ball.beyond_trunk_m.high > ball.beyond_trunk_m.best)
    text += "; " + c.amounts.small_length(Length::metres(ball.beyond_trunk_m.high)) +
            " from it where the lift allows";
  text += ". Give clumps and very tall palms more.";
  std::string reason =
      "The distance goes by the species and where its new roots come from, not by how thick the "
      "trunk is";
  reason += ball.sources_disagree ? "; sources disagree: " + side_by_side(c, ball) + "." : ".";
  return c.prescribe("ball", std::move(text), std::move(reason), ball.by_source.front().from,
                     ball.by_source);
}

Prescription lifting(const MoveCase& c, const TransplantAdvice& advice) {
  std::string text =
      "Lift it from a spreader bar, in padded slings at the ball and on the trunk, with nothing "
      "bearing on the bud, so that it cannot turn over";
  if (advice.total_weight_kg)
    text += ". Ball and trunk weigh an estimated " + masses(c.amounts, *advice.total_weight_kg);
  text += ".";
  return c.prescribe("lifting", std::move(text),
                     "Its weight is high up: without a bar a palm turns over in its sling.",
                     {"treeworld-moving", "spreader bar against inversion", Status::published});
}

Prescription holding(const MoveCase& c) {
  const Parameter& weeks = c.tables.parameter("transplant_palms.hold_weeks");
  return c.prescribe(
      "holding",
      "Plant it the same day; where that fails, heel it in, shaded and moist, for at "
      "most " +
          numbers({weeks.best, weeks.best, weeks.high}, 0) + " weeks.",
      "Its ball is small and dries quickly.", weeks.from);
}

void plant(const MoveCase& c, TransplantAdvice& advice) {
  const Parameter& high = c.tables.parameter("transplant_palms.planted_high");
  advice.planting = {
      c.prescribe("hole",
                  "Fill back the soil that came out, without anything mixed in; leave no "
                  "hollow beneath the ball.",
                  "Reviewed trials found no gain from amending the fill for palms.",
                  {"pittenger-palms", "no amendment", Status::published}),
      c.prescribe(
          "planting depth",
          "Set it exactly as deep as it stood: the root mat above the ground is not buried "
          "and is no buried flare.",
          "Too deep and too shallow both harm palms. On wet ground one trial set sabal palms "
          "with wrapped roots " +
              small_lengths(c.amounts, range_of(high)) + " high and lost few (" + cited(high.from) +
              ").",
          {"pittenger-palms", "depth: same as before", Status::published})};
}

void care(const MoveCase& c, TransplantAdvice& advice) {
  const Parameter& props = c.tables.parameter("transplant_palms.brace_props");
  const Parameter& months = c.tables.parameter("transplant_palms.brace_months");
  const Citation wet{"pittenger-palms", "keep moist not soggy; mulch helps", Status::published};
  advice.after = {
      c.prescribe("bracing",
                  "Hold it with " + numbers(range_of(props), 0) +
                      " props on padded battens strapped to the trunk, never nailed, for " +
                      numbers(range_of(months), 0) + " months.",
                  "A palm never closes a wound of its trunk.", props.from),
      c.prescribe("irrigation", "Keep ball and backfill moist, not soggy, until new leaves open.",
                  "New roots come from the base of the trunk and need air there as much as water.",
                  wet),
      c.prescribe("mulch", "Mulch the planting hole thinly, clear of the trunk.",
                  "Mulch helped moved palms.", wet)};
  if (advice.establishment_months)
    advice.after.push_back(c.prescribe(
        "recovery",
        "Expect it to be established after " + numbers(*advice.establishment_months, 0) +
            " months of growth; look at the bud every month.",
        "So long container-grown palms took.",
        c.tables.parameter("transplant_palms.established_months").from));
}

}  // namespace

Outcome advise_palm(const MoveCase& c, TransplantAdvice& advice) {
  const PalmMove move = size_up(c, advice);
  weigh_up(c, move, advice);
  ROOTSTEAD_CHECK(tell_roots(c, advice));
  weigh_palm(c, advice);
  advice.before = {season(c), root_cutting(c, move), leaves(c)};
  advice.lifting_day = {digging(c, move), lifting(c, advice)};
  if (advice.total_weight_kg)
    advice.lifting_day.push_back(gear(c, advice, Mass::kilograms(advice.total_weight_kg->high)));
  advice.lifting_day.push_back(holding(c));
  plant(c, advice);
  care(c, advice);
  return Nothing{};
}

void advise_monocot(const MoveCase& c, TransplantAdvice& advice) {
  weigh_monocot(c, advice);
  advice.no_ball =
      "No ball figure is given: it is neither a palm nor a tree that thickens, and no rule for "
      "such "
      "plants was found. Somebody who has moved this kind before decides width and depth, season, "
      "leaves and time ahead.";
  c.note(advice, NoteCode::monocot_moving_unknown, advice.no_ball);
  const Citation base{"uf-ep001",
                      "monocot roots arise anew from the base of the stem; told of palms",
                      Status::assumption};
  advice.lifting_day = {
      c.prescribe("ball", advice.no_ball,
                  "A calliper says nothing of plants whose stems do not thicken as trees do.",
                  base),
      c.prescribe("lifting", "Lift it by the ball, never by the stem.",
                  "Soft stems are crushed under a sling.",
                  {"uf-lifting", "lift by the ball; told of trees", Status::assumption})};
}

}  // namespace rootstead
