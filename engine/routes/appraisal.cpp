#include "engine/routes/appraisal.hpp"

#include <algorithm>
#include <cmath>

#include "engine/cutting/cut_distance.hpp"
#include "engine/geom/along.hpp"
#include "engine/geom/measure.hpp"

namespace rootstead {

struct Appraiser::State {
  RoutePrices prices;
  const Tables& tables;
  LiveAssessment live;
  std::vector<TreeAssessment> without;
  std::vector<double> near;  // by tree

  std::vector<std::string> there = {};  // ids of the works that were last put

  // These works and no others; one with the id of one that is there takes its place.
  const std::vector<TreeAssessment>& put(const std::vector<Work>& works) {
    for (const std::string& id : there)
      if (std::none_of(works.begin(), works.end(), [&](const Work& one) { return one.id == id; }))
        live.remove(id);
    there.clear();
    for (const Work& work : works) {
      live.put(work);
      there.push_back(work.id);
    }
    return live.trees();
  }
};

std::vector<double> least_from_centre(const Site& site, const Tables& tables) {
  std::vector<double> distances;
  for (const Tree& tree : site.trees) {
    const CutDistance cut = cut_distance(tree, tables);
    distances.push_back(tree.position && cut.least ? (cut.trunk_radius + *cut.least).metres() : 0);
  }
  return distances;
}

Appraiser::Appraiser(std::unique_ptr<State> state) : state_(std::move(state)) {}
Appraiser::Appraiser(Appraiser&&) noexcept = default;
Appraiser& Appraiser::operator=(Appraiser&&) noexcept = default;
Appraiser::~Appraiser() = default;

Result<Appraiser> Appraiser::start(const Site& site, const Work& work, const Tables& tables,
                                   const RoutePrices& prices, const RootSimulation& how) {
  Site rest = site;
  rest.works.erase(std::remove_if(rest.works.begin(), rest.works.end(),
                                  [&](const Work& one) { return one.id == work.id; }),
                   rest.works.end());
  AssessOptions options;
  options.simulation = how;
  options.answers_only = true;
  std::vector<double> near = least_from_centre(rest, tables);
  ROOTSTEAD_TRY(LiveAssessment live, LiveAssessment::start(std::move(rest), tables, options));
  auto state = std::make_unique<State>(State{prices, tables, std::move(live), {}, std::move(near)});
  state->without = state->live.trees();
  return Appraiser(std::move(state));
}

const std::vector<TreeAssessment>& Appraiser::without() const {
  return state_->without;
}
const Site& Appraiser::site() const {
  return state_->live.site();
}
const Tables& Appraiser::tables() const {
  return state_->tables;
}

std::vector<TreeAssessment> Appraiser::assessed(const std::vector<Work>& works) {
  return state_->put(works);
}

namespace {

Range between(const Range& a, const Range& b, double share_of_b) {
  const auto mix = [&](double x, double y) { return x + share_of_b * (y - x); };
  return {mix(a.low, b.low), mix(a.best, b.best), mix(a.high, b.high)};
}

Range loss_of(const TreeAssessment& tree) {
  return tree.roots ? tree.roots->all : Range{};
}
std::optional<Range> kept_of(const TreeAssessment& tree) {
  return tree.anchorage ? std::optional(tree.anchorage->kept) : std::nullopt;
}

// Metres of what is dug that lie within `radius` of the stem.
double near_metres(const std::vector<Work>& works, const Point& stem, double radius) {
  double sum = 0;
  for (const Work& work : works) {
    if (work.kind != WorkKind::trench) continue;
    for (const Line& line : work.shape.lines)
      sum += length_of(inside(line, Circle{stem, Length::metres(radius)}));
  }
  return sum;
}

bool weighs(const Tree& tree) {
  return tree.intent != Intent::remove && tree.condition != Condition::dead;
}

}  // namespace

// Twice: with what is dug by hand left undone, and with everything severed; hand digging lies
// between the two by the shares it keeps.
Appraisal Appraiser::appraise(const Design& design) {
  std::vector<Work> other, by_hand;
  for (const Work& work : design.works)
    (work.method == DigMethod::machine || !work.digs() ? other : by_hand).push_back(work);
  std::vector<TreeAssessment> unhanded;
  state_->put(other);
  if (!by_hand.empty()) {
    unhanded = state_->live.trees();
    state_->put(design.works);
  }
  const std::vector<TreeAssessment>& all = state_->live.trees();
  const RoutePrices& prices = state_->prices;
  Appraisal appraisal;
  appraisal.building = design.building;
  appraisal.length = design.length;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Tree& tree = state_->live.site().trees[i];
    const TreeAssessment& without = state_->without[i];
    if (!tree.position) continue;
    TreeToll toll;
    toll.tree = tree.id;
    toll.loss_without = loss_of(without);
    toll.kept_without = kept_of(without);
    toll.loss = loss_of(all[i]);
    toll.kept = kept_of(all[i]);
    if (!unhanded.empty()) {
      toll.loss = between(loss_of(unhanded[i]), toll.loss, 1 - prices.hand_fine_kept);
      if (const auto untouched = kept_of(unhanded[i]); untouched && toll.kept)
        toll.kept = between(*untouched, *toll.kept, 1 - prices.hand_thick_kept);
    }
    toll.action = all[i].verdict.action;
    toll.vitality = all[i].verdict.vitality;
    toll.stability = all[i].verdict.stability;
    toll.action_without = without.verdict.action;
    toll.near_metres = near_metres(design.works, tree.position->at, state_->near[i]);
    const double lost = std::max(0.0, toll.loss.best - toll.loss_without.best);
    const double let_go = toll.kept && toll.kept_without
                              ? std::max(0.0, toll.kept_without->best - toll.kept->best)
                              : 0;
    if (!weighs(tree) || !(lost > 0 || let_go > 0 || toll.near_metres > 0)) continue;
    appraisal.roots_lost += lost;
    appraisal.hold_lost += let_go;
    toll.roots_cost = lost * prices.roots;
    toll.hold_cost = let_go * prices.hold;
    toll.near_cost = toll.near_metres * prices.near_stem;
    appraisal.trees.push_back(std::move(toll));
  }
  std::stable_sort(appraisal.trees.begin(), appraisal.trees.end(),
                   [](const TreeToll& a, const TreeToll& b) { return a.cost() > b.cost(); });
  return appraisal;
}

double Appraisal::trees_cost() const {
  double sum = 0;
  for (const TreeToll& toll : trees) sum += toll.cost();
  return sum;
}

}  // namespace rootstead
