#include "report/labels.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>

namespace rootstead::layout {
namespace {

constexpr double kCell = 12;              // mm of the look-up grid
constexpr double kCrowd = 14;             // mm within which others crowd a label
constexpr double kGap = 0.4;              // mm between label and symbol
constexpr double kLeaderFrom = 1.6;       // mm of gap beyond which a leader is drawn
constexpr double kApart = 0.25;           // mm kept free between boxes
constexpr std::size_t kManyLabels = 600;  // above this only near places are tried
constexpr std::array<double, 9> kRings{0, 1.3, 3, 5, 7.5, 10.5, 14, 19, 26};
constexpr std::size_t kNearRings = 3;
constexpr int kDirections = 16;

struct Segment {
  Place a, b;
};

double cross(Place o, Place a, Place b) {
  return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
}

bool crosses(const Segment& s, const Segment& t) {
  return cross(s.a, s.b, t.a) * cross(s.a, s.b, t.b) < 0 &&
         cross(t.a, t.b, s.a) * cross(t.a, t.b, s.b) < 0;
}

bool inside(const Rect& r, Place p) {
  return p.x > r.x && p.x < r.right() && p.y > r.y && p.y < r.bottom();
}

bool touches(const Segment& s, const Rect& r) {
  const Segment rising{{r.x, r.bottom()}, {r.right(), r.y}};
  const Segment falling{{r.x, r.y}, {r.right(), r.bottom()}};
  return inside(r, s.a) || inside(r, s.b) || crosses(s, rising) || crosses(s, falling);
}

Rect bounds_of(const Segment& s) {
  return {std::min(s.a.x, s.b.x), std::min(s.a.y, s.b.y), std::abs(s.a.x - s.b.x),
          std::abs(s.a.y - s.b.y)};
}

// Things by the cells their boxes touch.
class CellIndex {
 public:
  void add(const Rect& box, std::size_t id) {
    each_cell(box, [&](auto key) { cells_[key].push_back(id); });
  }
  template <class Test>
  bool any(const Rect& box, Test test) const {
    bool found = false;
    each_cell(box, [&](auto key) {
      const auto at = cells_.find(key);
      if (found || at == cells_.end()) return;
      found = std::any_of(at->second.begin(), at->second.end(), test);
    });
    return found;
  }

 private:
  template <class Visit>
  static void each_cell(const Rect& box, Visit visit) {
    for (int x = int(std::floor(box.x / kCell)); x <= int(std::floor(box.right() / kCell)); ++x)
      for (int y = int(std::floor(box.y / kCell)); y <= int(std::floor(box.bottom() / kCell)); ++y)
        visit(std::pair(x, y));
  }
  std::map<std::pair<int, int>, std::vector<std::size_t>> cells_;
};

class Placer {
 public:
  Placer(const std::vector<LabelWish>& wishes, const std::vector<Rect>& taken, const Rect& window,
         const TextMeter& meter)
      : wishes_(wishes), window_(window), meter_(meter) {
    for (const Rect& box : taken) block(box);
    for (const LabelWish& wish : wishes) {
      const double r = wish.clearance;
      if (!wish.may_cover) block({wish.anchor.x - r, wish.anchor.y - r, 2 * r, 2 * r});
    }
  }

  std::vector<PlacedLabel> place() {
    std::vector<PlacedLabel> placed;
    for (const std::size_t i : crowded_first()) {
      if (auto label = try_places(i)) {
        block(label->box);
        if (label->leader) add_leader({label->leader->first, label->leader->second});
        placed.push_back(*label);
      }
    }
    return placed;
  }

 private:
  void block(const Rect& box) {
    boxes_.push_back(box);
    box_index_.add(box, boxes_.size() - 1);
  }
  void add_leader(const Segment& s) {
    leaders_.push_back(s);
    leader_index_.add(bounds_of(s), leaders_.size() - 1);
  }

  std::vector<std::size_t> crowded_first() const {
    CellIndex index;
    for (std::size_t i = 0; i < wishes_.size(); ++i)
      index.add({wishes_[i].anchor.x, wishes_[i].anchor.y, 0, 0}, i);
    std::vector<int> crowd(wishes_.size(), 0);
    for (std::size_t i = 0; i < wishes_.size(); ++i) {
      const Place a = wishes_[i].anchor;
      index.any({a.x - kCrowd, a.y - kCrowd, 2 * kCrowd, 2 * kCrowd}, [&](std::size_t j) {
        const Place b = wishes_[j].anchor;
        crowd[i] += std::hypot(a.x - b.x, a.y - b.y) < kCrowd;
        return false;
      });
      if (wishes_[i].may_cover) crowd[i] = -1;  // names of areas come last: they can go anywhere
    }
    std::vector<std::size_t> order(wishes_.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return crowd[a] > crowd[b]; });
    return order;
  }

