#include "engine/roots/loss_counter.hpp"

#include <algorithm>
#include <limits>

#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

constexpr double kAllDepths = std::numeric_limits<double>::infinity();

}  // namespace

SeenTaking seen_taking(const GroundTaking& taking, const RootDraws& draws, const Point& stem) {
  RayedTaking on_rays = rayed(stem, taking.area, draws.rings.reach());
  on_rays.severs = taking.effect == GroundTaking::Effect::severs;
  on_rays.depth = taking.depth.metres();
  if (!on_rays.severs) on_rays.pressed = *taking.pressed_share;
  return {taking, std::move(on_rays), draws.ways.front().laid(taking)};
}

LossCounter::LossCounter(const RootDraws& draws,
                         const std::vector<std::shared_ptr<SeenTaking>>& takings)
    : draws_(draws) {
  std::vector<const LaidTaking*> laid;
  for (const auto& seen : takings) {
    rayed_.push_back(seen->rayed);
    laid.push_back(&seen->laid);
  }
  for (const Ways& ways : draws.ways) {
    marks_.push_back(ways.open() ? WayMarks{} : ways.marks(laid));
    depths_.push_back(depths_of(rayed_, ways));
  }
}

std::size_t LossCounter::add(const std::vector<std::size_t>& subset) {
  std::vector<TakenGround> grounds;
  for (std::size_t g = 0; g < draws_.ways.size(); ++g)
    grounds.emplace_back(rayed_, subset, draws_.ways[g], marks_[g], draws_.rings, depths_[g]);
  sets_.push_back(std::move(grounds));
  return sets_.size() - 1;
}

std::vector<double> LossCounter::all_roots(const std::vector<RootField>& fields) const {
  std::vector<TakenGround> whole;
  for (std::size_t g = 0; g < draws_.ways.size(); ++g)
    whole.push_back(TakenGround::everything(draws_.ways[g], draws_.rings, depths_[g], kAllDepths));
  std::vector<double> all;
  for (const RootField& field : fields) {
    const std::size_t g = draws_.ways_of(field);
    all.push_back(
        draws_.ways[g].open() ? 1 : whole[g].taken(RingedField(field, draws_.rings, depths_[g])));
  }
  return all;
}

RingedField LossCounter::ringed(const RootField& field) const {
  return {field, draws_.rings, depths_[draws_.ways_of(field)]};
}

void LossCounter::count(const RingedField& ringed, std::size_t ground, double all,
                        std::vector<std::vector<double>>& lost) const {
  for (std::size_t set = 0; set < sets_.size(); ++set) {
    const double taken = sets_[set][ground].taken(ringed);
    lost[set].push_back(all > 0 ? std::clamp(taken / all, 0.0, 1.0) : 0);
  }
}

std::vector<std::vector<double>> LossCounter::count(const std::vector<RootField>& fields,
                                                    const std::vector<double>& all) const {
  std::vector<std::vector<double>> lost(sets_.size());
  for (std::size_t i = 0; i < fields.size(); ++i)
    count(ringed(fields[i]), draws_.ways_of(fields[i]), all[i], lost);
  return lost;
}

std::vector<std::vector<double>> LossCounter::count(const std::vector<RootField>& fields,
                                                    const std::vector<double>& all,
                                                    RingedFields& kept) const {
  if (kept.depths != depths_ || kept.fields.size() != fields.size()) {
    kept.depths = depths_;
    kept.fields.clear();
    for (const RootField& field : fields) kept.fields.push_back(ringed(field));
  }
  std::vector<std::vector<double>> lost(sets_.size());
  for (std::size_t i = 0; i < fields.size(); ++i)
    count(kept.fields[i], draws_.ways_of(fields[i]), all[i], lost);
  return lost;
}

std::vector<double> shares_above(const RootDraws& draws, Length down_to) {
  const double depth = down_to.metres();
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

// What would be pressed flat in a circle of that size.
std::vector<double> shares_within(const RootDraws& draws, const Point& stem, Length radius) {
  std::vector<double> shares;
  if (draws.ways.size() == 1 && draws.ways.front().open()) {
    for (const RootField& field : draws.fields)
      shares.push_back(share_within(field.spread, radius.metres()));
    return shares;
  }
  GroundTaking circle;
  circle.area = {polygon_of({stem, radius})};
  circle.effect = GroundTaking::Effect::presses;
  circle.pressed_share = Range{1, 1, 1};
  LossCounter counter(draws, {std::make_shared<SeenTaking>(seen_taking(circle, draws, stem))});
  counter.add({0});
  return counter.count(draws.fields, counter.all_roots(draws.fields)).front();
}

// What lies above the depth, less what a cut of this depth would take all round the cylinder.
std::vector<double> shares_in_cylinder(const RootDraws& draws, const Point& stem, Length radius,
                                       Length depth) {
  std::vector<double> shares = shares_above(draws, depth);
  const Length reach = Length::metres(draws.rings.reach()) + radius;
  Polygon around = polygon_of({stem, reach});
  around.holes = {polygon_of({stem, radius}).outer};
  std::reverse(around.holes.front().begin(), around.holes.front().end());
  GroundTaking cut;
  cut.area = {around};
  cut.depth = depth;
  LossCounter counter(draws, {std::make_shared<SeenTaking>(seen_taking(cut, draws, stem))});
  counter.add({0});
  const std::vector<double> outside =
      counter.count(draws.fields, counter.all_roots(draws.fields)).front();
  for (std::size_t i = 0; i < shares.size(); ++i)
    shares[i] = std::clamp(shares[i] - outside[i], 0.0, 1.0);
  return shares;
}

}  // namespace rootstead
