#include "engine/protection/fencing.hpp"

#include <algorithm>
#include <cmath>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/protection/along.hpp"

namespace rootstead {
namespace {

constexpr Length kAgainstWall = Length::millimetres(100);  // a fence so near a wall ends at it
constexpr double kEvenRuns = 1e-3;                         // m: runs as long as each other
constexpr double kBesideGate = 0.2;                        // m of fence on each side of a gate
constexpr double kOnePost = 0.01;                          // m: places so near are one post
constexpr double kLookOut = 0.5;                           // m: what lies outside a run

double distance_between_ground(const Point& at, const MultiPolygon& area) {
  return area.empty() ? HUGE_VAL : distance_between(at, area).metres();
}

// ---- lines --------------------------------------------------------------------------------------

// Does a wall or a building close the ground along this run?
bool is_walled(const Point& a, const Point& b, const PlanGround& ground) {
  const double near = (kAgainstWall + ground.figures.straightening).metres();
  const Point middle{(a.x + b.x) / 2, (a.y + b.y) / 2};
  for (const Point& p : {a, middle, b}) {
    if (distance_between_ground(p, ground.closing) > near) return false;
  }
  return true;
}

// The open lines of a ring between walled runs; the ring itself, closed, where nothing is walled.
std::vector<Line> fence_lines(const Ring& ring, const PlanGround& ground) {
  const std::size_t n = ring.size();
  std::vector<bool> walled(n);
  std::size_t first_walled = n;
  for (std::size_t i = 0; i < n; ++i) {
    walled[i] = is_walled(ring[i], ring[(i + 1) % n], ground);
    if (walled[i] && first_walled == n) first_walled = i;
  }
  if (first_walled == n) {
    Line closed = ring;
    closed.push_back(ring.front());
    return {closed};
  }
  std::vector<Line> lines;
  for (std::size_t k = 1; k <= n; ++k) {
    const std::size_t i = (first_walled + k) % n;
    if (walled[i]) continue;
    const Point &a = ring[i], &b = ring[(i + 1) % n];
    if (lines.empty() || lines.back().back() != a) lines.push_back({a});
    lines.back().push_back(b);
  }
  return lines;
}

// ---- gates --------------------------------------------------------------------------------------

struct Run {
  const Fence* fence = nullptr;
  double from = 0, length = 0;
  Point middle, outside;  // a little off its middle
  int rank = 0;           // of its suitability for a gate; more is better
};

std::vector<Run> runs_of(const Enclosure& enclosure, const std::vector<Fence>& fences) {
  std::vector<Run> runs;
  for (const Fence& fence : fences) {
    if (fence.enclosure != enclosure.id) continue;
    double passed = 0;
    for (std::size_t i = 1; i < fence.line.size(); ++i) {
      const Point &a = fence.line[i - 1], &b = fence.line[i];
      const double length = distance(a, b).metres();
      const Point middle{(a.x + b.x) / 2, (a.y + b.y) / 2};
      if (length > 0) {
        // Rings keep their ground on the left, so outside is on the right.
        const double ux = (b.x - a.x) / length, uy = (b.y - a.y) / length;
        runs.push_back({&fence,
                        passed,
                        length,
                        middle,
                        {middle.x + kLookOut * uy, middle.y - kLookOut * ux},
                        0});
      }
      passed += length;
    }
  }
  return runs;
}

void rank_runs(std::vector<Run>& runs, const PlanGround& ground, const MultiPolygon& reached,
               const std::vector<FenceGate>& gates) {
  for (Run& run : runs) {
    const bool open = contains(reached, run.outside);
    const bool worked = contains(ground.kept_clear, run.outside);
    const bool taken = std::any_of(gates.begin(), gates.end(), [&](const FenceGate& gate) {
      return gate.fence == run.fence->id &&
             distance(gate.at, run.middle) < gate.width + ground.figures.people_gate;
    });
    run.rank = taken ? 0 : 1 + (open ? 1 : 0) + (open && !worked ? 1 : 0);
    if (run.length < ground.figures.people_gate.metres() + 2 * kBesideGate) run.rank -= 4;
  }
}

std::optional<FenceGate> people_gate(const Enclosure& enclosure, const std::vector<Fence>& fences,
                                     const PlanGround& ground, const MultiPolygon& reached,
                                     const std::vector<FenceGate>& gates) {
  std::vector<Run> runs = runs_of(enclosure, fences);
  rank_runs(runs, ground, reached, gates);
  const Run* best = nullptr;
  for (const Run& run : runs) {
    const bool better = best == nullptr || run.rank > best->rank ||
                        (run.rank == best->rank && run.length > best->length + kEvenRuns);
    if (better) best = &run;
  }
  if (best == nullptr) return {};
  const double width = std::min(ground.figures.people_gate.metres(), best->length);
  return FenceGate{{}, best->fence->id, best->middle, Length::metres(width), GateUse::people};
}

// The site's gate on the nearest fence within its reach; moved along so that it fits in a run.
std::optional<FenceGate> site_gate(const Gate& gate, const std::vector<Fence>& fences,
                                   const PlanGround& ground) {
  const Fence* nearest = nullptr;
  Length least = ground.figures.gate_reach;
  for (const Fence& fence : fences) {
    const Length away = distance_between(gate.at, fence.line);
    if (away > least || (nearest != nullptr && away == least)) continue;
    nearest = &fence;
    least = away;
  }
  if (nearest == nullptr) return {};
  const double along = nearest_chainage(nearest->line, gate.at);
  const double half = gate.width.length().metres() / 2;
  const double end = length_of(nearest->line).metres();
  const double at = end <= 2 * half ? end / 2 : std::clamp(along, half, end - half);
  return FenceGate{gate.id, nearest->id, point_along(nearest->line, at),
                   Length::metres(std::min(2 * half, end)), GateUse::machines};
}

// ---- posts --------------------------------------------------------------------------------------

void set_stretches(Fence& fence, const PlanGround& ground) {
  std::vector<TreeInterval> near;
  const Box box = box_of(fence.line);
  for (std::size_t i = 0; i < ground.kept.size(); ++i) {
    const KeptTree& kept = ground.kept[i];
    if (!kept.tree->position || distance(kept.tree->position->at, box) > kept.plate) continue;
    for (const Interval& on : inside(fence.line, Circle{kept.tree->position->at, kept.plate}))
      near.push_back({on, i, true});
  }
  fence.stretches.clear();
  const double end = length_of(fence.line).metres();
  double done = 0;
  const auto add = [&](double from, double to, Footing footing) {
    if (to - from <= 1e-6) return;
    fence.stretches.push_back({Length::metres(from), Length::metres(to), footing, {}});
  };
  for (const TreeStretch& stretch : stretches_of(near)) {
    add(done, stretch.on.first, Footing::driven);
    add(stretch.on.first, stretch.on.second, Footing::ballasted);
    for (const std::size_t i : stretch.trees)
      fence.stretches.back().trees.push_back(ground.kept[i].tree->id);
    done = stretch.on.second;
  }
  add(done, end, Footing::driven);
}

// Chainages where no post may stand: too near a trunk.
std::vector<Interval> trunk_intervals(const Fence& fence, const PlanGround& ground) {
  std::vector<Interval> all;
  for (const KeptTree& kept : ground.kept) {
    if (!kept.tree->position) continue;
    const Circle circle{kept.tree->position->at, kept.trunk + ground.figures.clear_of_stem};
    if (distance(circle.centre, box_of(fence.line)) > circle.radius) continue;
    for (const Interval& on : inside(fence.line, circle)) all.push_back(on);
  }
  return all;
}

struct PostPlace {
  double at = 0, moved = 0;
};

// Evenly from corner to corner, no farther apart than the spacing; the last corner left out.
std::vector<PostPlace> even_places(const Line& line, double spacing) {
  std::vector<PostPlace> places;
  double passed = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double run = distance(line[i - 1], line[i]).metres();
    if (!(run > 0)) continue;
    const int bays = std::max(1, static_cast<int>(std::ceil(run / spacing - 1e-6)));
    for (int k = 0; k < bays; ++k) places.push_back({passed + run * k / bays, 0});
    passed += run;
  }
  return places;
}

// A post in a gate gives way to one on each side of the gate; one at a trunk steps to both sides.
std::vector<PostPlace> cleared(const std::vector<PostPlace>& places,
                               const std::vector<Interval>& gates,
                               const std::vector<Interval>& trunks, double end) {
  std::vector<PostPlace> kept;
  const auto within = [](double at, const Interval& on) {
    return at > on.first + 1e-9 && at < on.second - 1e-9;
  };
  for (const PostPlace& place : places) {
    const auto gate = std::find_if(gates.begin(), gates.end(),
                                   [&](const Interval& on) { return within(place.at, on); });
    if (gate != gates.end()) continue;
    const auto trunk = std::find_if(trunks.begin(), trunks.end(),
                                    [&](const Interval& on) { return within(place.at, on); });
    if (trunk == trunks.end()) {
      kept.push_back(place);
      continue;
    }
    for (const double aside : {trunk->first, trunk->second}) {
      if (aside >= 0 && aside <= end) kept.push_back({aside, std::abs(aside - place.at)});
    }
  }
  for (const Interval& gate : gates) {
    kept.push_back({gate.first, 0});
    kept.push_back({gate.second, 0});
  }
  return kept;
}

void set_posts(Fence& fence, const std::vector<FenceGate>& gates, const PlanGround& ground) {
  const double end = length_of(fence.line).metres();
  std::vector<PostPlace> places = even_places(fence.line, ground.figures.post_spacing.metres());
  const bool closed = fence.line.front() == fence.line.back();
  if (!closed) places.push_back({end, 0});
  places = cleared(places, openings_in(fence, gates), trunk_intervals(fence, ground), end);
  std::sort(places.begin(), places.end(),
            [](const PostPlace& a, const PostPlace& b) { return a.at < b.at; });
  fence.posts.clear();
  double last = -1;
  for (const PostPlace& place : places) {
    if (place.at - last <= kOnePost) continue;
    last = place.at;
    if (closed && end - place.at <= kOnePost) continue;
    FencePost post{point_along(fence.line, place.at), Footing::driven, Length::metres(place.moved)};
    for (const FenceStretch& stretch : fence.stretches) {
      if (stretch.footing == Footing::ballasted && place.at >= stretch.from.metres() - 1e-6 &&
          place.at <= stretch.to.metres() + 1e-6)
        post.footing = Footing::ballasted;
    }
    fence.posts.push_back(post);
  }
}

}  // namespace

