#include "engine/roots/roots_met.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <numbers>

#include "engine/geom/measure.hpp"
#include "engine/geom/ray.hpp"

namespace rootstead {
namespace {

constexpr std::size_t kSides = 720;     // rays, half a degree apart
constexpr double kLongestPiece = 1.0;   // m
constexpr std::size_t kNodes = 20;      // distances at which a law is worked out
constexpr std::size_t kDepthNodes = 5;  // the depth law hardly bends outward
constexpr std::size_t kThick = kSpokenThickness.size();
using ByThickness = std::array<double, kThick>;

Angle side_azimuth(double ray) {
  return Angle::degrees((ray + 0.5) * 360.0 / kSides);
}

// A depth range of roots that one taking severs, by the places of its depths among all depths.
struct Slab {
  std::size_t top = 0, bottom = 0;
  friend bool operator==(const Slab&, const Slab&) = default;
};

// Where a ray first meets ground that is taken deeper than anything nearer.
struct Hit {
  std::size_t ray = 0, taking = 0, slab = 0;
  double radius = 0;  // m from the stem, straight
  double x = 0;       // m of open ground from the trunk face
  Point at;
};

// Part of a piece: rays of one slab, at one node, by sector value.
struct Part {
  std::size_t node = 0, slab = 0;
  Sectors weight{};
};

struct Piece {
  std::size_t work = 0;
  FacePiece face;
  std::vector<Part> parts;
};

// Distances between the nearest and the farthest hit, closer near the trunk.
class Nodes {
 public:
  Nodes(double nearest, double farthest) : nearest_(nearest), span_(farthest - nearest) {}
  static double relative(std::size_t node) {
    const double part = static_cast<double>(node) / (kNodes - 1);
    return part * part;
  }
  double x(std::size_t node) const { return nearest_ + span_ * relative(node); }
  struct Place {
    std::size_t below = 0;
    double part = 0;  // of the next one
  };
  Place place(double x_asked) const {
    if (span_ <= 0) return {};
    const double root = std::sqrt(std::clamp((x_asked - nearest_) / span_, 0.0, 1.0));
    const auto below = std::min(static_cast<std::size_t>(root * (kNodes - 1)), kNodes - 2);
    return {below, (x_asked - x(below)) / (x(below + 1) - x(below))};
  }

 private:
  double nearest_, span_;
};

// The side of the works that faces the stem, boiled down to pieces and their parts.
class Sides {
 public:
  Sides(const Point& stem, double face, double reach, const std::vector<GroundTaking>& takings,
        const WayTravelled& travelled);

  const std::vector<std::string>& works() const { return works_; }
  const std::vector<Piece>& pieces() const { return pieces_; }
  const std::vector<Slab>& slabs() const { return slabs_; }
  const std::vector<ThickDepthLaw::Depth>& depths() const { return depths_; }
  const Nodes& nodes() const { return nodes_; }

 private:
  void name_works(const std::vector<GroundTaking>& takings);
  void cast(std::size_t ray, const std::vector<GroundTaking>& takings,
            const WayTravelled& travelled);
  void cut_into_pieces();
  void add(const Hit& hit, double step);
  std::size_t slab_of(double top, double bottom);
  std::size_t index_of(double depth);

