// The root model of one tree: draws of its field, the ways its roots come, and what works take.
#include "engine/roots/root_model.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/roots/field_source.hpp"
#include "engine/roots/influence.hpp"
#include "engine/roots/percentiles.hpp"
#include "engine/roots/taken_ground.hpp"
#include "engine/site/diameter.hpp"
#include "engine/soil/pressing.hpp"

namespace rootstead {
namespace {

constexpr double kTopOfSoil = 0.150;  // m: where most absorbing roots are said to be
// The grid on which roots find their way reaches so many of the likely extents; beyond, few draws
// have roots, and those run straight on.
constexpr double kGridExtents = 1.6;
constexpr Length kCell = Length::metres(0.2);
constexpr double kAllDepths = std::numeric_limits<double>::infinity();

// How easily roots pass half-open ground is drawn too; three grounds stand for its whole range.
constexpr std::array<double, 3> kLeaks = {-1, 0, 1};
std::size_t leak_of(const RootField& field) {
  constexpr double kThird = 1.0 / 3;
  return field.leak < -kThird ? 0 : field.leak > kThird ? 2 : 1;
}

// A taking as rays and grid see it. Kept from one question to the next: where one work of many is
// moved, the others are as they were.
struct SeenTaking {
  GroundTaking taking;
  RayedTaking rayed;
  LaidTaking laid;
};

// Everything about the draws that no work changes, and what was last asked of them.
struct Prepared {
  RootSimulation how;
  std::vector<RootField> fields;
  Rings rings;
  std::vector<Ways> ways;  // one for each of kLeaks, or one for all
  std::vector<std::string> hindrances;
  std::vector<std::shared_ptr<SeenTaking>> seen = {};                   // when last asked
  std::vector<std::pair<std::vector<GroundTaking>, Range>> alone = {};  // the same, by work

  std::optional<RootEstimate> estimate = {};

  std::size_t ways_of(const RootField& field) const {
    return ways.size() == 1 ? 0 : leak_of(field);
  }
};

class GroundedModel final : public RootModel {
 public:
  GroundedModel(const Tree& tree, const Site& site, const Tables& tables,
                std::unique_ptr<FieldSource> source)
      : tree_(tree), site_(site), tables_(tables), source_(std::move(source)) {}

  RootLoss loss(const std::vector<GroundTaking>& takings, const RootSimulation& how) const override;
  RootEstimate estimate(const RootSimulation& how) const override;
  Length likely_extent() const override {
    return Length::metres(extent_of(source_->central().spread));
  }
  double plan_density(const Point& at) const override;
  double share_above(const Point& at, Length depth) const override;

 private:
  std::vector<RootField> fields(const RootSimulation& how) const;
  Prepared& prepared(const RootSimulation& how) const;
  std::vector<std::shared_ptr<SeenTaking>> seen(const std::vector<GroundTaking>& takings,
                                                const Prepared& draws) const;
  static const Range* known_loss(const std::vector<GroundTaking>& takings, const Prepared& draws);
  void find_ways(Prepared& draws) const;
  std::vector<double> shares_above(const Prepared& draws, double depth) const;
  std::vector<double> shares_within(const Prepared& draws, double radius) const;
  RootEstimate estimated(const Prepared& draws) const;
  std::vector<Note> notes(const Prepared& draws) const;
  RayedTaking rayed_taking(const GroundTaking& taking, double reach) const;
  Range pressed_share(const GroundTaking& taking) const;
  double crown_radius() const;
  struct Picture;
  const Picture& picture() const;
  double density_above(const Point& at, double depth) const;
  double distance_from_stem(const Point& at) const { return distance(stem(), at).metres(); }
  const Point& stem() const { return tree_.position->at; }