std::vector<Fence> fences_of(const std::vector<Enclosure>& enclosures, const PlanGround& ground) {
  std::vector<Fence> fences;
  const auto add = [&](const Enclosure& enclosure, const Ring& ring) {
    for (Line& line : fence_lines(ring, ground)) {
      Fence fence;
      fence.id = "F" + std::to_string(fences.size() + 1);
      fence.enclosure = enclosure.id;
      fence.line = std::move(line);
      fences.push_back(std::move(fence));
    }
  };
  for (const Enclosure& enclosure : enclosures) {
    add(enclosure, enclosure.area.outer);
    for (const Ring& hole : enclosure.area.holes) add(enclosure, hole);
  }
  return fences;
}

std::vector<FenceGate> gates_of(const std::vector<Enclosure>& enclosures,
                                const std::vector<Fence>& fences, const Site& site,
                                const PlanGround& ground, const MultiPolygon& reached) {
  std::vector<FenceGate> gates;
  for (const Gate& gate : site.gates) {
    bool boundary_gate = false;
    for (const Polygon& polygon : ground.boundary) {
      Line outer = polygon.outer;
      outer.push_back(outer.front());
      boundary_gate =
          boundary_gate || distance_between(gate.at, outer) <= ground.figures.gate_reach;
    }
    if (boundary_gate) continue;  // it is kept free, with a way where one is needed
    if (auto in_fence = site_gate(gate, fences, ground)) gates.push_back(std::move(*in_fence));
  }
  int number = 0;
  for (const Enclosure& enclosure : enclosures) {
    auto gate = people_gate(enclosure, fences, ground, reached, gates);
    if (!gate) continue;
    gate->id = "G" + std::to_string(++number);
    gates.push_back(std::move(*gate));
  }
  return gates;
}