  std::optional<PlacedLabel> try_places(std::size_t i) const {
    const LabelWish& wish = wishes_[i];
    const Size size = meter_.measure(wish.text, wish.style);
    if (wish.may_cover) {
      const Rect box{wish.anchor.x - size.w / 2, wish.anchor.y - size.h / 2, size.w, size.h};
      if (free(box)) return PlacedLabel{i, box, {}};
    }
    const std::size_t rings = wishes_.size() > kManyLabels ? kNearRings : kRings.size();
    for (std::size_t ring = 0; ring < rings; ++ring) {
      for (int d = 0; d < kDirections; ++d) {
        if (auto label = candidate(i, size, kRings[ring], d)) return label;
      }
    }
    return std::nullopt;
  }

  // Directions in the order a reader likes: right, left, upper right ... then the rest.
  static double direction(int d) {
    constexpr std::array<int, kDirections> kOrder{0,  8, 14, 2, 10, 6,  12, 4,
                                                  15, 1, 9,  7, 13, 11, 3,  5};
    return kOrder[std::size_t(d)] * 2 * std::numbers::pi / kDirections;
  }

  std::optional<PlacedLabel> candidate(std::size_t i, Size size, double ring, int d) const {
    const LabelWish& wish = wishes_[i];
    const double cx = std::cos(direction(d)), cy = std::sin(direction(d));
    const double reach = wish.clearance + kGap + ring;
    const Place middle{wish.anchor.x + cx * (reach + size.w / 2),
                       wish.anchor.y + cy * (reach + size.h / 2)};
    const Rect box{middle.x - size.w / 2, middle.y - size.h / 2, size.w, size.h};
    if (!free(box)) return std::nullopt;
    if (ring < kLeaderFrom) return PlacedLabel{i, box, {}};
    const Segment leader = leader_of(wish, box);
    if (!leader_free(leader, wish)) return std::nullopt;
    return PlacedLabel{i, box, std::pair(leader.a, leader.b)};
  }

  static Segment leader_of(const LabelWish& wish, const Rect& box) {
    const Place to{std::clamp(wish.anchor.x, box.x, box.right()),
                   std::clamp(wish.anchor.y, box.y, box.bottom())};
    const double dx = to.x - wish.anchor.x, dy = to.y - wish.anchor.y;
    const double length = std::max(std::hypot(dx, dy), 1e-9);
    const double rim = std::min(wish.clearance, length / 2);
    return {{wish.anchor.x + dx / length * rim, wish.anchor.y + dy / length * rim}, to};
  }

  bool free(const Rect& box) const {
    if (!window_.contains(box)) return false;
    const Rect wide = box.shrunk(-kApart);
    if (box_index_.any(wide, [&](std::size_t j) { return wide.overlaps(boxes_[j]); })) return false;
    return !leader_index_.any(wide, [&](std::size_t j) { return touches(leaders_[j], wide); });
  }

  bool leader_free(const Segment& s, const LabelWish& wish) const {
    const Rect box = bounds_of(s);
    const bool hits = box_index_.any(box, [&](std::size_t j) {
      return !inside(boxes_[j], wish.anchor) && touches(s, boxes_[j]);
    });
    if (hits) return false;
    return !leader_index_.any(box, [&](std::size_t j) { return crosses(s, leaders_[j]); });
  }

  const std::vector<LabelWish>& wishes_;
  Rect window_;
  const TextMeter& meter_;
  std::vector<Rect> boxes_;
  std::vector<Segment> leaders_;
  CellIndex box_index_, leader_index_;
};

}  // namespace

std::vector<PlacedLabel> place_labels(const std::vector<LabelWish>& wishes,
                                      const std::vector<Rect>& taken, const Rect& window,
                                      const TextMeter& meter) {
  return Placer(wishes, taken, window, meter).place();
}

void draw_label(Pen& pen, const PlacedLabel& label, const LabelWish& wish, const Stroke& leader,
                double rim) {
  if (label.leader) pen.line(label.leader->first, label.leader->second, leader, "leader");
  pen.rect(label.box.shrunk(rim), {}, kWhiteFill, "patch");
  pen.text({label.box.x, label.box.y}, wish.text, wish.style, wish.name);
}

}  // namespace rootstead::layout
