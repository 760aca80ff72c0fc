#include "engine/assess/tree_assessor.hpp"

#include <algorithm>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/site/diameter.hpp"

namespace rootstead {
namespace {

// A tree is simulated where a work comes within this many times the best estimate of its extent:
// the extent passes that in fewer than one draw in ten, so that nothing farther away moves low,
// best or high off zero (a test watches it). Works are then taken in from farther out. Our choice.
constexpr double kExtentsToMatter = 1.75;
constexpr double kExtentsSearched = 2;
// Cuts are looked for out to this many stem diameters, and at least this far: at ten diameters a
// severed root holds as if it were whole (docs/methods/anchorage.md). Our choice.
constexpr double kDiametersSearched = 10;
constexpr Length kLeastCutSearch = Length::metres(3);

Length trunk_diameter(const Tree& tree) {
  const auto diameter = combined_diameter(tree, {});
  return diameter.ok() ? *diameter : Length();
}

Length cut_search(const Tree& tree) {
  return std::max(trunk_diameter(tree) * kDiametersSearched, kLeastCutSearch);
}

bool any_within(const std::vector<GroundTaking>& takings, const Tree& tree, Length reach) {
  return std::any_of(takings.begin(), takings.end(), [&](const GroundTaking& taking) {
    return distance_between(tree.position->at, taking.area) <= reach;
  });
}

}  // namespace

Stopwatch::Stopwatch(const std::function<double()>& clock) : clock_(clock) {
  if (clock_) last_ = clock_();
}

void Stopwatch::lap(double& stage) {
  if (!clock_) return;
  const double now = clock_();
  stage += now - last_;
  last_ = now;
}

TreeAssessor::TreeAssessor(const Site& site, const Tables& tables, const WorkMap& works,
                           std::vector<const ZoneRule*> rules, const AssessOptions& options,
                           RootModels& models)
    : site_(site),
      tables_(tables),
      works_(works),
      rules_(std::move(rules)),
      options_(options),
      models_(models) {}

void GroundChange::add(MultiPolygon area) {
  const Box box = box_of(area);
  if (!box.empty()) areas_.emplace_back(box, std::move(area));
}

bool GroundChange::within(Length reach, const Point& at) const {
  return std::any_of(areas_.begin(), areas_.end(), [&](const auto& one) {
    return distance(at, one.first) <= reach && distance_between(at, one.second) <= reach;
  });
}

bool GroundChange::merged_within(const Zone& zone) const {
  return std::any_of(merged_anew.begin(), merged_anew.end(),
                     [&](const Box& box) { return distance(zone.centre, box) <= zone.reach; });
}

TreeAssessment TreeAssessor::assess(const Tree& tree, StageTimes& times) const {
  return assess(tree, Before{}, times);
}

TreeAssessment TreeAssessor::assess_again(const Tree& tree, const GroundChange& change,
                                          const TreeAssessment& before, StageTimes& times) const {
  return assess(tree, {&before, &change}, times);
}

TreeAssessment TreeAssessor::assess(const Tree& tree, const Before& before,
                                    StageTimes& times) const {
  Stopwatch watch(options_.clock);
  TreeAssessment result;
  result.tree = tree.id;
  for (const ZoneRule* rule : rules_) {
    for (Zone& zone : zones(tree, *rule, result)) {
      result.zones.push_back({std::move(zone), {}, {}});
    }
  }
  watch.lap(times.zones);
  if (tree.position) {
    add_losses(tree, before, result);
    watch.lap(times.losses);
    add_roots(tree, before, result);
    watch.lap(times.roots);
    add_anchorage(tree, before, result);
    watch.lap(times.anchorage);
  }
  add_notes(tree, result);
  result.verdict = verdict(tree, result);
  watch.lap(times.verdicts);
  return result;
}

std::vector<Zone> TreeAssessor::zones(const Tree& tree, const ZoneRule& rule,
                                      TreeAssessment& result) const {
  auto zones = zones_of(tree, rule, tables_, site_.barriers);
  if (zones.ok()) return std::move(zones).value();
  result.rules_not_applied.push_back(zones.error());
  return {};
}

void TreeAssessor::add_losses(const Tree& tree, const Before& before,
                              TreeAssessment& result) const {
  for (std::size_t i = 0; i < result.zones.size(); ++i) {
    ZoneAssessment& one = result.zones[i];
    if (before.holds(search_of(one.zone, tree), tree) && !before.change->merged_within(one.zone)) {
      one.loss = before.assessed->zones[i].loss;
      one.limits = before.assessed->zones[i].limits;
      continue;
    }
    one.loss =
        zone_loss(one.zone, works_, options_.answers_only ? Beyond::left_out : Beyond::counted);
    const auto rule = std::find_if(rules_.begin(), rules_.end(), [&](const ZoneRule* candidate) {
      return candidate->id == one.zone.rule;
    });
    if (rule != rules_.end())
      one.limits = check_limits(**rule, {one.zone}, {one.loss}, tree, works_);
  }
}

// A tree with no work in reach loses nothing, and that needs no simulation.
void TreeAssessor::add_roots(const Tree& tree, const Before& before, TreeAssessment& result) const {
  const auto model = models_.of(tree);
  if (!model) return;
  const Length extent = model->likely_extent();
  if (before.holds(extent * kExtentsSearched, tree) && !before.change->in_the_ground) {
    result.roots = before.assessed->roots;
    result.estimate = before.assessed->estimate;
    result.roots_met = before.assessed->roots_met;
    return;
  }
  const auto takings = takings_near(tree, extent * kExtentsSearched, works_);
  if (!any_within(takings, tree, extent * kExtentsToMatter)) {
    result.roots.emplace();
    return;
  }
  using Explained = RootModel::Explained;
  const Explained explained = options_.answers_only ? Explained::no : Explained::yes;
  result.roots = model->loss(takings, options_.simulation, explained);
  result.estimate = model->estimate(options_.simulation);
  if (!options_.answers_only)
    result.roots_met = model->thick_roots_met(takings, options_.simulation);
}

void TreeAssessor::add_anchorage(const Tree& tree, const Before& before,
                                 TreeAssessment& result) const {
  const Length reach = cut_search(tree);
  if (before.holds(reach, tree)) {
    result.anchorage = before.assessed->anchorage;
    return;
  }
  const AnchorageContext context{site_.soil, site_.wind, site_.barriers, site_.evidence};
  auto kept = anchorage_of(tree, cuts_near(tree, reach, works_), tables_, context);
  if (kept.ok()) result.anchorage = std::move(kept).value();
}

// A limit of distance may look beyond the zone it belongs to, counted from the bark.
Length TreeAssessor::search_of(const Zone& zone, const Tree& tree) const {
  using Measure = LimitDefinition::Measure;
  Length search = zone.reach;
  for (const ZoneRule* rule : rules_) {
    if (rule->id != zone.rule) continue;
    for (const LimitDefinition& limit : rule->limits) {
      const Length from = trunk_diameter(tree);
      if (limit.measure == Measure::nearest_approach)
        search = std::max(search, from + zone.radius * std::max(limit.threshold, 1.0));
      if (limit.measure == Measure::nearest_distance)
        search = std::max(search, from + limit.depth.length());
    }
  }
  return search;
}

Length TreeAssessor::reach(const Tree& tree, const TreeAssessment& assessed) const {
  if (!tree.position) return {};
  Length reach = cut_search(tree);
  if (const auto model = models_.of(tree))
    reach = std::max(reach, model->likely_extent() * kExtentsSearched);
  for (const ZoneAssessment& one : assessed.zones)
    reach = std::max(reach, search_of(one.zone, tree));
  return reach;
}

Verdict TreeAssessor::verdict(const Tree& tree, const TreeAssessment& result) const {
  VerdictInputs inputs;
  inputs.tree = &tree;
  inputs.species = tables_.species_of(tree.botanical_name);
  inputs.roots = result.roots;
  inputs.anchorage = result.anchorage;
  inputs.notes = result.notes;
  inputs.works = &site_.works;
  inputs.not_applied = result.rules_not_applied;
  inputs.units = site_.settings.units;
  for (const ZoneAssessment& one : result.zones) {
    inputs.zones.push_back(&one.zone);
    inputs.limits.insert(inputs.limits.end(), one.limits.begin(), one.limits.end());
  }
  inputs.works_in_zones = new_works_in_zones(result);
  if (tree.position) inputs.works_on_stem = works_on_stem(tree, trunk_diameter(tree) / 2, works_);
  return verdict_of(inputs, tables_);
}

}  // namespace rootstead
