#include "engine/anchorage/inspection.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr double kNearUnits = 3;     // Smiley 2008: loss was measured inside three diameters
constexpr double kSideUnits = 6;     // sides are counted out to here
constexpr int kOneSideDegrees = 90;  // no straight cut is met further round than this
constexpr double kThird = 1.0 / 3;
constexpr double kPalmBall = 0.30;  // m: holds most roots of most palms (Hodel 2005)
constexpr double kRootZone = 0.15;  // m: where a palm's roots begin (Hodel 2005)
constexpr Length kSmallestTested = Length::metres(0.08);
constexpr Length kLargestTested = Length::metres(1.0);

int turn_between(int a, int b) {
  const int apart = std::abs(a - b) % kRoseRays;
  return std::min(apart, kRoseRays - apart);
}

void add_ray(CutFacts& facts, const CutRose& rose, int ray, const AnchorageShares& shares) {
  const double unit = rose.trunk().unit;
  double deepest_near = 0;
  for (const CutRose::Step& step : rose.rays()[static_cast<std::size_t>(ray)]) {
    const double away = std::max(0.0, step.distance - rose.trunk().face);
    if (!facts.nearest || away < *facts.nearest) {
      facts.nearest = away;
      facts.nearest_ray = ray;
    }
    if (away <= kNearUnits * unit) deepest_near = step.depth;
    if (step.depth > away) facts.deeper_than_far = true;
    if (away <= kSideUnits * unit &&
        (facts.rays_within_sides.empty() || facts.rays_within_sides.back() != ray))
      facts.rays_within_sides.push_back(ray);
  }
  if (deepest_near <= 0) return;
  facts.circumference_cut += 1.0 / kRoseRays;
  facts.area_cut += depth_share(deepest_near, shares) / kRoseRays;
}

void add_palm_reasons(std::vector<std::string>& reasons, const CutFacts& facts) {
  if (*facts.nearest < kRootZone)
    reasons.push_back(
        "a cut enters the zone at the trunk where this palm's roots begin: nothing is known "
        "about what then holds");
  else if (*facts.nearest < kPalmBall)
    reasons.push_back("a cut comes within 0.30 m of the palm's trunk, where most of its roots are");
}

void add_cut_reasons(std::vector<std::string>& reasons, const CutFacts& facts, bool palm) {
  if (*facts.nearest <= 0) reasons.push_back("the excavation goes under the trunk");
  if (!palm && facts.circumference_cut > 0)
    reasons.push_back("a cut comes within 3 stem diameters of the trunk face");
  if (facts.circumference_cut > kThird || facts.area_cut > kThird)
    reasons.push_back("more than a third of the circle round the stem is cut (" +
                      percent(facts.circumference_cut, 0) + ")");
  if (facts.several_sides) reasons.push_back("cuts lie on two or more sides of the stem");
  if (facts.deeper_than_far && *facts.nearest > 0)
    reasons.push_back(
        "the excavation is deeper than its distance from the trunk: the ground beside it may "
        "give way");
}

void add_tree_reasons(std::vector<std::string>& reasons, const CutFacts& facts,
                      const InspectionContext& context) {
  const Tree& tree = *context.tree;
  const auto best = [&](const char* name) { return context.tables->parameter(name).best; };
  if (tree.lean &&
      tree.lean->from_vertical >= Angle::degrees(best("anchorage.lean_that_matters")) &&
      facts.windward_of(tree.lean->towards))
    reasons.push_back("the tree leans and a cut lies on the side away from the lean");
  if (context.architecture == RootArchitecture::plate)
    reasons.push_back("the root plate is shallow");
  if (context.soil->drainage == Drainage::poor)
    reasons.push_back("the soil drains poorly: saturated ground holds far less");
  if (context.soil->water_table &&
      context.soil->water_table->length() < Length::metres(best("anchorage.high_water")))
    reasons.push_back("the water table is high: saturated ground holds far less");
  if (tree.condition == Condition::poor || tree.condition == Condition::dead)
    reasons.push_back("the tree is in poor condition: look for root decay and recent movement");
  if (tree.flare.state == Flare::State::buried)
    reasons.push_back("the root flare is buried: decay or strangling roots may be hidden");
}

}  // namespace

bool CutFacts::windward_of(Angle lean) const {
  return std::any_of(rays_within_sides.begin(), rays_within_sides.end(), [&](int ray) {
    return std::cos(Angle::degrees(ray).radians() - lean.radians()) < 0;
  });
}

CutFacts facts_of(const CutRose& rose, const AnchorageShares& shares) {
  CutFacts facts;
  for (int ray = 0; ray < kRoseRays; ++ray) add_ray(facts, rose, ray, shares);
  facts.within_sides = !facts.rays_within_sides.empty();
  facts.several_sides =
      std::any_of(facts.rays_within_sides.begin(), facts.rays_within_sides.end(),
                  [&](int ray) { return turn_between(ray, facts.nearest_ray) > kOneSideDegrees; });
  return facts;
}

std::vector<std::string> reasons_to_inspect(const CutFacts& facts,
                                            const InspectionContext& context) {
  std::vector<std::string> reasons;
  if (!facts.within_sides) return reasons;
  if (context.palm) add_palm_reasons(reasons, facts);
  add_cut_reasons(reasons, facts, context.palm);
  add_tree_reasons(reasons, facts, context);
  if (!context.palm && context.diameter > kLargestTested)
    reasons.push_back("the stem is thicker than any tree ever tested");
  return reasons;
}

bool outside_tests(const CutFacts& facts, const InspectionContext& context) {
  if (context.palm) return facts.nearest && *facts.nearest < kPalmBall;
  return context.diameter < kSmallestTested || context.diameter > kLargestTested;
}

}  // namespace rootstead
