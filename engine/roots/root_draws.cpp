#include "engine/roots/root_draws.hpp"

#include <algorithm>
#include <array>

namespace rootstead {
namespace {

constexpr std::array<double, 3> kLeaks = {-1, 0, 1};
// Draws for every one that is kept, where something was found on site: enough of them foretell it.
constexpr std::size_t kDrawsForEvidence = 4;

Rings rings_for(const RootSubject& subject, const std::vector<RootField>& fields) {
  double widest = 0;
  for (const RootField& field : fields) widest = std::max(widest, extent_of(field.spread));
  return {widest, subject.fields->central().spread};
}

RootDraws central_draw(const RootSubject& subject, const RootSimulation& how) {
  const std::vector<RootField> fields = {subject.fields->central()};
  RootDraws draws{.how = how, .fields = fields, .rings = rings_for(subject, fields)};
  if (subject.thick) draws.laws.push_back(subject.thick->central(fields.front()));
  return draws;
}

RootDraws many_draws(const RootSubject& subject, const RootSimulation& how, std::size_t count) {
  const std::string& name = subject.tree.id;
  const auto stream = [&](const std::string& of, std::size_t draw) {
    return RandomStream::in_strata(how.seed, of, static_cast<std::uint32_t>(draw),
                                   static_cast<std::uint32_t>(count));
  };
  std::vector<RootField> fields;
  std::vector<ThickRootLaw> laws;
  for (std::size_t i = 0; i < count; ++i) {
    RandomStream random = stream(name, i), thick_random = stream(name + ", thick roots", i);
    fields.push_back(subject.fields->draw(random));
    if (subject.thick) laws.push_back(subject.thick->draw(fields.back(), thick_random));
  }
  RootDraws draws{.how = how, .fields = {}, .rings = rings_for(subject, fields)};
  draws.fields = std::move(fields);
  draws.laws = std::move(laws);
  return draws;
}

// Of many draws, those that foretold the find better are kept more often. What was believed before
// stays as it is without the find.
void keep_by_find(const RootSubject& subject, RootDraws& draws) {
  const auto wanted = static_cast<std::size_t>(draws.how.draws);
  RootDraws many = many_draws(subject, draws.how, wanted * kDrawsForEvidence);
  draws.find = weigh_draws(subject.tree, subject.site, many.laws);
  if (draws.find.weights.empty()) return;
  draws.before = std::move(draws.fields);
  draws.fields.clear();
  draws.laws.clear();
  for (const std::size_t draw : kept_draws(draws.find.weights, wanted)) {
    draws.fields.push_back(many.fields[draw]);
    draws.laws.push_back(many.laws[draw]);
  }
  std::vector<RootField> all = draws.fields;
  all.insert(all.end(), draws.before.begin(), draws.before.end());
  draws.rings = rings_for(subject, all);
}

// Does the ease of passing anything here lie between nothing and all, so that it is uncertain?
bool half_open(const GroundMap& ground) {
  const auto between = [](double share) { return share > 0 && share < 1; };
  return std::any_of(ground.layers.begin(), ground.layers.end(), [&](const GroundLayer& layer) {
    return std::any_of(layer.speed.begin(), layer.speed.end(), between) ||
           std::any_of(layer.rooting.begin(), layer.rooting.end(), between);
  });
}

void find_ways(const RootSubject& subject, RootDraws& draws) {
  const Length reach =
      std::min(Length::metres(draws.rings.reach()), subject.likely_extent() * kGridExtents);
  const auto ground_at = [&](double leak) {
    return ground_round(subject.tree, subject.site, subject.tables, reach, kGridCell, leak);
  };
  const GroundMap usual = ground_at(0);
  draws.hindrances = usual.barriers;
  if (usual.open()) {
    draws.ways.emplace_back(draws.rings);
    return;
  }
  const auto add = [&](const GroundMap& ground) {
    std::vector<TravelMap> travel = root_travel(ground, subject.stem());
    draws.ways.emplace_back(ground, travel, subject.stem(), draws.rings);
    return travel.front();
  };
  const bool one_for_all = !half_open(usual) || draws.how.draws <= 0;
  if (!one_for_all) add(ground_at(kLeaks.front()));
  draws.travel = add(usual);
  if (!one_for_all) add(ground_at(kLeaks.back()));
}

}  // namespace

std::size_t RootDraws::ways_of(const RootField& field) const {
  constexpr double kThird = 1.0 / 3;
  if (ways.size() == 1) return 0;
  return field.leak < -kThird ? 0 : field.leak > kThird ? 2 : 1;
}

RootDraws draw_roots(const RootSubject& subject, const RootSimulation& how) {
  const auto wanted = static_cast<std::size_t>(std::max(how.draws, 0));
  const bool found =
      wanted > 0 && subject.thick && !evidence_for(subject.tree, subject.site).empty();
  RootDraws draws = wanted == 0 ? central_draw(subject, how) : many_draws(subject, how, wanted);
  if (found) keep_by_find(subject, draws);
  find_ways(subject, draws);
  return draws;
}

}  // namespace rootstead
