#include "report/section.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/random.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/geom/ray.hpp"
#include "engine/losses/severed_roots.hpp"
#include "engine/roots/architecture.hpp"
#include "engine/roots/openings.hpp"
#include "engine/roots/root_model.hpp"
#include "engine/site/block.hpp"
#include "report/plan_drawing.hpp"

namespace rootstead {
namespace {

constexpr double kLeastAhead = 3, kBeyondZone = 0.6, kBackShare = 0.35, kLeastBack = 1.5;  // m
constexpr double kLeastDepth = 1.2, kBelowDeepest = 0.3, kMostDepth = 5;                   // m
constexpr double kFar = std::numeric_limits<double>::infinity();

Point nearest_on(const Point& p, const Point& a, const Point& b) {
  const double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
  const double t =
      square > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / square, 0.0, 1.0) : 0;
  return {a.x + t * dx, a.y + t * dy};
}

struct Approach {
  const Work* work = nullptr;
  Point at;
  double distance = kFar;
  bool digs = false;
};

void approach_ring(const Ring& ring, const Point& stem, const Work& work, Approach& best) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point near = nearest_on(stem, ring[i], ring[(i + 1) % ring.size()]);
    const double d = std::hypot(near.x - stem.x, near.y - stem.y);
    // A work that digs is shown before one that does not, however near that is.
    const bool better = work.digs() == best.digs ? d < best.distance : work.digs();
    if (better) best = {&work, near, d, work.digs()};
  }
}

Approach nearest_work(const Site& site, const Point& stem, double reach) {
  Approach best;
  for (const Work& work : site.works) {
    if (work.shape.empty() || work.state == WorkState::existing) continue;
    const MultiPolygon ground = footprint(work);
    if (ground.empty() || distance_between(stem, ground).metres() > reach) continue;
    for (const Polygon& polygon : ground) {
      approach_ring(polygon.outer, stem, work, best);
      for (const Ring& hole : polygon.holes) approach_ring(hole, stem, work, best);
    }
  }
  return best;
}

// Where the section's line meets an area: ahead of the stem, and behind it as negative distances.
std::vector<std::pair<double, double>> meetings(const Section& s, const MultiPolygon& area) {
  auto found = ray_crossings(s.stem, s.towards, s.ahead, area);
  for (const auto& [from, to] :
       ray_crossings(s.stem, s.towards + Angle::degrees(180), s.back, area))
    found.push_back({-to, -from});
  return found;
}

void add_pieces(const Site& site, Section& s) {
  const auto add = [&s](const Work* work, const Barrier* barrier, const Block& block) {
    for (const auto& [from, to] : meetings(s, block.areas))
      s.pieces.push_back({work, barrier, from, to, block.top, block.bottom});
  };
  for (const Work& work : site.works)
    for (const Block& block : blocks_of(work)) add(&work, nullptr, block);
  for (const Barrier& barrier : site.barriers)
    for (const Block& block : blocks_of(barrier)) add(nullptr, &barrier, block);
}

}  // namespace

std::optional<Section> make_section(const Plan& plan, const TreeAssessment& assessed) {
  const Tree* tree = tree_of(plan, assessed);
  if (tree == nullptr || !tree->position) return std::nullopt;
  double reach = kLeastAhead;
  for (const Zone* zone : main_zones(assessed)) reach = std::max(reach, zone->radius.metres());
  const Approach near = nearest_work(*plan.site, tree->position->at, reach);
  if (near.work == nullptr) return std::nullopt;
  Section s;
  s.stem = tree->position->at;
  const bool on_the_stem = near.distance < 1e-6;
  s.towards = on_the_stem ? Angle{} : azimuth(s.stem, near.at);
  s.ahead = reach + kBeyondZone;
  s.back = std::max(kLeastBack, kBackShare * reach);
  s.nearest = near.work->id;
  add_pieces(*plan.site, s);
  s.deepest = kLeastDepth;
  for (const Section::Piece& piece : s.pieces)
    s.deepest = std::max(s.deepest, std::min(piece.bottom, kMostDepth) + kBelowDeepest);
  return s;
}

