// Trees that thicken: ball by calliper or height, and what to do in the order of the work.
#include <algorithm>

#include "engine/base/text.hpp"
#include "engine/tables/traits.hpp"
#include "engine/transplant/ball.hpp"
#include "engine/transplant/move_case.hpp"
#include "engine/transplant/moved_roots.hpp"
#include "engine/transplant/recovery.hpp"
#include "engine/transplant/trail.hpp"
#include "engine/transplant/weights.hpp"

namespace rootstead {
namespace {

// What is worked out once and told in several sentences.
struct WoodyMove {
  Calliper calliper;
  bool conifer = false;
  bool collected = false;
  std::string table;           // the one that rules the ball
  std::optional<Figure> ball;  // its diameter; none where the table ends
  std::optional<Figure> depth;
  std::string why_no_ball;
};

constexpr int kColdZones = 6;  // in which the months printed are the least

const char* const kSpecialist =
    " A specialist who has dug such trees decides on roots looked for on site: width and depth of "
    "what is lifted, boxing or frozen ball or machine, platform and rigging, and how long ahead "
    "roots are cut.";

std::string shade_table(const MoveCase& c) {
  return c.tree.crown && c.tree.crown->columnar ? "ansi-z60-small" : "ansi-z60-shade";
}

// The next size that nurseries grade by, so that a ball never shrinks between two rows.
Length graded(Length calliper) {
  for (const BallTable::Row& row : ball_tables().front().rows)
    if (calliper.metres() <= row.size * kMetresPerInch)
      return Length::metres(row.size * kMetresPerInch);
  return calliper;
}

Result<Figure> ball_of(const MoveCase& c, const WoodyMove& move) {
  if (!move.conifer)
    return ball_diameter(move.table, Length::metres(move.calliper.metres.best), move.collected);
  if (!c.tree.height)
    return Error{Code::missing_measurement, "tree " + c.tree.label(),
                 "its height is not recorded, and conifers are sized by their height",
                 "measure it"};
  return ball_diameter(move.table, c.tree.height->length(), move.collected);
}

// The widest ball that any source asks: what weights are taken of.
double widest(const MoveCase& c, const WoodyMove& move) {
  double most = move.ball->value;
  if (move.conifer) {
    const auto nursery = ball_diameter("nursery-conifer", c.tree.height->length(), move.collected);
    return nursery ? std::max(most, nursery->value) : most;
  }
  const Figure practice =
      ball_diameter_by_practice(graded(Length::metres(move.calliper.metres.high)), c.tables);
  return std::max(most, practice.range ? practice.range->high : practice.value);
}

// Other sources on the same ball: shown beside, never averaged in.
void add_other_balls(const MoveCase& c, const WoodyMove& move, TransplantAdvice& advice) {
  if (move.conifer) {
    const auto nursery = ball_diameter("nursery-conifer", c.tree.height->length(), move.collected);
    if (nursery) advice.figures.push_back(*nursery);
    return;
  }
  const Length calliper = Length::metres(move.calliper.metres.best);
  const auto simple = ball_diameter("simple", calliper, move.collected);
  if (simple) advice.figures.push_back(*simple);
  advice.figures.push_back(ball_diameter_by_practice(calliper, c.tables));
}

Range ball_weight(const MoveCase& c, const WoodyMove& move, double high_diameter,
                  TransplantAdvice& advice) {
  const Length diameter = Length::metres(move.ball->value), high = Length::metres(high_diameter);
  const Length depth = Length::metres(move.depth->value);
  const Length high_depth = Length::metres(ball_depth(high, c.tables).value);
  const Figure cone = ball_weight_cone(diameter, depth, {}, c.tables);
  const Figure practice = ball_weight_practice(diameter, depth, c.tables);
  const Figure rule = ball_weight_short_rule(high, high_depth, {}, c.tables);
  const auto printed = ball_weight_published(high);
  for (const Figure* one : {&cone, &practice, &rule}) advice.figures.push_back(*one);
  if (printed) advice.figures.push_back(*printed);
  const double as_printed = printed ? printed->range.value_or(same(printed->value)).high : 0;
  return {std::min(cone.range->low, practice.range->low), cone.range->best,
          std::max({rule.range->high, practice.range->high, as_printed})};
}

// Stem and crown, where the height is known.
std::optional<Range> wood_weight(const MoveCase& c, const WoodyMove& move,
                                 TransplantAdvice& advice) {
  if (!c.tree.height) return std::nullopt;
  const Range& base = move.calliper.metres;
  const Range top = times(range_of(c.tables.parameter("transplant.stem_narrows_to")), base);
  const Range parts =
      plus(plus(same(1), range_of(c.tables.parameter("transplant.branches_per_stem"))),
           range_of(c.tables.parameter("transplant.leaves_per_stem")));
  const auto stem = [&](double foot, double head) {
    return stem_weight(Length::metres(foot), Length::metres(head), c.tree.height->length(), {},
                       move.conifer, c.tables);
  };
  const Figure low = stem(base.low, top.low), best = stem(base.best, top.best),
               high = stem(base.high, top.high);
  Figure figure = best;
  figure.range = Range{low.range->low, best.range->best, high.range->high};
  figure.from = weaker(figure.from.status, Status::assumption) == figure.from.status
                    ? figure.from
                    : c.tables.parameter("transplant.stem_narrows_to").from;
  advice.figures.push_back(figure);
  return times(*figure.range, parts);
}

void weigh_up(const MoveCase& c, const WoodyMove& move, TransplantAdvice& advice) {
  const double wide = widest(c, move);
  MovedBall ball;
  ball.diameter_m = {move.ball->value, move.ball->value, wide};
  const Figure deepest = ball_depth(Length::metres(wide), c.tables);
  const double deep = std::max(move.depth->value, deepest.value);
  ball.depth_m = {move.depth->value, move.depth->value, deep};
  ball.weight_kg = ball_weight(c, move, wide, advice);
  ball.wider_than_road = wide > c.best("transplant.road_width");
  advice.ball = ball;
  const auto wood = wood_weight(c, move, advice);
  if (wood) {
    advice.total_weight_kg = plus(ball.weight_kg, *wood);
  } else {
    c.note(advice, NoteCode::weight_incomplete,
           "the height is not recorded, so stem and crown are not weighed: only the ball is");
  }
}

Outcome size_up(const MoveCase& c, WoodyMove& move, TransplantAdvice& advice) {
  ROOTSTEAD_TRY(move.calliper, calliper_of(c.tree, c.tables));
  move.conifer = trait_group_of(c.tree, c.tables) == TraitGroup::conifer ||
                 trait_group_of(c.tree, c.tables) == TraitGroup::deciduous_conifer;
  move.collected = counts_as_collected(c.tree);
  move.table = move.conifer ? "ansi-z60-conifer" : shade_table(c);
  advice.figures.push_back(move.calliper.figure);
  const auto ball = ball_of(c, move);
  if (!ball) {
    move.why_no_ball = "No ball figure is given: " + ball.error().message + "." + kSpecialist;
    advice.no_ball = move.why_no_ball;
    c.note(advice, NoteCode::ball_refused, move.why_no_ball);
    return Nothing{};
  }
  move.ball = *ball;
  move.depth = ball_depth(Length::metres(ball->value), c.tables);
  advice.figures.push_back(*move.ball);
  advice.figures.push_back(*move.depth);
  add_other_balls(c, move, advice);
  weigh_up(c, move, advice);
  return Nothing{};
}

std::string small(const MoveCase& c, std::string_view id) {
  return c.amounts.small_length(Length::metres(c.best(id)));
}

void add_notes(const MoveCase& c, const WoodyMove& move, TransplantAdvice& advice) {
  if (c.tree.history == GrowthHistory::unknown)
    c.note(advice, NoteCode::history_assumed,
           "how it came to stand there is not recorded: its ball is that of a tree grown in place");
  if (!move.calliper.measured)
    c.note(advice, NoteCode::calliper_estimated,
           "the calliper is estimated from a diameter taken higher up: measure it at " +
               small(c, "transplant.calliper_at_small") + ", or at " +
               small(c, "transplant.calliper_at_large") + " where it is over " +
               small(c, "transplant.calliper_small_to"));
  if (advice.ball && advice.ball->wider_than_road)
    c.note(advice, NoteCode::wide_load,
           "the ball may be wider than loads that travel on roads without a permit");
}

// Shares by weight were found on stems up to a size only.
bool was_found_on(const MoveCase& c, const WoodyMove& move, const std::string& share) {
  const double stem = move.calliper.metres.low;
  if (share == "transplant.moved-weight-thin-stems")
    return stem <= c.best("transplant.moved.weight_thin_to");
  if (share == "transplant.moved-weight") return stem <= c.best("transplant.moved.weight_known_to");
  return true;
}

Outcome tell_roots(const MoveCase& c, const WoodyMove& move, TransplantAdvice& advice) {
  for (Figure& share : published_shares_moved(c.tables))
    if (was_found_on(c, move, share.name)) advice.figures.push_back(std::move(share));
  if (!move.ball) return Nothing{};
  ROOTSTEAD_TRY(const Figure share,
                share_in_ball(c.tree, c.site, c.tables, Length::metres(move.ball->value / 2),
                              Length::metres(move.depth->value), c.how));
  advice.roots_moved = share.range.value_or(same(share.value));
  advice.figures.push_back(share);
  return Nothing{};
}

void tell_recovery(const MoveCase& c, const WoodyMove& move, TransplantAdvice& advice) {
  if (!c.site.climate.hardiness_zone)
    return c.note(advice, NoteCode::recovery_untold,
                  "the hardiness zone of the site is not recorded, so no time of recovery is told");
  const auto months = establishment(move.calliper.metres, *c.site.climate.hardiness_zone, c.tables);
  if (!months) return c.note(advice, NoteCode::recovery_untold, months.error().sentence());
  advice.establishment_months = months->range.value_or(same(months->value));
  advice.figures.push_back(*months);
}

// ---- what to do ---------------------------------------------------------------------------------

Prescription season(const MoveCase& c) {
  if (const Parameter* spring =
          taxon_row(c.tables, "transplant.spring_only", c.tree.botanical_name))
    return c.prescribe("season", "Move it in spring only, before its buds open; never in autumn.",
                       "It is on a list of trees that are moved in spring only; roots that branch "
                       "poorly in autumn leave it dry through the winter.",
                       spring->from);
  if (const Parameter* autumn =
          taxon_row(c.tables, "transplant.autumn_hazard", c.tree.botanical_name))
    return c.prescribe("season", "Do not dig it in autumn: move it at the end of winter.",
                       "It is on a list of trees that suffer from digging in autumn.",
                       autumn->from);
  return c.prescribe("season",
                     "Move it while it is dormant, and not while its shoots grow in early spring.",
                     "Reserves are lowest while the first shoots grow.",
                     {"watson-himelick-1982", "season of moving", Status::published});
}

Prescription root_cutting(const MoveCase& c, const WoodyMove& move) {
  const Parameter& inside = c.tables.parameter("transplant.root_cut_inside");
  const Parameter& months = c.tables.parameter("transplant.root_cut_months");
  const Citation from = inside.from;
  const std::string why =
      "New roots come from the cut ends; cut this far in they stay in the ball. In one trial with "
      "blue spruce the share of root surface in the ball rose from " +
      percent(c.best("transplant.moved.surface_uncut")) + " to " +
      percent(c.best("transplant.moved.surface_cut_ahead")) + " in five years.";
  if (!move.ball)
    return c.prescribe(
        "root cutting ahead",
        "Leave where and when roots are cut ahead to the specialist who sizes what "
        "is lifted; plan at least one full season for it.",
        "There is no ball figure to cut inside of.",
        {"penn-state-fall-hazard", "large plants more than a year ahead", Status::published});
  const Range radius{move.ball->value / 2 - inside.high, move.ball->value / 2 - inside.best,
                     move.ball->value / 2 - inside.low};
  std::string text = "Cut the roots cleanly in a ring " + lengths(c.amounts, radius) +
                     " from the middle of the stem, " + small_lengths(c.amounts, range_of(inside)) +
                     " inside the edge of the later ball and down to its depth, ";
  if (move.calliper.metres.best > c.best("transplant.root_cut_big_from")) {
    text += "more than a year before lifting, over " +
            fixed_number(c.best("transplant.root_cut_seasons"), 0) +
            " seasons: every other piece of the circle, half of it in all, each season";
  } else {
    text += numbers(range_of(months), 0) + " months before lifting";
  }
  text += "; in autumn for a move in spring. Soak the ground " +
          fixed_number(c.best("transplant.water_before"), 0) + " hours before.";
  return c.prescribe("root cutting ahead", std::move(text), why, from, {});
}

Prescription soaking(const MoveCase& c) {
  const Parameter& hours = c.tables.parameter("transplant.water_before");
  return c.prescribe(
      "soaking",
      "Soak the ground round the stem " + fixed_number(hours.best, 0) + " hours before digging.",
      "A moist ball holds together and the tree starts with its leaves full.", hours.from);
}

Prescription digging(const MoveCase& c, const WoodyMove& move, const TransplantAdvice& advice) {
  if (!move.ball)
    return c.prescribe("ball", advice.no_ball, "The tables of balls do not reach this tree.",
                       {"ansi-z60-1", "1.1, the end of its tables; recalled", Status::memory});
  const Range& wide = advice.ball->diameter_m;
  std::string text = "Dig a ball at least " + c.amounts.length(Length::metres(wide.low)) +
                     " across and " + c.amounts.length(Length::metres(advice.ball->depth_m.low)) +
                     " deep, measured from the root flare down";
  if (wide.high > wide.low)
    text += "; up to " + c.amounts.length(Length::metres(wide.high)) +
            " across where the lift allows, as other sources ask";
  text += ".";
  return c.prescribe("ball", std::move(text),
                     move.collected
                         ? "Ball by the table for its size, one size larger as for stock that was "
                           "not grown for lifting; soil above the flare does not count."
                         : "Ball by the table for its size; soil above the flare does not count.",
                     move.ball->from, {*move.ball, *move.depth});
}

Prescription lifting(const MoveCase& c, const TransplantAdvice& advice) {
  std::string text =
      "Lift it by the ball, never by the trunk; keep ball and trunk moist and shaded "
      "until it is planted";
  if (advice.total_weight_kg)
    text +=
        ". Ball, stem and crown weigh an estimated " + masses(c.amounts, *advice.total_weight_kg);
  text += ".";
  return c.prescribe("lifting", std::move(text),
                     "Bark tears and the ball breaks where the trunk carries the weight.",
                     {"uf-lifting", "lift by the ball", Status::published});
}

Prescription travel(const MoveCase& c) {
  const Parameter& width = c.tables.parameter("transplant.road_width");
  return c.prescribe("road",
                     "Ask for a road permit before lifting: the ball may be wider than " +
                         c.amounts.length(Length::metres(width.best)) + ".",
                     "Wider loads need a permit on roads in the United States; elsewhere local law "
                     "sets the width.",
                     width.from);
}

void prescribe(const MoveCase& c, const WoodyMove& move, TransplantAdvice& advice) {
  advice.before = {season(c), root_cutting(c, move), soaking(c)};
  if (advice.ball && advice.ball->wider_than_road) advice.before.push_back(travel(c));
  advice.lifting_day = {digging(c, move, advice), lifting(c, advice)};
  if (advice.total_weight_kg)
    advice.lifting_day.push_back(gear(c, advice, Mass::kilograms(advice.total_weight_kg->high)));
  const Citation hole = c.tables.parameter("transplant.hole_per_ball").from;
  const Citation set{hole.source, "ball slightly high, wrapping removed", hole.status};
  advice.planting = {
      c.prescribe("hole",
                  "Dig the hole at least " + fixed_number(c.best("transplant.hole_per_ball"), 0) +
                      " times as wide as the ball; take all wrapping off the ball.",
                  "New roots first grow through the soil next to the ball.", hole),
      c.prescribe("planting depth",
                  "Set it with its root flare in sight, the ball slightly above the ground round "
                  "it.",
                  "A ball settles, and a flare that is buried suffers.", set)};
  const Parameter& brace = c.tables.parameter("transplant.brace_months");
  const Parameter& mulch = c.tables.parameter("transplant.mulch");
  advice.after = {
      c.prescribe("bracing",
                  "Guy it to the ground or brace the ball for at least " +
                      fixed_number(brace.best, 0) + " months; look at the ties every season.",
                  "Until new roots hold it, the ball alone does.", brace.from),
      c.prescribe("irrigation",
                  "Water the ball itself, little and often, from the first day; never make up for "
                  "missed days by a larger amount.",
                  "The roots that are left drink from the ball alone, and how often cannot be made "
                  "up by how much.",
                  {"uf-moved-water", "frequency cannot be made up by volume", Status::published}),
      c.prescribe("mulch",
                  "Mulch " + small_lengths(c.amounts, range_of(mulch)) +
                      " round the ball, thin upon it and off the trunk.",
                  "Mulch keeps the ground moist; piled on the ball it keeps rain out.", mulch.from),
      c.prescribe("fertiliser", "Give no fertiliser at planting.",
                  "Towns that regulate the moving of trees ask for none.",
                  {"dania-beach-moving", "no fertiliser at planting", Status::published})};
  const bool cold = c.site.climate.hardiness_zone.value_or(0) <= kColdZones;
  if (advice.establishment_months)
    advice.after.push_back(c.prescribe(
        "recovery",
        "Water and inspect it for about " + numbers(*advice.establishment_months, 0) + " months" +
            std::string(cold ? ", or longer, as winters are cold here." : "."),
        "So long such trees took until they were established where they were irrigated; "
        "established "
        "means roots to about three times the dripline.",
        {"uf-establishment", "months per inch of calliper by zone", Status::published}));
}

}  // namespace

Outcome advise_woody(const MoveCase& c, TransplantAdvice& advice) {
  WoodyMove move;
  ROOTSTEAD_CHECK(size_up(c, move, advice));
  ROOTSTEAD_CHECK(tell_roots(c, move, advice));
  tell_recovery(c, move, advice);
  add_notes(c, move, advice);
  weigh_woody(c, advice, !move.ball);
  prescribe(c, move, advice);
  return Nothing{};
}

}  // namespace rootstead
