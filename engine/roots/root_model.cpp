// The root model of one tree: what works take of its draws, and what is said about them.
#include "engine/roots/root_model.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/roots/facing_sides.hpp"
#include "engine/roots/influence.hpp"
#include "engine/roots/loss_counter.hpp"
#include "engine/roots/next_pit.hpp"
#include "engine/roots/percentiles.hpp"
#include "engine/roots/quantities.hpp"
#include "engine/roots/root_picture.hpp"
#include "engine/roots/roots_met.hpp"
#include "engine/site/diameter.hpp"
#include "engine/soil/pressing.hpp"
#include "engine/tables/traits.hpp"

namespace rootstead {
namespace {

constexpr Length kTopOfSoil =
    Length::millimetres(150);              // where most absorbing roots are said to be
constexpr double kFewDraws = 30;           // that foretell a find: fewer are too few for a range
constexpr std::size_t kFewToKeep = 128;    // fields, kept sorted into rings
constexpr double kSpreadWorthAPit = 0.05;  // of the roots, from low to high

class GroundedModel final : public RootModel {
 public:
  explicit GroundedModel(RootSubject subject) : subject_(std::move(subject)) {}

  using RootModel::loss;
  RootLoss loss(const std::vector<GroundTaking>& takings, const RootSimulation& how,
                Explained explained) const override;
  RootEstimate estimate(const RootSimulation& how) const override;
  std::vector<RootsMet> thick_roots_met(const std::vector<GroundTaking>& takings,
                                        const RootSimulation& how) const override;
  Range share_in_cylinder(Length radius, Length depth, const RootSimulation& how) const override {
    return range_of(shares_in_cylinder(draws(how), subject_.stem(), radius, depth));
  }
  Length likely_extent() const override { return subject_.likely_extent(); }
  double plan_density(const Point& at) const override { return picture().plan_density(at); }
  double share_above(const Point& at, Length depth) const override {
    return picture().share_above(at, depth.metres());
  }

 private:
  const RootDraws& draws(const RootSimulation& how) const;
  void explain(const std::vector<double>& lost, const RootDraws& draws, RootLoss& loss) const;
  RootEstimate estimated(const RootDraws& draws) const;
  std::vector<Figure> figures(const RootEstimate& estimate) const;
  std::vector<Note> notes(const RootDraws& draws) const;
  std::vector<std::shared_ptr<SeenTaking>> seen(const std::vector<GroundTaking>& takings,
                                                const RootDraws& draws) const;
  Range pressed_share(const GroundTaking& taking) const;
  Length crown_radius() const;
  const RootPicture& picture() const;

  // What was last asked, by what was asked for: where one work of many is moved, the others lose
  // what they lost before.
  struct Kept {
    std::optional<RootDraws> draws;
    std::optional<RootEstimate> estimate;
    std::vector<std::shared_ptr<SeenTaking>> seen;
    std::vector<std::pair<std::vector<GroundTaking>, Range>> alone;
    std::vector<double> all_roots;  // LossCounter::all_roots(draws->fields)
    RingedFields ringed;            // of draws->fields, where they are few
    std::optional<PitPlaces> pits;
    std::vector<facing::KnownSide> sides;
    const Range* loss_of(const std::vector<GroundTaking>& takings) const;
  };

