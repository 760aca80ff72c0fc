// Laterals by the law of thick roots. Sorted by thickness, the roots on a ring fill the places that
// the law keeps there: place k is as thick as the law says the k-th root is, k moved by lot once
// for the whole tree. Going outward a root only ever thins, to the thickest place free that is no
// thicker than itself; a place that is left is a new branch; a root for which no place is left
// ends. So the mean number crossing each ring is that of the law, for every thickness.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "engine/geom/measure.hpp"
#include "engine/roots/root_grower.hpp"

namespace rootstead {
namespace {

constexpr double kNearStep = 0.1, kFarStep = 0.4;  // m between rings: a fifth of the distance
constexpr double kStepPerDistance = 0.2;
constexpr double kThickestBranch = 0.54;  // of its parent: (1 + 0.54^2) is under 1.3
constexpr double kThicknessKept = 1.1;    // a place this much thicker still suits a root
constexpr double kStraightens = 1.0;      // m over which a root turns outward again
constexpr double kSinksIn = 0.5;          // m over which a root comes to its depth
constexpr double kMostAside = 60 * std::numbers::pi / 180;
constexpr std::size_t kThicknessGrid = 96;
constexpr double kShortestPiece = 1e-3;  // m: a root that gets no further is stopped
constexpr double kSinkerTaper = 0.5;     // m

struct Living {
  Place3 at;
  double radius = 0, aside = 0;  // m from the stem; radians between its way and straight out
  double thickness = 0;
  double depth_place = 0.5;  // among roots of its thickness, 0 the shallowest, 1 the deepest
  int piece = -1, order = 0;
  bool forked = false;
};

class LateralGrower {
 public:
  LateralGrower(Growing& growing, double share);
  void grow();

 private:
  std::vector<double> places(double x) const;
  void leave_trunk();
  void step(double from, double to);
  std::vector<double> fill(const std::vector<double>& places, std::vector<double>& thickness);
  void advance(Living& root, double thinned, double dx, double relative_distance);
  void fork(double thickness);
  void bear_sinker(Living& root, double dx);
  double narrowed(double x) const;
  double fit_to_base(std::vector<double>& thicknesses) const;

