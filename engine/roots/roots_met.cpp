#include "engine/roots/roots_met.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "engine/roots/facing_sides.hpp"

namespace rootstead {
namespace {

using facing::kNodes;
using facing::KnownSide;
using facing::Nodes;
using facing::Part;
using facing::Piece;
using facing::Sides;

constexpr std::size_t kDepthNodes = 4;  // the depth law hardly bends outward
constexpr std::size_t kThick = kSpokenThickness.size();
using ByThickness = std::array<double, kThick>;

// One law worked out at the nodes: roots on the whole ring, by slab and thickness. Only the slabs
// that are asked for.
class LawTable {
 public:
  LawTable(const ThickRootLaw& law, const Sides& sides, const std::vector<bool>& asked);
  const ByThickness& at(std::size_t slab, std::size_t node) const {
    return roots_[slab * kNodes + node];
  }

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
  const double span = nodes.span();
  for (std::size_t i = 0; i < kDepthNodes; ++i) {
    const double x = span * static_cast<double>(i) / (kDepthNodes - 1);
    for (std::size_t t = 0; t < kThick; ++t)
      profiles[i][t] = law.depth.at(kSpokenThickness[t], law.relative_distance(x));
  }
  return profiles;
}

LawTable::LawTable(const ThickRootLaw& law, const Sides& sides, const std::vector<bool>& asked)
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
    if (!asked[slab]) continue;
    const SharesAbove& top = above[sides.slabs()[slab].top];
    const SharesAbove& bottom = above[sides.slabs()[slab].bottom];
    for (std::size_t node = 0; node < kNodes; ++node) {
      const double place = sides.nodes().x(node) / sides.nodes().span() * (kDepthNodes - 1);
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
    const ByThickness& roots = table.at(piece.slab, part.node);
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

using Pieces = std::vector<const Piece*>;

// One work being counted: its pieces, and all of them together, in every law.
class WorkCount {
 public:
  WorkCount(Pieces pieces, std::size_t draws)
      : pieces_(std::move(pieces)), by_piece_(pieces_.size(), draws), all_(1, draws) {}

  const Pieces& pieces() const { return pieces_; }
  void add(std::size_t draw, const ThickRootLaw& law, const LawTable& table) {
    for (std::size_t piece = 0; piece < pieces_.size(); ++piece) {
      const ByThickness numbers = mean_number(*pieces_[piece], table, law.sectors);
      by_piece_.add(piece, draw, numbers);
      all_.add(0, draw, numbers);
    }
  }
  RootsMet met(const std::string& work, double crowding) {
    RootsMet met{work, {}, {}, {}};
    for (std::size_t t = 0; t < kThick; ++t) {
      met.expected[t] = all_.range(0, t);
      met.chance[t] = chance_of(met.expected[t], crowding);
    }
    for (std::size_t piece = 0; piece < pieces_.size(); ++piece) {
      FacePiece face = pieces_[piece]->face;
      for (std::size_t t = 0; t < kThick; ++t) {
        face.expected[t] = by_piece_.range(piece, t);
        face.chance[t] = chance_of(face.expected[t], crowding);
      }
      met.pieces.push_back(face);
    }
    return met;
  }

 private:
  Pieces pieces_;
  Tally by_piece_, all_;
};

void count(std::vector<WorkCount>& works, const std::vector<ThickRootLaw>& draws,
           const Sides& sides) {
  std::vector<bool> asked(sides.slabs().size(), false);
  for (const WorkCount& work : works)
    for (const Piece* piece : work.pieces()) asked[piece->slab] = true;
  if (std::find(asked.begin(), asked.end(), true) == asked.end()) return;
  for (std::size_t draw = 0; draw < draws.size(); ++draw) {
    const LawTable table(draws[draw], sides, asked);
    for (WorkCount& work : works) work.add(draw, draws[draw], table);
  }
}

const KnownSide* known_side(const std::string& work, const Pieces& pieces,
                            const std::vector<KnownSide>* known) {
  if (known == nullptr) return nullptr;
  for (const KnownSide& side : *known)
    if (side.met.work == work && facing::same_side(pieces, side.pieces)) return &side;
  return nullptr;
}

std::vector<Piece> copied(const Pieces& pieces) {
  std::vector<Piece> copies;
  for (const Piece* piece : pieces) copies.push_back(*piece);
  return copies;
}

}  // namespace

std::vector<RootsMet> roots_met(const std::vector<ThickRootLaw>& draws, const Point& stem,
                                const std::vector<GroundTaking>& takings,
                                const WayTravelled& travelled, std::vector<KnownSide>* known) {
  assert(!draws.empty());
  const Sides sides(stem, draws.front().face, widest(draws), takings, travelled);
  std::vector<Pieces> pieces(sides.works().size());
  for (const Piece& piece : sides.pieces()) pieces[piece.work].push_back(&piece);

  std::vector<const KnownSide*> before;
  std::vector<WorkCount> counts;  // of the works that are not known
  for (std::size_t work = 0; work < pieces.size(); ++work) {
    before.push_back(known_side(sides.works()[work], pieces[work], known));
    if (before.back() == nullptr) counts.emplace_back(pieces[work], draws.size());
  }
  count(counts, draws, sides);

  std::vector<RootsMet> met;
  std::vector<KnownSide> now;
  auto next = counts.begin();
  for (std::size_t work = 0; work < pieces.size(); ++work) {
    met.push_back(before[work] ? before[work]->met
                               : (next++)->met(sides.works()[work], draws.front().crowding));
    now.push_back({copied(pieces[work]), met.back()});
  }
  if (known != nullptr) *known = std::move(now);
  return met;
}

}  // namespace rootstead