  Point stem_;
  double face_, reach_;
  std::vector<std::string> works_;
  std::vector<std::size_t> work_of_;  // by taking
  std::vector<ThickDepthLaw::Depth> depths_;
  std::vector<Slab> slabs_;
  std::vector<Hit> hits_;
  Nodes nodes_{0, 0};
  std::vector<Piece> pieces_;
  double length_ = 0;  // m, of the piece being made
};

Sides::Sides(const Point& stem, double face, double reach, const std::vector<GroundTaking>& takings,
             const WayTravelled& travelled)
    : stem_(stem), face_(face), reach_(reach) {
  name_works(takings);
  for (std::size_t ray = 0; ray < kSides; ++ray) cast(ray, takings, travelled);
  if (hits_.empty()) return;
  const auto [least, most] = std::minmax_element(
      hits_.begin(), hits_.end(), [](const Hit& a, const Hit& b) { return a.x < b.x; });
  nodes_ = Nodes(least->x, most->x);
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
    pieces_.push_back({work_of_[hit.taking], {}, {}});
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
    const auto same = [&](const Part& part) {
      return part.node == place.below + next && part.slab == hit.slab;
    };
    auto part = std::find_if(piece.parts.begin(), piece.parts.end(), same);
    if (part == piece.parts.end())
      part = piece.parts.insert(part, {place.below + next, hit.slab, {}});
    for (std::size_t s = 0; s < kSectors; ++s) part->weight[s] += share * sectors[s];
  }
}

// One law worked out at the nodes: roots on the whole ring, by slab and thickness.
class LawTable {
 public:
  LawTable(const ThickRootLaw& law, const Sides& sides);
  const ByThickness& at(const Part& part) const { return roots_[part.slab * kNodes + part.node]; }

 private:
  std::vector<ByThickness> roots_;
};

// Shares of roots above one depth, at a few distances over the span of the nodes.
using Profiles = std::array<std::array<ThickDepthLaw::Profile, kThick>, kDepthNodes>;
using SharesAbove = std::array<ByThickness, kDepthNodes>;

SharesAbove shares_above(const Profiles& profiles, const ThickDepthLaw::Depth& depth) {
  SharesAbove shares{};
  for (std::size_t i = 0; i < kDepthNodes; ++i)
    for (std::size_t t = 0; t < kThick; ++t) shares[i][t] = profiles[i][t].share_above(depth);
  return shares;
}

Profiles depth_profiles(const ThickRootLaw& law, const Nodes& nodes) {
  Profiles profiles;
  const double nearest = nodes.x(0), span = nodes.x(kNodes - 1) - nearest;
  for (std::size_t i = 0; i < kDepthNodes; ++i) {
    const double x = nearest + span * static_cast<double>(i) / (kDepthNodes - 1);
    for (std::size_t t = 0; t < kThick; ++t)
      profiles[i][t] = law.depth.at(kSpokenThickness[t], law.relative_distance(x));
  }
  return profiles;
}

LawTable::LawTable(const ThickRootLaw& law, const Sides& sides)
    : roots_(sides.slabs().size() * kNodes) {
  std::array<CountedThickness, kThick> thicknesses;
  for (std::size_t t = 0; t < kThick; ++t) thicknesses[t] = law.counted(kSpokenThickness[t]);
  std::array<ByThickness, kNodes> counts{};
  for (std::size_t node = 0; node < kNodes; ++node) {
    const RootRing ring = law.ring(sides.nodes().x(node));
    for (std::size_t t = 0; t < kThick; ++t) counts[node][t] = ring.count(thicknesses[t]);
  }
  const Profiles profiles = depth_profiles(law, sides.nodes());
  std::vector<SharesAbove> above;
  for (const auto& depth : sides.depths()) above.push_back(shares_above(profiles, depth));
  for (std::size_t slab = 0; slab < sides.slabs().size(); ++slab) {
    const SharesAbove& top = above[sides.slabs()[slab].top];
    const SharesAbove& bottom = above[sides.slabs()[slab].bottom];
    for (std::size_t node = 0; node < kNodes; ++node) {
      const double place = Nodes::relative(node) * (kDepthNodes - 1);
      const auto below = std::min(static_cast<std::size_t>(place), kDepthNodes - 2);
      const double part = place - static_cast<double>(below);
      for (std::size_t t = 0; t < kThick; ++t) {
        const double near = bottom[below][t] - top[below][t];
        const double far = bottom[below + 1][t] - top[below + 1][t];
        roots_[slab * kNodes + node][t] = counts[node][t] * (near + (far - near) * part);
      }
    }
  }
}

ByThickness mean_number(const Piece& piece, const LawTable& table, const Sectors& sectors) {
  ByThickness sum{};
  for (const Part& part : piece.parts) {
    double rays = 0;
    for (std::size_t s = 0; s < kSectors; ++s) rays += part.weight[s] * sectors[s];
    const ByThickness& roots = table.at(part);
    for (std::size_t t = 0; t < kThick; ++t) sum[t] += rays * roots[t];
  }
  return sum;
}

// P10, P50 and P90 without sorting all: linear between order statistics, as range_of.
Range quick_range(std::vector<double>& values) {
  auto begin = values.begin();
  const auto quantile = [&](double p) {
    const double place = p * static_cast<double>(values.size() - 1);
    const auto below = values.begin() + static_cast<std::ptrdiff_t>(place);
    std::nth_element(begin, below, values.end());
    begin = below;
    const double part = place - std::floor(place);
    if (part == 0) return *below;
    return std::lerp(*below, *std::min_element(below + 1, values.end()), part);
  };
  const double low = quantile(0.1);
  const double best = quantile(0.5);
  return {low, best, quantile(0.9)};
}

Range chance_of(const Range& expected, double crowding) {
  return {chance_of_any(expected.low, crowding), chance_of_any(expected.best, crowding),
          chance_of_any(expected.high, crowding)};
}

// Mean numbers of each piece or work (rows) in every law (columns), one thickness after another.
class Tally {
 public:
  Tally(std::size_t rows, std::size_t draws)
      : draws_(draws), numbers_(rows * kThick * draws), column_(draws) {}
  void add(std::size_t row, std::size_t draw, const ByThickness& numbers) {
    for (std::size_t t = 0; t < kThick; ++t)
      numbers_[(row * kThick + t) * draws_ + draw] += numbers[t];
  }
  Range range(std::size_t row, std::size_t thickness) {
    const auto first =
        numbers_.begin() + static_cast<std::ptrdiff_t>((row * kThick + thickness) * draws_);
    std::copy_n(first, draws_, column_.begin());
    return quick_range(column_);
  }