  const Tree& tree_;
  const Site& site_;
  const Tables& tables_;
  std::unique_ptr<FieldSource> source_;
  mutable std::optional<Prepared> prepared_;
  mutable std::unique_ptr<Picture> picture_;
};

// No draws: the central values alone.
std::vector<RootField> GroundedModel::fields(const RootSimulation& how) const {
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

Prepared& GroundedModel::prepared(const RootSimulation& how) const {
  if (prepared_ && prepared_->how.seed == how.seed && prepared_->how.draws == how.draws)
    return *prepared_;
  std::vector<RootField> drawn = fields(how);
  const Rings rings(widest(drawn), source_->central().spread);
  prepared_ = Prepared{how, std::move(drawn), rings, {}, {}, {}, {}, {}};
  find_ways(*prepared_);
  return *prepared_;
}

// Does the ease of passing anything here lie between nothing and all, so that it is uncertain?
bool half_open(const GroundMap& ground) {
  const auto between = [](double share) { return share > 0 && share < 1; };
  return std::any_of(ground.layers.begin(), ground.layers.end(), [&](const GroundLayer& layer) {
    return std::any_of(layer.speed.begin(), layer.speed.end(), between) ||
           std::any_of(layer.rooting.begin(), layer.rooting.end(), between);
  });
}

void GroundedModel::find_ways(Prepared& draws) const {
  const Length reach =
      std::min(Length::metres(draws.rings.reach()), likely_extent() * kGridExtents);
  const GroundMap usual = ground_round(tree_, site_, tables_, reach, kCell);
  draws.hindrances = usual.barriers;
  if (usual.open()) {
    draws.ways.emplace_back(draws.rings);
    return;
  }
  if (!half_open(usual) || draws.how.draws <= 0) {
    draws.ways.emplace_back(usual, stem(), draws.rings);
    return;
  }
  for (const double leak : kLeaks)
    draws.ways.emplace_back(ground_round(tree_, site_, tables_, reach, kCell, leak), stem(),
                            draws.rings);
}

// Working room beside a dig presses like wheels and storage do.
Range GroundedModel::pressed_share(const GroundTaking& taking) const {
  if (taking.pressed_share) return *taking.pressed_share;
  const Work* work = site_.work(taking.work);
  if (work && !work->digs()) return pressing_effect(*work, site_.soil, tables_).share;
  return working_room_effect(site_.soil, tables_).share;
}

RayedTaking GroundedModel::rayed_taking(const GroundTaking& taking, double reach) const {
  RayedTaking result = rayed(stem(), taking.area, reach);
  result.severs = taking.effect == GroundTaking::Effect::severs;
  result.depth = taking.depth.metres();
  if (!result.severs) result.pressed = *taking.pressed_share;
  return result;
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

// Takings laid on every ground once, and asked for every draw.
class LossCounter {
 public:
  LossCounter(const Prepared& draws, const std::vector<std::shared_ptr<SeenTaking>>& takings)
      : draws_(draws) {
    std::vector<const LaidTaking*> laid;
    for (const auto& seen : takings) {
      rayed_.push_back(seen->rayed);
      laid.push_back(&seen->laid);
    }
    for (const Ways& ways : draws.ways) {
      marks_.push_back(ways.open() ? WayMarks{} : ways.marks(laid));
      depths_.push_back(depths_of(rayed_, ways));
      whole_.push_back(TakenGround::everything(ways, draws.rings, depths_.back(), kAllDepths));
    }
  }

  // Returns the number of the set.
  std::size_t add(const std::vector<std::size_t>& subset) {
    std::vector<TakenGround> grounds;
    for (std::size_t g = 0; g < draws_.ways.size(); ++g)
      grounds.emplace_back(rayed_, subset, draws_.ways[g], marks_[g], draws_.rings, depths_[g]);
    sets_.push_back(std::move(grounds));
    return sets_.size() - 1;
  }

  // By set, then by draw: the share of the roots lost.
  std::vector<std::vector<double>> count() const {
    std::vector<std::vector<double>> lost(sets_.size());
    for (const RootField& field : draws_.fields) {
      const std::size_t g = draws_.ways_of(field);
      const RingedField ringed(field, draws_.rings, depths_[g]);
      const double all = draws_.ways[g].open() ? 1 : whole_[g].taken(ringed);
      for (std::size_t set = 0; set < sets_.size(); ++set) {
        const double taken = sets_[set][g].taken(ringed);
        lost[set].push_back(all > 0 ? std::clamp(taken / all, 0.0, 1.0) : 0);
      }
    }
    return lost;
  }

 private:
  const Prepared& draws_;
  std::vector<RayedTaking> rayed_;
  std::vector<WayMarks> marks_;
  std::vector<std::vector<double>> depths_;
  std::vector<TakenGround> whole_;
  std::vector<std::vector<TakenGround>> sets_;
};

// As seen before, or now.
std::vector<std::shared_ptr<SeenTaking>> GroundedModel::seen(
    const std::vector<GroundTaking>& takings, const Prepared& draws) const {
  std::vector<std::shared_ptr<SeenTaking>> all;
  for (const GroundTaking& taking : takings) {
    const auto before = std::find_if(draws.seen.begin(), draws.seen.end(),
                                     [&](const auto& other) { return other->taking == taking; });
    all.push_back(before != draws.seen.end()
                      ? *before
                      : std::make_shared<SeenTaking>(
                            SeenTaking{taking, rayed_taking(taking, draws.rings.reach()),
                                       draws.ways.front().laid(taking)}));
  }
  return all;
}

// A work that takes what it took when last asked loses what it lost then.
const Range* GroundedModel::known_loss(const std::vector<GroundTaking>& takings,
                                       const Prepared& draws) {
  for (const auto& [before, range] : draws.alone)
    if (before == takings) return &range;
  return nullptr;
}

RootLoss GroundedModel::loss(const std::vector<GroundTaking>& asked,
                             const RootSimulation& how) const {
  if (asked.empty()) return {};
  std::vector<GroundTaking> takings = asked;  // with nothing left to look up
  for (GroundTaking& taking : takings)
    if (taking.effect == GroundTaking::Effect::presses)
      taking.pressed_share = pressed_share(taking);
  Prepared& draws = prepared(how);
  draws.seen = seen(takings, draws);
  LossCounter counter(draws, draws.seen);
  std::vector<std::size_t> all(takings.size());
  std::iota(all.begin(), all.end(), 0U);
  counter.add(all);
  RootLoss loss;
  decltype(draws.alone) alone;
  std::vector<std::size_t> counted;  // of the works, by set after the first
  for (const auto& [work, parts] : by_work(takings)) {
    std::vector<GroundTaking> own;
    for (const std::size_t i : parts) own.push_back(takings[i]);
    const Range* known = known_loss(own, draws);
    if (!known) {
      counter.add(parts);
      counted.push_back(loss.by_work.size());
    }
    loss.by_work.push_back({work, known ? *known : Range{}});
    alone.emplace_back(std::move(own), Range{});
  }
  const std::vector<std::vector<double>> lost = counter.count();
  loss.all = range_of(lost.front());
  for (std::size_t set = 0; set < counted.size(); ++set)
    loss.by_work[counted[set]].alone = range_of(lost[set + 1]);
  for (std::size_t w = 0; w < alone.size(); ++w) alone[w].second = loss.by_work[w].alone;
  draws.alone = std::move(alone);
  if (how.draws > 0)
    loss.influences = influences_on(lost.front(), draws.fields, source_->input_ids(), tables_);
  return loss;
}

// Measured, or filled from the diameter for woody trees; 0 where neither can be.
double GroundedModel::crown_radius() const {
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

RootEstimate GroundedModel::estimate(const RootSimulation& how) const {
  Prepared& draws = prepared(how);
  if (!draws.estimate) draws.estimate = estimated(draws);
  return *draws.estimate;
}

RootEstimate GroundedModel::estimated(const Prepared& draws) const {
  const double crown = crown_radius();
  std::vector<double> extents;
  for (const RootField& field : draws.fields) extents.push_back(extent_of(field.spread));

  RootEstimate estimate;
  estimate.extent_m = range_of(extents);
  estimate.share_in_top_150mm = range_of(shares_above(draws, kTopOfSoil));
  estimate.share_under_crown = range_of(shares_within(draws, crown));
  estimate.depth_beta = source_->central().depth.beta;
  estimate.hindrances = draws.hindrances;
  estimate.figures = source_->figures();
  for (Figure& figure : estimate.figures)
    if (figure.name == "roots.extent") figure.range = estimate.extent_m;
  estimate.figures.push_back(share_figure("roots.share-in-top-150mm", estimate.share_in_top_150mm,
                                          "depth law at 15 cm, over the whole root spread"));
  estimate.figures.push_back(share_figure(
      "roots.share-under-crown", estimate.share_under_crown,
      "roots within a circle of the mean crown radius, " + fixed_number(crown, 2) + " m"));
  estimate.notes = notes(draws);
  return estimate;
}

// Of all roots, in every draw: the share above a depth.
std::vector<double> GroundedModel::shares_above(const Prepared& draws, double depth) const {
  std::vector<double> shares;
  std::vector<std::vector<double>> depths;
  std::vector<TakenGround> upper, whole;
  for (const Ways& ways : draws.ways) {
    depths.push_back(depths_of({RayedTaking{true, depth, {}, {}}}, ways));
    upper.push_back(TakenGround::everything(ways, draws.rings, depths.back(), depth));
    whole.push_back(TakenGround::everything(ways, draws.rings, depths.back(), kAllDepths));
  }
  for (const RootField& field : draws.fields) {
    const std::size_t g = draws.ways_of(field);
    const RingedField ringed(field, draws.rings, depths[g]);
    const double all = whole[g].taken(ringed);
    shares.push_back(all > 0 ? upper[g].taken(ringed) / all : 0);
  }
  return shares;
}

// The share within a distance of the stem: what would be pressed flat in a circle of that size.
std::vector<double> GroundedModel::shares_within(const Prepared& draws, double radius) const {
  std::vector<double> shares;
  if (draws.ways.size() == 1 && draws.ways.front().open()) {
    for (const RootField& field : draws.fields)
      shares.push_back(share_within(field.spread, radius));
    return shares;
  }
  GroundTaking circle;
  circle.area = {polygon_of({stem(), Length::metres(radius)})};
  circle.effect = GroundTaking::Effect::presses;
  circle.pressed_share = Range{1, 1, 1};
  LossCounter counter(draws, seen({circle}, draws));
  counter.add({0});
  return counter.count().front();
}

std::vector<Note> GroundedModel::notes(const Prepared& draws) const {
  std::vector<Note> notes = source_->notes();
  notes.insert(notes.begin(),
               {NoteCode::root_estimate, tree_.label(),
                "roots are drawn from published averages: the true roots of this tree differ"});
  if (!draws.hindrances.empty())
    notes.push_back({NoteCode::hindered_roots, tree_.label(),
                     "roots are turned aside or thinned by " + joined(draws.hindrances, ", ") +
                         "; how easily they pass is our assumption"});
  if (!tree_.crown && crown_radius() > 0)
    notes.push_back({NoteCode::crown_filled, tree_.label(),
                     "the share under the crown uses a crown filled from the diameter"});
  return notes;
}

// The central field over the ground as it is, for pictures.
struct GroundedModel::Picture {
  GroundMap ground;
  std::vector<TravelMap> travel;
  double held = 1;  // of what open ground would hold
};

const GroundedModel::Picture& GroundedModel::picture() const {
  if (picture_) return *picture_;
  const RootField field = source_->central();
  const Prepared& draws = prepared({1, 0});
  const Length reach = Length::metres(extent_of(field.spread));
  picture_ = std::make_unique<Picture>();
  picture_->ground = ground_round(tree_, site_, tables_, reach, kCell);
  if (picture_->ground.open()) return *picture_;
  picture_->travel = root_travel(picture_->ground, stem());
  const auto depths = depths_of({}, draws.ways.front());
  picture_->held = TakenGround::everything(draws.ways.front(), draws.rings, depths, kAllDepths)
                       .taken(RingedField(field, draws.rings, depths));
  return *picture_;
}

// Density at a point down to a depth, layer by layer.
double GroundedModel::density_above(const Point& at, double depth) const {
  const RootField field = source_->central();
  const Picture& picture = this->picture();
  const double extent = extent_of(field.spread);
  const auto in_layer = [&](double travelled, double top, double bottom) {
    const auto profile = field.depth.at(std::min(1.0, travelled / extent));
    return density(field.spread, travelled) *
           (profile.share_above(bottom) - profile.share_above(top));
  };
  if (picture.ground.open()) return in_layer(distance_from_stem(at), 0, depth);
  double sum = 0;
  for (std::size_t l = 0; l < picture.travel.size(); ++l) {
    const GroundLayer& layer = picture.ground.layers[l];
    if (layer.top >= depth) break;
    const double travelled = picture.travel[l].at(at);
    const auto cell = picture.ground.grid.index_at(at);
    if (!cell || !std::isfinite(travelled)) continue;
    sum += layer.rooting[*cell] * in_layer(std::max(travelled, distance_from_stem(at)), layer.top,
                                           std::min(layer.bottom, depth));
  }
  return picture.held > 0 ? sum / picture.held : 0;
}

double GroundedModel::plan_density(const Point& at) const {
  return density_above(at, kAllDepths);
}

double GroundedModel::share_above(const Point& at, Length depth) const {
  const double all = plan_density(at);
  if (all > 0) return density_above(at, depth.metres()) / all;
  const RootField field = source_->central();  // no roots here: the law of open ground
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

Result<std::unique_ptr<RootModel>> root_model(const Tree& tree, const Site& site,
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
      std::make_unique<GroundedModel>(tree, site, tables, std::move(source)));
}

}  // namespace rootstead