void set_posts(std::vector<Fence>& fences, const std::vector<FenceGate>& gates,
               const PlanGround& ground) {
  for (Fence& fence : fences) {
    set_stretches(fence, ground);
    set_posts(fence, gates, ground);
  }
}

std::vector<Sign> signs_of(const std::vector<Fence>& fences, Length spacing) {
  std::vector<Sign> signs;
  for (const Fence& fence : fences) {
    const double length = length_of(fence.line).metres();
    const int count = std::max(1, static_cast<int>(std::ceil(length / spacing.metres() - 1e-9)));
    for (int k = 0; k < count; ++k)
      signs.push_back({fence.id, point_along(fence.line, length * (k + 0.5) / count)});
  }
  return signs;
}

std::vector<Interval> openings_in(const Fence& fence, const std::vector<FenceGate>& gates) {
  std::vector<Interval> openings;
  const double end = length_of(fence.line).metres();
  for (const FenceGate& gate : gates) {
    if (gate.fence != fence.id) continue;
    const double at = nearest_chainage(fence.line, gate.at), half = gate.width.metres() / 2;
    openings.emplace_back(std::max(0.0, at - half), std::min(end, at + half));
  }
  std::sort(openings.begin(), openings.end());
  return openings;
}

}  // namespace rootstead