 private:
  std::size_t draws_;
  std::vector<double> numbers_, column_;
};

double widest(const std::vector<ThickRootLaw>& draws) {
  double extent = 0;
  for (const ThickRootLaw& law : draws) extent = std::max(extent, law.extent);
  return extent;
}

}  // namespace

std::vector<RootsMet> roots_met(const std::vector<ThickRootLaw>& draws, const Point& stem,
                                const std::vector<GroundTaking>& takings,
                                const WayTravelled& travelled) {
  assert(!draws.empty());
  const Sides sides(stem, draws.front().face, widest(draws), takings, travelled);
  const std::vector<Piece>& pieces = sides.pieces();
  Tally by_piece(pieces.size(), draws.size()), by_work(sides.works().size(), draws.size());
  for (std::size_t draw = 0; draw < draws.size() && !pieces.empty(); ++draw) {
    const LawTable table(draws[draw], sides);
    for (std::size_t piece = 0; piece < pieces.size(); ++piece) {
      const ByThickness numbers = mean_number(pieces[piece], table, draws[draw].sectors);
      by_piece.add(piece, draw, numbers);
      by_work.add(pieces[piece].work, draw, numbers);
    }
  }

  const double crowding = draws.front().crowding;
  std::vector<RootsMet> met;
  for (std::size_t work = 0; work < sides.works().size(); ++work) {
    met.push_back({sides.works()[work], {}, {}, {}});
    for (std::size_t t = 0; t < kThick; ++t) {
      met[work].expected[t] = by_work.range(work, t);
      met[work].chance[t] = chance_of(met[work].expected[t], crowding);
    }
  }
  for (std::size_t piece = 0; piece < pieces.size(); ++piece) {
    FacePiece face = pieces[piece].face;
    for (std::size_t t = 0; t < kThick; ++t) {
      face.expected[t] = by_piece.range(piece, t);
      face.chance[t] = chance_of(face.expected[t], crowding);
    }
    met[pieces[piece].work].pieces.push_back(std::move(face));
  }
  return met;
}

}  // namespace rootstead