  Growing& growing_;
  double share_;
  double base_factor_ = 1;
  std::vector<CountedThickness> grid_;  // from the thickest to the thinnest
  std::vector<double> moved_;           // by place, 0 to 1
  std::vector<Living> living_;
  double wander_, sinker_rate_, sinker_reach_;
};

LateralGrower::LateralGrower(Growing& growing, double share)
    : growing_(growing),
      share_(share),
      wander_(Angle::degrees(growing.best("architecture.wander")).radians()),
      sinker_rate_(growing.best("architecture.sinker_rate")),
      sinker_reach_(growing.best("architecture.sinker_reach")) {
  const double thickest = std::max(2 * growing.thinnest, growing.law.diameter);
  for (std::size_t i = 0; i < kThicknessGrid; ++i)
    grid_.push_back(
        growing.law.counted(thickest * std::pow(growing.thinnest / thickest,
                                                static_cast<double>(i) / (kThicknessGrid - 1))));
  double most = 0;
  for (double x = 0; x < growing.law.extent; x += kNearStep)
    most = std::max(most, growing.law.ring(x).count(grid_.back()));
  moved_.resize(static_cast<std::size_t>(std::ceil(most)) + 1);
  for (double& place : moved_) place = growing_.random.uniform();
}

// Close to the trunk the laterals leave room for what goes down.
double LateralGrower::narrowed(double x) const {
  return 1 + (base_factor_ - 1) * std::exp(-x / (growing_.law.near_length * growing_.law.diameter));
}

// Thicknesses of the roots on a ring, the thickest first: place k where the law counts k roots.
std::vector<double> LateralGrower::places(double x) const {
  const RootRing ring = growing_.law.ring(x);
  const double narrow = narrowed(x);
  std::vector<double> found;
  double log_before = grid_.front().log, number_before = 0;
  for (const CountedThickness& thickness : grid_) {
    const double number = ring.count(thickness);
    for (; found.size() < moved_.size(); found.push_back(narrow * std::exp(log_before))) {
      const double place = static_cast<double>(found.size()) + moved_[found.size()];
      if (place > number) break;
      const double part = (place - number_before) / (number - number_before);
      log_before = std::lerp(log_before, thickness.log, std::clamp(part, 0.0, 1.0));
      number_before = place;
    }
    log_before = thickness.log;
    number_before = number;
  }
  while (!found.empty() && found.back() < growing_.thinnest) found.pop_back();
  return found;
}

// The factor that gives the roots at the trunk their share of the wood; drops those that it makes
// too thin.
double LateralGrower::fit_to_base(std::vector<double>& thicknesses) const {
  const double wood = share_ * growing_.law.cross_section(0);
  while (!thicknesses.empty()) {
    double area = 0;
    for (const double d : thicknesses) area += std::numbers::pi / 4 * d * d;
    const double factor = std::sqrt(wood / area);
    if (thicknesses.back() * factor >= growing_.thinnest) return factor;
    thicknesses.pop_back();
  }
  return 1;
}

void LateralGrower::leave_trunk() {
  std::vector<double> thicknesses = places(0);
  base_factor_ = fit_to_base(thicknesses);
  // The main roots evenly round the trunk, the others evenly among themselves.
  const auto mains =
      std::min(thicknesses.size(), static_cast<std::size_t>(std::lround(growing_.law.main_roots)));
  std::vector<double> azimuths = azimuths_round(growing_.law.sectors, mains, growing_.random);
  for (const double azimuth :
       azimuths_round(growing_.law.sectors, thicknesses.size() - mains, growing_.random))
    azimuths.push_back(azimuth);
  for (std::size_t i = 0; i < thicknesses.size(); ++i) {
    const Point at =
        offset(growing_.stem, Angle::radians(azimuths[i]), Length::metres(growing_.law.face));
    Living root;
    root.at = {at.x, at.y, growing_.drawn("architecture.flare_depth")};
    root.radius = growing_.law.face;
    root.thickness = thicknesses[i] * base_factor_;
    root.depth_place = growing_.random.uniform();
    living_.push_back(root);
  }
}

// Gives every root (thickest first) its place; returns what is left over for new branches. A root
// without a place gets 0.
std::vector<double> LateralGrower::fill(const std::vector<double>& places,
                                        std::vector<double>& thickness) {
  std::vector<double> left_over;
  std::size_t next = 0;
  for (std::size_t i = 0; i < living_.size(); ++i) {
    while (next < places.size() && places[next] > kThicknessKept * living_[i].thickness)
      left_over.push_back(places[next++]);
    thickness.push_back(next < places.size() ? std::min(places[next], living_[i].thickness) : 0);
    next = std::min(next + 1, places.size());
  }
  left_over.insert(left_over.end(), places.begin() + static_cast<std::ptrdiff_t>(next),
                   places.end());
  return left_over;
}

void LateralGrower::advance(Living& root, double thinned, double dx, double relative_distance) {
  const double radius = root.radius + dx;
  const Point& stem = growing_.stem;
  const double azimuth = std::atan2(root.at.x - stem.x, root.at.y - stem.y) +
                         std::tan(root.aside) * dx / (root.radius + dx / 2);
  const Point aim = offset(stem, Angle::radians(azimuth), Length::metres(radius));
  const Point from{root.at.x, root.at.y};
  const Point to = growing_.walls.way(from, aim, root.at.z);
  const double way = distance(from, to).metres();
  const double depth =
      growing_.law.depth.at(std::max(thinned, growing_.thinnest), relative_distance)
          .depth_of(root.depth_place);
  RootPiece piece;
  piece.from = root.at;
  piece.to = {to.x, to.y,
              std::max(kShallowestAxis, depth + (root.at.z - depth) * std::exp(-way / kSinksIn))};
  piece.thickness_from = root.thickness;
  piece.thickness_to = std::min(root.thickness, std::max(thinned, growing_.thinnest));
  piece.parent = root.piece;
  piece.order = root.order;
  if (way > kShortestPiece) root.piece = growing_.add(piece);
  root.at = piece.to;
  root.radius = distance(stem, to).metres();
  root.aside = root.aside * std::exp(-way / kStraightens) +
               growing_.random.normal(0, wander_) * std::sqrt(way);
  root.aside = std::clamp(root.aside, -kMostAside, kMostAside);
  root.thickness = way > kShortestPiece ? thinned : 0;
  root.forked = false;
}

// A branch from any root thick enough to bear it; none where there is none.
void LateralGrower::fork(double thickness) {
  std::vector<std::size_t> able;
  for (std::size_t i = 0; i < living_.size(); ++i)
    if (!living_[i].forked && living_[i].piece >= 0 &&
        thickness <= kThickestBranch * living_[i].thickness)
      able.push_back(i);
  const double lot = growing_.random.uniform(), depth_place = growing_.random.uniform();
  const double side = growing_.random.uniform() < 0.5 ? -1 : 1;
  const double angle = Angle::degrees(growing_.drawn("architecture.fork_angle")).radians();
  if (able.empty()) return;
  Living& parent = living_[able[static_cast<std::size_t>(lot * static_cast<double>(able.size()))]];
  parent.forked = true;
  Living branch = parent;
  branch.thickness = thickness;
  branch.depth_place = depth_place;
  branch.order = parent.order + 1;
  branch.aside = std::clamp(parent.aside + side * angle, -kMostAside, kMostAside);
  living_.push_back(branch);
}

void LateralGrower::bear_sinker(Living& root, double dx) {
  const bool due = growing_.random.uniform() < sinker_rate_ * dx;
  const double thickness = root.thickness * growing_.drawn("architecture.sinker_thickness");
  if (!due || root.forked || root.piece < 0 || thickness < growing_.thinnest ||
      root.radius > sinker_reach_ * growing_.law.extent)
    return;
  root.forked = true;
  descend(growing_, {root.at, 0, std::numbers::pi / 2, thickness, kSinkerTaper,
                     growing_.law.depth.limit, RootKind::sinker, root.piece, root.order + 1});
}

void LateralGrower::step(double from, double to) {
  std::stable_sort(living_.begin(), living_.end(),
                   [](const Living& a, const Living& b) { return a.thickness > b.thickness; });
  std::vector<double> thinned;
  const std::vector<double> branches = fill(places(to), thinned);
  const double relative_distance = growing_.law.relative_distance(to);
  for (std::size_t i = 0; i < living_.size(); ++i)
    advance(living_[i], thinned[i], to - from, relative_distance);
  std::erase_if(living_, [](const Living& root) { return root.thickness <= 0; });
  for (const double thickness : branches) fork(thickness);
  const std::size_t before = living_.size();
  for (std::size_t i = 0; i < before; ++i) bear_sinker(living_[i], to - from);
}

void LateralGrower::grow() {
  leave_trunk();
  double x = 0;
  while (!living_.empty()) {
    const double dx = std::clamp(kStepPerDistance * x, kNearStep, kFarStep);
    step(x, x + dx);
    x += dx;
  }
}

}  // namespace

void grow_laterals(Growing& growing, double share) {
  LateralGrower(growing, share).grow();
}

std::vector<double> azimuths_round(const Sectors& sectors, std::size_t count,
                                   RandomStream& random) {
  constexpr int kSteps = 720;
  std::vector<double> within(kSteps + 1, 0);
  for (int i = 0; i < kSteps; ++i) {
    const Sectors weights = sector_weights(Angle::degrees((i + 0.5) * 360.0 / kSteps));
    double density = 0;
    for (std::size_t s = 0; s < kSectors; ++s) density += weights[s] * sectors[s];
    within[static_cast<std::size_t>(i) + 1] = within[static_cast<std::size_t>(i)] + density;
  }
  std::vector<double> azimuths;
  const double start = random.uniform();
  for (std::size_t i = 0; i < count; ++i) {
    const double jitter = random.normal(0, 0.25);
    double place = (static_cast<double>(i) + start + jitter) / static_cast<double>(count);
    place = (place - std::floor(place)) * within.back();
    const auto above = std::upper_bound(within.begin() + 1, within.end() - 1, place);
    const auto below = above - 1;
    const double part = *above > *below ? (place - *below) / (*above - *below) : 0;
    azimuths.push_back((static_cast<double>(below - within.begin()) + part) * 2 * std::numbers::pi /
                       kSteps);
  }
  return azimuths;
}

}  // namespace rootstead
