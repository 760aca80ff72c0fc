// The first root estimate: a separable field without barriers. Clearly marked as such: every
// estimate carries NoteCode::first_estimate and NoteCode::barriers_not_modelled.
#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/roots/field_source.hpp"
#include "engine/roots/percentiles.hpp"
#include "engine/roots/root_model.hpp"
#include "engine/roots/taken_ground.hpp"
#include "engine/site/diameter.hpp"
#include "engine/soil/pressing.hpp"

namespace rootstead {
namespace {

constexpr double kTopOfSoil = 0.150;  // m: where most absorbing roots are said to be

class FirstEstimate final : public RootModel {
 public:
  FirstEstimate(const Tree& tree, const Site& site, const Tables& tables,
                std::unique_ptr<FieldSource> source)
      : tree_(tree), site_(site), tables_(tables), source_(std::move(source)) {}

  RootLoss loss(const std::vector<GroundTaking>& takings, const RootSimulation& how) const override;
  RootEstimate estimate(const RootSimulation& how) const override;
  double plan_density(const Point& at) const override;
  double share_above(const Point& at, Length depth) const override;

 private:
  std::vector<RootField> fields(const RootSimulation& how) const;
  RayedTaking rayed_taking(const GroundTaking& taking, double reach) const;
  Range pressed_share(const GroundTaking& taking) const;
  double crown_radius() const;
  double distance_from_stem(const Point& at) const {
    return distance(tree_.position->at, at).metres();
  }