  RootSubject subject_;
  mutable Kept kept_;
  mutable std::unique_ptr<RootPicture> picture_;
};

const RootDraws& GroundedModel::draws(const RootSimulation& how) const {
  const bool same =
      kept_.draws && kept_.draws->how.seed == how.seed && kept_.draws->how.draws == how.draws;
  if (same) return *kept_.draws;
  kept_ = {};
  kept_.draws = draw_roots(subject_, how);
  return *kept_.draws;
}

const RootPicture& GroundedModel::picture() const {
  if (!picture_) picture_ = std::make_unique<RootPicture>(subject_);
  return *picture_;
}

// Working room beside a dig presses like wheels and storage do.
Range GroundedModel::pressed_share(const GroundTaking& taking) const {
  if (taking.pressed_share) return *taking.pressed_share;
  const Site& site = subject_.site;
  const Work* work = site.work(taking.work);
  if (work && !work->digs()) return pressing_effect(*work, site.soil, subject_.tables).share;
  return working_room_effect(site.soil, subject_.tables).share;
}

// Works in the order they first appear, each with the indices of its takings.
std::vector<std::pair<std::string, std::vector<std::size_t>>> by_work(
    const std::vector<GroundTaking>& takings) {
  std::vector<std::pair<std::string, std::vector<std::size_t>>> works;
  for (std::size_t i = 0; i < takings.size(); ++i) {
    auto found = std::find_if(works.begin(), works.end(),
                              [&](const auto& w) { return w.first == takings[i].work; });
    if (found == works.end()) found = works.insert(works.end(), {takings[i].work, {}});
    found->second.push_back(i);
  }
  return works;
}

std::vector<std::shared_ptr<SeenTaking>> GroundedModel::seen(
    const std::vector<GroundTaking>& takings, const RootDraws& draws) const {
  std::vector<std::shared_ptr<SeenTaking>> all;
  for (const GroundTaking& taking : takings) {
    const auto before = std::find_if(kept_.seen.begin(), kept_.seen.end(),
                                     [&](const auto& other) { return other->taking == taking; });
    all.push_back(before != kept_.seen.end()
                      ? *before
                      : std::make_shared<SeenTaking>(seen_taking(taking, draws, subject_.stem())));
  }
  return all;
}

const Range* GroundedModel::Kept::loss_of(const std::vector<GroundTaking>& takings) const {
  for (const auto& [before, range] : alone)
    if (before == takings) return &range;
  return nullptr;
}

RootLoss GroundedModel::loss(const std::vector<GroundTaking>& asked, const RootSimulation& how,
                             Explained explained) const {
  if (asked.empty()) return {};
  std::vector<GroundTaking> takings = asked;  // with nothing left to look up
  for (GroundTaking& taking : takings)
    if (taking.effect == GroundTaking::Effect::presses)
      taking.pressed_share = pressed_share(taking);
  const RootDraws& draws = this->draws(how);
  kept_.seen = seen(takings, draws);
  LossCounter counter(draws, kept_.seen);
  std::vector<std::size_t> all(takings.size());
  std::iota(all.begin(), all.end(), 0U);
  counter.add(all);
  RootLoss loss;
  decltype(kept_.alone) alone;
  std::vector<std::size_t> counted;  // of the works, by set after the first
  for (const auto& [work, parts] : by_work(takings)) {
    std::vector<GroundTaking> own;
    for (const std::size_t i : parts) own.push_back(takings[i]);
    const Range* known = kept_.loss_of(own);
    if (!known) {
      counter.add(parts);
      counted.push_back(loss.by_work.size());
    }
    loss.by_work.push_back({work, known ? *known : Range{}});
    alone.emplace_back(std::move(own), Range{});
  }
  if (kept_.all_roots.empty()) kept_.all_roots = counter.all_roots(draws.fields);
  const std::vector<std::vector<double>> lost =
      draws.fields.size() <= kFewToKeep ? counter.count(draws.fields, kept_.all_roots, kept_.ringed)
                                        : counter.count(draws.fields, kept_.all_roots);
  loss.all = range_of(lost.front());
  for (std::size_t set = 0; set < counted.size(); ++set)
    loss.by_work[counted[set]].alone = range_of(lost[set + 1]);
  for (std::size_t w = 0; w < alone.size(); ++w) alone[w].second = loss.by_work[w].alone;
  kept_.alone = std::move(alone);
  if (!draws.before.empty())
    loss.before_evidence =
        range_of(counter.count(draws.before, counter.all_roots(draws.before)).front());
  if (how.draws > 0 && explained == Explained::yes) explain(lost.front(), draws, loss);
  return loss;
}

void GroundedModel::explain(const std::vector<double>& lost, const RootDraws& draws,
                            RootLoss& loss) const {
  loss.influences =
      influences_on(lost, draws.fields, subject_.fields->input_ids(), subject_.tables);
  if (loss.all.high - loss.all.low < kSpreadWorthAPit || draws.laws.empty()) return;
  if (!kept_.pits) kept_.pits.emplace(subject_.stem(), draws.laws);
  loss.next_pit = kept_.pits->best(lost);
}

// Measured, or filled from the diameter for woody trees; nil where neither can be.
Length GroundedModel::crown_radius() const {
  const auto radius = crown_radius_of(subject_.tree, subject_.tables);
  if (radius.ok()) return radius->value;
  return subject_.tree.crown ? subject_.tree.crown->mean_radius() : Length();
}

Figure share_figure(std::string name, const Range& range, std::string formula) {
  return ranged_figure(std::move(name), range, "", std::move(formula),
                       {"rootstead", "docs/methods/roots.md", Status::assumption});
}

RootEstimate GroundedModel::estimate(const RootSimulation& how) const {
  const RootDraws& draws = this->draws(how);
  if (!kept_.estimate) kept_.estimate = estimated(draws);
  return *kept_.estimate;
}

Range extents_of(const std::vector<RootField>& fields) {
  std::vector<double> extents;
  for (const RootField& field : fields) extents.push_back(extent_of(field.spread));
  return range_of(std::move(extents));
}

RootEstimate GroundedModel::estimated(const RootDraws& draws) const {
  RootEstimate estimate;
  estimate.extent_m = extents_of(draws.fields);
  if (!draws.before.empty()) estimate.extent_before_evidence = extents_of(draws.before);
  estimate.share_in_top_150mm = range_of(shares_above(draws, kTopOfSoil));
  estimate.share_under_crown = range_of(shares_within(draws, subject_.stem(), crown_radius()));
  estimate.depth_beta = subject_.fields->central().depth.beta;
  estimate.hindrances = draws.hindrances;
  estimate.figures = figures(estimate);
  estimate.notes = notes(draws);
  return estimate;
}

std::vector<Figure> GroundedModel::figures(const RootEstimate& estimate) const {
  std::vector<Figure> figures = subject_.fields->figures();
  for (Figure& figure : figures)
    if (figure.name == "roots.extent") figure.range = estimate.extent_m;
  figures.push_back(share_figure("roots.share-in-top-150mm", estimate.share_in_top_150mm,
                                 "depth law at 15 cm, over the whole root spread"));
  figures.push_back(share_figure("roots.share-under-crown", estimate.share_under_crown,
                                 "roots within a circle of the mean crown radius, " +
                                     fixed_number(crown_radius().metres(), 2) + " m"));
  const auto quantities = root_quantities(subject_.tree, subject_.tables);
  if (quantities.ok())
    figures.insert(figures.end(), quantities->figures.begin(), quantities->figures.end());
  return figures;
}

// Roots of palms are all thin: nothing is met that a report speaks of.
std::vector<RootsMet> GroundedModel::thick_roots_met(const std::vector<GroundTaking>& takings,
                                                     const RootSimulation& how) const {
  const RootDraws& draws = this->draws(how);
  if (draws.laws.empty()) return {};
  WayTravelled travelled;
  if (draws.travel)
    travelled = [&stem = subject_.stem(), &map = *draws.travel](const Point& at) {
      const double straight = distance(stem, at).metres();
      return map.grid().index_at(at) ? std::max(map.at(at), straight) : straight;
    };
  return roots_met(draws.laws, subject_.stem(), takings, travelled, &kept_.sides);
}

std::vector<Note> GroundedModel::notes(const RootDraws& draws) const {
  const std::string& label = subject_.tree.label();
  std::vector<Note> notes = subject_.fields->notes();
  notes.insert(notes.begin(),
               {NoteCode::root_estimate, label,
                "roots are drawn from published averages: the true roots of this tree differ"});
  if (!draws.hindrances.empty())
    notes.push_back({NoteCode::hindered_roots, label,
                     "roots are turned aside or thinned by " + joined(draws.hindrances, ", ") +
                         "; how easily they pass is our assumption"});
  if (!draws.find.used.empty()) {
    std::string text = "narrowed by what was found on site: " + joined(draws.find.used, ", ");
    if (draws.find.effective_draws < kFewDraws)
      text += "; hardly any draw foretold it, so the range is too narrow: trust the find";
    notes.push_back({NoteCode::evidence_used, label, text});
  }
  if (!draws.find.apart.empty())
    notes.push_back({NoteCode::evidence_not_used, label,
                     "found on site, but beyond the reach of its roots in every draw: " +
                         joined(draws.find.apart, ", ")});
  if (!subject_.thick && !evidence_for(subject_.tree, subject_.site).empty())
    notes.push_back({NoteCode::evidence_not_used, label,
                     "what was found on site does not narrow the estimate of a palm"});
  if (!subject_.tree.crown && crown_radius() > Length())
    notes.push_back({NoteCode::crown_filled, label,
                     "the share under the crown uses a crown filled from the diameter"});
  return notes;
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

Result<std::unique_ptr<RootModel>> root_model(const Tree& tree, const Site& site,
                                              const Tables& tables) {
  if (!tree.position)
    return missing(tree, "it has no position, so its roots have no place", "enter its position");
  const Species* species = tables.species_of(tree.botanical_name);
  const auto diameter = combined_diameter(tree, {});
  std::unique_ptr<FieldSource> source;
  std::optional<ThickRootSource> thick;
  if (roots_like_a_palm(tree, species)) {
    const std::optional<Length> trunk = diameter ? std::optional(*diameter) : std::nullopt;
    source = fibrous_fields(tree, trunk, species, site.soil, tables);
  } else if (!diameter) {
    return diameter.error();
  } else {
    source = woody_fields(tree, *diameter, species, site.soil, tables);
    thick.emplace(tree, *diameter, species, tables);
  }
  return std::unique_ptr<RootModel>(
      std::make_unique<GroundedModel>(RootSubject{tree, site, tables, std::move(source), thick}));
}

}  // namespace rootstead