std::vector<RootDot> root_dots(const Plan& plan, const Tree& tree, const Section& s, int count) {
  std::vector<RootDot> dots;
  const auto model = root_model(tree, *plan.site, *plan.tables);
  if (!model) return dots;
  constexpr int kAlong = 120, kDown = 16;
  const double dx = (s.back + s.ahead) / kAlong, dz = s.deepest / kDown;
  std::vector<double> weight(std::size_t{kAlong} * kDown);
  const auto cell = [](int i, int j) { return std::size_t(i) * kDown + std::size_t(j); };
  double sum = 0;
  for (int i = 0; i < kAlong; ++i) {
    const double along = -s.back + (i + 0.5) * dx;
    const Angle way = along < 0 ? s.towards + Angle::degrees(180) : s.towards;
    const Point at = offset(s.stem, way, Length::metres(std::abs(along)));
    const double density = model.value()->plan_density(at);
    for (int j = 0; j < kDown; ++j) {
      const double share = model.value()->share_above(at, Length::metres((j + 1) * dz)) -
                           model.value()->share_above(at, Length::metres(j * dz));
      sum += weight[cell(i, j)] = std::max(0.0, density * share);
    }
  }
  if (!(sum > 0)) return dots;
  RandomStream random(plan.assessment->simulation.seed, "section of " + tree.id);
  for (int i = 0; i < kAlong; ++i) {
    for (int j = 0; j < kDown; ++j) {
      const double wished = count * weight[cell(i, j)] / sum;
      const int n = int(std::floor(wished + random.uniform()));
      for (int k = 0; k < n; ++k)
        dots.push_back({-s.back + (i + random.uniform()) * dx, (j + random.uniform()) * dz});
    }
  }
  return dots;
}

namespace {

// Place along the section and across it.
struct Laid {
  RootDot dot;
  double across = 0;
};

Laid laid(const Section& s, const Place3& place) {
  const double a = s.towards.radians(), x = place.x - s.stem.x, y = place.y - s.stem.y;
  return {{x * std::sin(a) + y * std::cos(a), place.z}, x * std::cos(a) - y * std::sin(a)};
}

}  // namespace

std::vector<SectionRoot> section_roots(const Plan& plan, const Tree& tree, const Section& s) {
  std::vector<SectionRoot> roots;
  const auto system = grow_roots(tree, *plan.site, *plan.tables, plan.assessment->simulation.seed);
  if (!system.ok()) return roots;
  const std::vector<bool> severed = severed_pieces(*system, *plan.site);
  for (std::size_t i = 0; i < system->pieces.size(); ++i) {
    const RootPiece& piece = system->pieces[i];
    const Laid from = laid(s, piece.from), to = laid(s, piece.to);
    if (std::abs(from.across + to.across) > 2 * kSlab) continue;
    const double thickness = (piece.thickness_from + piece.thickness_to) / 2;
    roots.push_back({from.dot, to.dot, thickness, severed[i]});
  }
  return roots;
}

std::vector<FoundInSection> found_roots(const Plan& plan, const Tree& tree, const Section& s) {
  std::vector<FoundInSection> found;
  for (const Evidence* evidence : evidence_for(tree, *plan.site)) {
    const MultiPolygon opening = footprint(*evidence);
    for (const FoundRoot& root : evidence->roots) {
      if (!root.depth || (!root.at && opening.empty())) continue;
      const Point at = root.at ? *root.at : box_of(opening).centre();
      const double bearing = (azimuth(s.stem, at) - s.towards).radians();
      const double away = distance(s.stem, at).metres();
      const double along = away * std::cos(bearing), aside = away * std::sin(bearing);
      const bool shown = std::abs(aside) <= kSlab && along >= -s.back && along <= s.ahead;
      if (shown)
        found.push_back(
            {{along, root.depth->length().metres()}, root.diameter.length().metres(), root.alive});
    }
  }
  return found;
}

}  // namespace rootstead