  const Tree& tree_;
  const Site& site_;
  const Tables& tables_;
  std::unique_ptr<FieldSource> source_;
};

// No draws: the central values alone.
std::vector<RootField> FirstEstimate::fields(const RootSimulation& how) const {
  if (how.draws <= 0) return {source_->central()};
  RandomStream random(how.seed, tree_.id);
  std::vector<RootField> drawn;
  drawn.reserve(static_cast<std::size_t>(how.draws));
  for (int i = 0; i < how.draws; ++i) drawn.push_back(source_->draw(random));
  return drawn;
}

double widest(const std::vector<RootField>& fields) {
  double extent = 0;
  for (const RootField& field : fields) extent = std::max(extent, extent_of(field.spread));
  return extent;
}

// Working room beside a dig presses like wheels and storage do.
Range FirstEstimate::pressed_share(const GroundTaking& taking) const {
  if (taking.pressed_share) return *taking.pressed_share;
  const Work* work = site_.work(taking.work);
  if (work && !work->digs()) return pressing_effect(*work, site_.soil, tables_).share;
  return working_room_effect(site_.soil, tables_).share;
}

RayedTaking FirstEstimate::rayed_taking(const GroundTaking& taking, double reach) const {
  RayedTaking result = rayed(tree_.position->at, taking.area, reach);
  result.severs = taking.effect == GroundTaking::Effect::severs;
  result.depth = taking.depth.metres();
  if (!result.severs) result.pressed = pressed_share(taking);
  return result;
}

// Works in the order they first appear, each with its takings.
std::vector<std::pair<std::string, std::vector<const RayedTaking*>>> by_work(
    const std::vector<GroundTaking>& takings, const std::vector<RayedTaking>& rayed) {
  std::vector<std::pair<std::string, std::vector<const RayedTaking*>>> works;
  for (std::size_t i = 0; i < takings.size(); ++i) {
    auto found = std::find_if(works.begin(), works.end(),
                              [&](const auto& w) { return w.first == takings[i].work; });
    if (found == works.end()) found = works.insert(works.end(), {takings[i].work, {}});
    found->second.push_back(&rayed[i]);
  }
  return works;
}

RootLoss FirstEstimate::loss(const std::vector<GroundTaking>& takings,
                             const RootSimulation& how) const {
  if (takings.empty()) return {};
  const std::vector<RootField> drawn = fields(how);
  const double reach = widest(drawn);
  const Rings rings(reach, source_->central().spread);

  std::vector<RayedTaking> all_rayed;
  for (const GroundTaking& taking : takings) all_rayed.push_back(rayed_taking(taking, reach));
  std::vector<const RayedTaking*> all;
  for (const RayedTaking& taking : all_rayed) all.push_back(&taking);

  const std::vector<double> depths = depths_of(all_rayed);
  const TakenGround together(all, rings, depths);
  RootLoss loss;
  std::vector<TakenGround> alone;
  for (const auto& [work, parts] : by_work(takings, all_rayed)) {
    loss.by_work.push_back({work, {}});
    alone.emplace_back(parts, rings, depths);
  }

  std::vector<double> of_all;
  std::vector<std::vector<double>> of_work(alone.size());
  for (const RootField& field : drawn) {
    const RingedField ringed(field, rings, depths);
    of_all.push_back(together.lost(ringed));
    for (std::size_t w = 0; w < alone.size(); ++w) of_work[w].push_back(alone[w].lost(ringed));
  }
  loss.all = range_of(of_all);
  for (std::size_t w = 0; w < alone.size(); ++w) loss.by_work[w].alone = range_of(of_work[w]);
  return loss;
}

// Measured, or filled from the diameter for woody trees; 0 where neither can be.
double FirstEstimate::crown_radius() const {
  if (tree_.crown) return tree_.crown->mean_radius().metres();
  if (roots_like_a_palm(tree_, tables_.species_of(tree_.botanical_name))) return 0;
  const auto diameter = combined_diameter(tree_, {});
  return diameter ? tables_.parameter("roots.crown_radius_per_diameter").best * diameter->metres()
                  : 0;
}

Figure share_figure(std::string name, const Range& range, std::string formula) {
  Figure figure;
  figure.name = std::move(name);
  figure.value = range.best;
  figure.range = range;
  figure.formula = std::move(formula);
  figure.from = {"rootstead", "docs/methods/roots.md", Status::assumption};
  return figure;
}

RootEstimate FirstEstimate::estimate(const RootSimulation& how) const {
  const std::vector<RootField> drawn = fields(how);
  const Rings rings(widest(drawn), source_->central().spread);
  const double crown = crown_radius();
  std::vector<double> extents, top_shares, under_crown;
  for (const RootField& field : drawn) {
    extents.push_back(extent_of(field.spread));
    top_shares.push_back(RingedField(field, rings, {kTopOfSoil}).share_above(0));
    under_crown.push_back(share_within(field.spread, crown));
  }

  RootEstimate estimate;
  estimate.extent_m = range_of(extents);
  estimate.share_in_top_150mm = range_of(top_shares);
  estimate.share_under_crown = range_of(under_crown);
  estimate.depth_beta = source_->central().depth.beta;
  estimate.figures = source_->figures();
  for (Figure& figure : estimate.figures)
    if (figure.name == "roots.extent") figure.range = estimate.extent_m;
  estimate.figures.push_back(share_figure("roots.share-in-top-150mm", estimate.share_in_top_150mm,
                                          "depth law at 15 cm, over the whole root spread"));
  estimate.figures.push_back(share_figure(
      "roots.share-under-crown", estimate.share_under_crown,
      "roots within a circle of the mean crown radius, " + fixed_number(crown, 2) + " m"));
  estimate.notes = source_->notes();
  estimate.notes.insert(
      estimate.notes.begin(),
      {{NoteCode::first_estimate, tree_.label(),
        "a first estimate from published averages: the true roots of this tree differ"},
       {NoteCode::barriers_not_modelled, tree_.label(),
        "walls, kerbs, paving and the layers of the soil do not yet turn the roots aside in this "
        "estimate: beside them it can be far off"}});
  if (!tree_.crown && crown > 0)
    estimate.notes.push_back({NoteCode::crown_filled, tree_.label(),
                              "the share under the crown uses a crown filled from the diameter"});
  return estimate;
}

double FirstEstimate::plan_density(const Point& at) const {
  return density(source_->central().spread, distance_from_stem(at));
}

double FirstEstimate::share_above(const Point& at, Length depth) const {
  const RootField field = source_->central();
  const double relative = std::min(1.0, distance_from_stem(at) / extent_of(field.spread));
  return field.depth.share_above(depth.metres(), relative);
}

Error missing(const Tree& tree, std::string what, std::string remedy) {
  return {Code::missing_measurement, "tree " + tree.label(), std::move(what), std::move(remedy)};
}

}  // namespace

bool roots_like_a_palm(const Tree& tree, const Species* species) {
  const auto monocot = [](GrowthForm form) {
    return form == GrowthForm::palm || form == GrowthForm::other_monocot;
  };
  return monocot(tree.form) || (species && monocot(species->form));
}

Result<std::unique_ptr<RootModel>> first_estimate(const Tree& tree, const Site& site,
                                                  const Tables& tables) {
  if (!tree.position)
    return missing(tree, "it has no position, so its roots have no place", "enter its position");
  const Species* species = tables.species_of(tree.botanical_name);
  const auto diameter = combined_diameter(tree, {});
  std::unique_ptr<FieldSource> source;
  if (roots_like_a_palm(tree, species)) {
    const std::optional<Length> trunk = diameter ? std::optional(*diameter) : std::nullopt;
    source = fibrous_fields(tree, trunk, species, site.soil, tables);
  } else if (!diameter) {
    return diameter.error();
  } else {
    source = woody_fields(tree, *diameter, species, site.soil, tables);
  }
  return std::unique_ptr<RootModel>(
      std::make_unique<FirstEstimate>(tree, site, tables, std::move(source)));
}

}  // namespace rootstead
