// From the grounds of works to pieces that overlap nowhere.
#include <algorithm>
#include <cassert>
#include <cmath>
#include <thread>
#include <utility>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/geom/pieces.hpp"
#include "engine/screening/network_ground.hpp"
#include "engine/screening/place_order.hpp"

namespace rootstead {
namespace {

// Few corners, so that no tree walks round a campus; not wide, as a box says little about a long
// slanting line.
constexpr PieceLimits kPieces{48, Length::metres(256)};
constexpr double kNoOverlap = 1e-9;  // m2: rounding where works share an edge

bool overlap(const Box& a, const Box& b) {
  return a.min_x < b.max_x && b.min_x < a.max_x && a.min_y < b.max_y && b.min_y < a.max_y;
}

// -1 or 1 where all corners lie on that side of the line through a and b or on it, 0 where not.
int side_of(const Ring& ring, const Point& a, const Point& b) {
  bool left = false, right = false;
  for (const Point& p : ring) {
    const double across = (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
    left = left || across > 0;
    right = right || across < 0;
  }
  return left == right ? 0 : (left ? 1 : -1);
}

// Does an edge of `a` part the two? Enough for most trenches that lie side by side or end to end.
bool parted_by_edge(const Ring& a, const Ring& b) {
  for (std::size_t i = 0; i < a.size(); ++i) {
    const Point& from = a[i];
    const Point& to = a[i + 1 < a.size() ? i + 1 : 0];
    const int side = side_of(a, from, to);
    if (side != 0 && side == -side_of(b, from, to)) return true;
  }
  return false;
}

bool clearly_apart(const Polygon& a, const Polygon& b) {
  constexpr std::size_t kFew = 12;
  if (a.outer.size() > kFew || b.outer.size() > kFew) return false;
  return parted_by_edge(a.outer, b.outer) || parted_by_edge(b.outer, a.outer);
}

// Calls work(i) for every i below `count`, in as many threads as are asked for.
template <class Work>
void in_threads(int threads, std::size_t count, const Work& work) {
  const auto share = [&](std::size_t k, std::size_t n) {
    for (std::size_t i = count * k / n; i < count * (k + 1) / n; ++i) work(i);
  };
  const auto n = static_cast<std::size_t>(threads);
  std::vector<std::thread> helpers;
  for (std::size_t k = 1; k < n; ++k) helpers.emplace_back(share, k, n);
  share(0, n);
  for (std::thread& helper : helpers) helper.join();
}

// A piece of which earlier works have some: what is left of it, and what they have.
struct Split {
  MultiPolygon own, again;
  bool any() const { return !again.empty(); }
};

Split split_off(const Polygon& polygon, const std::vector<MultiPolygon>& earlier) {
  const MultiPolygon others = union_of(earlier);
  MultiPolygon again = intersection_of({polygon}, others);
  if (area_of(again).square_metres() <= kNoOverlap) return {};
  return {difference_of({polygon}, others), std::move(again)};
}

}  // namespace

bool NetworkBuilder::add(const MultiPolygon& ground) {
  const Box box = box_of(ground);
  const double widest = kWidestWork.metres();
  const bool fits =
      box.empty() || (box.max_x - box.min_x <= widest && box.max_y - box.min_y <= widest);
  if (fits)
    for (const Polygon& polygon : ground)
      for (Polygon& piece : pieces_of(polygon, kPieces))
        parts_.push_back({std::move(piece), works_, true});
  ++works_;
  return fits;
}

// Takes apart what overlaps: each piece keeps what no earlier work has.
void NetworkBuilder::part_overlaps(int threads) {
  std::vector<Box> boxes(parts_.size());
  in_threads(threads, parts_.size(),
             [&](std::size_t i) { boxes[i] = box_of(parts_[i].polygon.outer); });
  std::vector<Split> splits(parts_.size());
  const CellTable places(boxes, kCellSize);
  in_threads(threads, parts_.size(), [&](std::size_t i) {
    std::vector<std::uint32_t> before;
    places.meeting(boxes[i], [&](std::uint32_t j) {
      const bool earlier = parts_[j].work < parts_[i].work;
      if (earlier && overlap(boxes[i], boxes[j]) &&
          !clearly_apart(parts_[i].polygon, parts_[j].polygon))
        before.push_back(j);
    });
    if (before.empty()) return;
    std::sort(before.begin(), before.end());
    std::vector<MultiPolygon> earlier;
    for (const std::uint32_t j : before) earlier.push_back({parts_[j].polygon});
    splits[i] = split_off(parts_[i].polygon, earlier);
  });
  for (std::size_t i = 0; i < splits.size(); ++i) {
    if (!splits[i].any()) continue;
    const std::uint32_t work = parts_[i].work;
    parts_[i].polygon = {};
    for (Polygon& own : splits[i].own) parts_.push_back({std::move(own), work, true});
    for (Polygon& again : splits[i].again) parts_.push_back({std::move(again), work, false});
  }
  std::erase_if(parts_, [](const Part& part) { return part.polygon.outer.size() < 3; });
}

// Numbers of the parts, along the curve of places; the order of two never depends on others.
std::vector<std::uint32_t> NetworkBuilder::order_of_parts() const {
  std::vector<std::pair<std::uint64_t, std::uint32_t>> order(parts_.size());
  for (std::size_t i = 0; i < parts_.size(); ++i)
    order[i] = {place_on_curve(box_of(parts_[i].polygon.outer).centre()),
                static_cast<std::uint32_t>(i)};
  std::sort(order.begin(), order.end(), [this](const auto& a, const auto& b) {
    if (a.first != b.first) return a.first < b.first;
    const std::uint32_t work_a = parts_[a.second].work, work_b = parts_[b.second].work;
    return work_a != work_b ? work_a < work_b : a.second < b.second;
  });
  std::vector<std::uint32_t> numbers;
  numbers.reserve(order.size());
  for (const auto& [place, number] : order) numbers.push_back(number);
  return numbers;
}

void NetworkBuilder::lay(Part& part, NetworkGround& ground) {
  const auto lay_ring = [&ground](const Ring& ring) {
    const auto first = static_cast<std::uint32_t>(ground.corners_.size());
    ground.corners_.insert(ground.corners_.end(), ring.begin(), ring.end());
    return NetworkGround::Hole{first, static_cast<std::uint32_t>(ring.size())};
  };
  const auto [first, corners] = lay_ring(part.polygon.outer);
  const auto first_hole = static_cast<std::uint32_t>(ground.holes_.size());
  for (const Ring& hole : part.polygon.holes) ground.holes_.push_back(lay_ring(hole));
  const auto holes = static_cast<std::uint32_t>(part.polygon.holes.size());
  ground.pieces_.push_back({first, corners, first_hole, holes, part.work, part.counted});
  ground.boxes_.push_back(box_of(part.polygon.outer));
  ground.box_ = joined(ground.box_, ground.boxes_.back());
  part.polygon = {};
}

NetworkGround NetworkBuilder::finish(int threads) && {
  assert(threads >= 1);
  part_overlaps(threads);
  NetworkGround ground;
  ground.works_ = works_;
  ground.boxes_.reserve(parts_.size());
  ground.pieces_.reserve(parts_.size());
  for (const std::uint32_t number : order_of_parts()) lay(parts_[number], ground);
  parts_ = {};
  ground.corners_.shrink_to_fit();
  ground.cells_ = CellTable(ground.boxes_, kCellSize);
  return ground;
}

}  // namespace rootstead
