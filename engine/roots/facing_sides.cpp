#include "engine/roots/facing_sides.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/geom/measure.hpp"
#include "engine/geom/ray.hpp"

namespace rootstead::facing {
namespace {

constexpr std::size_t kSides = 720;    // rays, half a degree apart
constexpr double kLongestPiece = 1.0;  // m
constexpr double kFirstMetres = 0.25;  // over which nodes lie about evenly

Angle side_azimuth(double ray) {
  return Angle::degrees((ray + 0.5) * 360.0 / kSides);
}

}  // namespace

Nodes::Nodes(double span) {
  const double steps = std::log1p(span / kFirstMetres) / (kNodes - 1);
  for (std::size_t i = 0; i < kNodes; ++i)
    x_[i] = kFirstMetres * std::expm1(steps * static_cast<double>(i));
}

// Straight between nodes: a parabola would be nearer, but more roots might then read as fewer.
Nodes::Place Nodes::place(double x) const {
  const auto above = std::upper_bound(x_.begin(), x_.end(), x) - x_.begin();
  const auto below = static_cast<std::size_t>(
      std::clamp<std::ptrdiff_t>(above - 1, 0, std::ptrdiff_t{kNodes} - 2));
  return {below, std::clamp((x - x_[below]) / (x_[below + 1] - x_[below]), 0.0, 1.0)};
}

Sides::Sides(const Point& stem, double face, double reach, const std::vector<GroundTaking>& takings,
             const WayTravelled& travelled)
    : stem_(stem), face_(face), reach_(reach), nodes_(reach - face) {
  name_works(takings);
  for (std::size_t ray = 0; ray < kSides; ++ray) cast(ray, takings, travelled);
  cut_into_pieces();
}

void Sides::name_works(const std::vector<GroundTaking>& takings) {
  for (const GroundTaking& taking : takings) {
    auto known = std::find(works_.begin(), works_.end(), taking.work);
    work_of_.push_back(static_cast<std::size_t>(known - works_.begin()));
    const bool severs = taking.effect == GroundTaking::Effect::severs && taking.depth.metres() > 0;
    if (severs && known == works_.end()) works_.push_back(taking.work);
  }
}

std::size_t Sides::index_of(double depth) {
  const auto known = std::find_if(depths_.begin(), depths_.end(),
                                  [&](const auto& other) { return other.metres == depth; });
  const auto index = static_cast<std::size_t>(known - depths_.begin());
  if (index == depths_.size()) depths_.emplace_back(depth);
  return index;
}

std::size_t Sides::slab_of(double top, double bottom) {
  const Slab slab{index_of(top), index_of(bottom)};
  const auto known = std::find(slabs_.begin(), slabs_.end(), slab);
  const auto index = static_cast<std::size_t>(known - slabs_.begin());
  if (index == slabs_.size()) slabs_.push_back(slab);
  return index;
}

void Sides::cast(std::size_t ray, const std::vector<GroundTaking>& takings,
                 const WayTravelled& travelled) {
  const Angle direction = side_azimuth(static_cast<double>(ray));
  std::vector<std::pair<double, std::size_t>> met;  // radius, taking
  for (std::size_t i = 0; i < takings.size(); ++i) {
    if (takings[i].effect != GroundTaking::Effect::severs) continue;
    const auto crossed = ray_crossings(stem_, direction, reach_, takings[i].area);
    if (!crossed.empty()) met.emplace_back(crossed.front().first, i);
  }
  std::sort(met.begin(), met.end());
  double severed = 0;
  for (const auto& [enters, taking] : met) {
    const double depth = takings[taking].depth.metres();
    if (depth <= severed) continue;
    const double radius = std::max(enters, face_);
    const Point at = offset(stem_, direction, Length::metres(radius));
    const double way = travelled && enters > face_ ? travelled(at) : radius;
    if (way < reach_)
      hits_.push_back(
          {ray, taking, slab_of(severed, depth), radius, std::max(0.0, way - face_), at});
    severed = depth;
  }
}

// Hits of one taking on neighbouring rays are one side; a step of more than a metre begins a new
// piece, as does a metre full.
void Sides::cut_into_pieces() {
  std::stable_sort(hits_.begin(), hits_.end(),
                   [](const Hit& a, const Hit& b) { return a.taking < b.taking; });
  const Hit* before = nullptr;
  for (const Hit& hit : hits_) {
    const bool joined = before && before->taking == hit.taking && before->slab == hit.slab &&
                        before->ray + 1 == hit.ray;
    add(hit,
        joined ? distance(before->at, hit.at).metres() : std::numeric_limits<double>::infinity());
    before = &hit;
  }
  for (Piece& piece : pieces_) {
    double rays = 0;
    for (const Part& part : piece.parts)
      for (const double weight : part.weight) rays += weight;
    piece.face.distance /= rays * kSides;
  }
}

void Sides::add(const Hit& hit, double step) {
  const auto edge = [&](double aside) {
    return offset(stem_, side_azimuth(static_cast<double>(hit.ray) + aside),
                  Length::metres(hit.radius));
  };
  if (length_ + step > kLongestPiece) {
    const Slab& slab = slabs_[hit.slab];
    pieces_.push_back({work_of_[hit.taking], hit.slab, {}, {}});
    pieces_.back().face.from = edge(-0.5);
    pieces_.back().face.top = depths_[slab.top].metres;
    pieces_.back().face.depth = depths_[slab.bottom].metres;
    length_ = 0;
  } else {
    length_ += step;
  }
  Piece& piece = pieces_.back();
  piece.face.to = edge(0.5);
  piece.face.distance += hit.x;
  const Nodes::Place place = nodes_.place(hit.x);
  const Sectors sectors = sector_weights(side_azimuth(static_cast<double>(hit.ray)));
  for (const std::size_t next : {std::size_t{0}, std::size_t{1}}) {
    const double share = (next ? place.part : 1 - place.part) / kSides;
    if (share <= 0) continue;
    const auto same = [&](const Part& part) { return part.node == place.below + next; };
    auto part = std::find_if(piece.parts.begin(), piece.parts.end(), same);
    if (part == piece.parts.end()) part = piece.parts.insert(part, {place.below + next, {}});
    for (std::size_t s = 0; s < kSectors; ++s) part->weight[s] += share * sectors[s];
  }
}

bool same_side(const std::vector<const Piece*>& asked, const std::vector<Piece>& known) {
  return std::equal(asked.begin(), asked.end(), known.begin(), known.end(),
                    [](const Piece* a, const Piece& b) {
                      return a->face.from == b.face.from && a->face.to == b.face.to &&
                             a->face.distance == b.face.distance && a->face.top == b.face.top &&
                             a->face.depth == b.face.depth && a->parts == b.parts;
                    });
}

}  // namespace rootstead::facing
