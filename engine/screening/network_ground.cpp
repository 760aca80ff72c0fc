#include "engine/screening/network_ground.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/screening/ring_area.hpp"

namespace rootstead {
namespace {

constexpr double kTouchShare = 1e-12;  // of the zone: as engine/losses takes it

double squared_distance(const Point& p, const Box& box) {
  const double dx = std::max({box.min_x - p.x, 0.0, p.x - box.max_x});
  const double dy = std::max({box.min_y - p.y, 0.0, p.y - box.max_y});
  return dx * dx + dy * dy;
}

Box square_round(const Point& centre, double half) {
  return {centre.x - half, centre.y - half, centre.x + half, centre.y + half};
}

// Squared distance to the nearest edge; whether the point lies inside flips with every edge passed
// to the east of it.
double to_ring(const Point& p, std::span<const Point> ring, bool& inside) {
  double least = std::numeric_limits<double>::infinity();
  Point a{ring.back().x - p.x, ring.back().y - p.y};
  for (const Point& corner : ring) {
    const Point b{corner.x - p.x, corner.y - p.y};
    const double dx = b.x - a.x, dy = b.y - a.y;
    const double length_squared = dx * dx + dy * dy;
    const double along = -(a.x * dx + a.y * dy);
    double squared = a.x * a.x + a.y * a.y;
    if (along >= length_squared) {
      squared = b.x * b.x + b.y * b.y;
    } else if (along > 0) {
      const double across = a.x * dy - a.y * dx;
      squared = across * across / length_squared;
    }
    least = std::min(least, squared);
    if ((a.y > 0) != (b.y > 0) && a.x - a.y * dx / dy > 0) inside = !inside;
    a = b;
  }
  return least;
}

}  // namespace

// What each work takes of one zone, and all together. Few works meet one zone.
class NetworkGround::Tally {
 public:
  void add(const Piece& piece, double area) {
    if (!(area > 0)) return;
    if (piece.counted) all_ += area;
    Entry* entry = std::find_if(entries_.data(), entries_.data() + size_,
                                [&](const Entry& e) { return e.work == piece.work; });
    if (entry != entries_.data() + size_) {
      entry->area += area;
    } else if (size_ < entries_.size()) {
      entries_[size_++] = {piece.work, area};
    } else {
      add_to_many(piece.work, area);
    }
  }
  // The work added earlier is the worst where two take the same.
  void tell(double zone_area, GroundAnswer& answer) const {
    if (!(all_ > zone_area * kTouchShare)) return;
    answer.taken = Area::square_metres(std::min(all_, zone_area));
    Entry most{GroundAnswer::kNone, 0};
    const auto consider = [&](const Entry& e) {
      if (e.area > most.area || (e.area == most.area && e.work < most.work)) most = e;
    };
    std::for_each(entries_.data(), entries_.data() + size_, consider);
    std::for_each(many_.begin(), many_.end(), consider);
    answer.worst = most.work;
    answer.by_worst = std::min(Area::square_metres(most.area), answer.taken);
  }

 private:
  struct Entry {
    std::uint32_t work;
    double area;
  };
  void add_to_many(std::uint32_t work, double area) {
    const auto found =
        std::find_if(many_.begin(), many_.end(), [&](const Entry& e) { return e.work == work; });
    if (found != many_.end()) {
      found->area += area;
    } else {
      many_.push_back({work, area});
    }
  }
  double all_ = 0;
  std::size_t size_ = 0;
  std::array<Entry, 8> entries_;  // the first size_ of them
  std::vector<Entry> many_;
};

Polygon NetworkGround::polygon(std::uint32_t piece) const {
  const Piece& p = pieces_[piece];
  const auto outer = corners(p.first_corner, p.corners);
  Polygon made{{outer.begin(), outer.end()}, {}};
  for (std::uint32_t h = p.first_hole; h < p.first_hole + p.holes; ++h) {
    const auto hole = corners(holes_[h].first_corner, holes_[h].corners);
    made.holes.emplace_back(hole.begin(), hole.end());
  }
  return made;
}

double NetworkGround::area_within(const Circle& zone, const Piece& piece) const {
  const double radius = zone.radius.metres();
  double area = area_in_circle(zone.centre, radius, corners(piece.first_corner, piece.corners));
  for (std::uint32_t h = piece.first_hole; h < piece.first_hole + piece.holes; ++h)
    area -= area_in_circle(zone.centre, radius, corners(holes_[h].first_corner, holes_[h].corners));
  return area;
}

double NetworkGround::distance_squared(const Point& from, const Piece& piece) const {
  bool inside = false;
  double least = to_ring(from, corners(piece.first_corner, piece.corners), inside);
  for (std::uint32_t h = piece.first_hole; h < piece.first_hole + piece.holes; ++h)
    least =
        std::min(least, to_ring(from, corners(holes_[h].first_corner, holes_[h].corners), inside));
  return inside ? 0 : least;
}

// The work added earlier is the nearest where two are as near.
void NetworkGround::take_nearest(const Point& centre, std::uint32_t piece, double& least,
                                 GroundAnswer& answer) const {
  const Piece& p = pieces_[piece];
  const double squared = distance_squared(centre, p);
  if (squared > least || (squared == least && p.work >= answer.nearest)) return;
  least = squared;
  answer.nearest = p.work;
  answer.distance = Length::metres(std::sqrt(squared));
}

void NetworkGround::look_beyond(const Point& centre, double reach, double look,
                                GroundAnswer& answer) const {
  if (!(look > reach) || answer.nearest != GroundAnswer::kNone) return;
  double least = look * look;
  cells_.meeting(square_round(centre, look), [&](std::uint32_t piece) {
    if (squared_distance(centre, boxes_[piece]) <= least)
      take_nearest(centre, piece, least, answer);
  });
}

GroundAnswer NetworkGround::ask(const Circle& zone, Length look) const {
  GroundAnswer answer;
  const double radius = std::max(zone.radius.metres(), 0.0);
  if (boxes_.empty() || !is_finite(zone.centre)) return answer;
  if (radius > 0) {
    Tally tally;
    const double radius_squared = radius * radius;
    double least = radius_squared;
    cells_.meeting(square_round(zone.centre, radius), [&](std::uint32_t piece) {
      const double to_box = squared_distance(zone.centre, boxes_[piece]);
      if (to_box > radius_squared) return;
      tally.add(pieces_[piece], area_within(zone, pieces_[piece]));
      if (to_box <= least) take_nearest(zone.centre, piece, least, answer);
    });
    tally.tell(circle_area(zone.radius).square_metres(), answer);
  }
  look_beyond(zone.centre, radius, look.metres(), answer);
  return answer;
}

GroundAnswer NetworkGround::ask(const MultiPolygon& zone, const Point& centre, Length reach,
                                Area area, Length look) const {
  GroundAnswer answer;
  if (boxes_.empty() || !is_finite(centre)) return answer;
  const double radius = reach.metres();
  Tally tally;
  double least = radius * radius;
  cells_.meeting(square_round(centre, radius), [&](std::uint32_t piece) {
    const double to_box = squared_distance(centre, boxes_[piece]);
    if (to_box > radius * radius) return;
    const MultiPolygon common = intersection_of(zone, {polygon(piece)});
    tally.add(pieces_[piece], area_of(common).square_metres());
    if (to_box <= least) take_nearest(centre, piece, least, answer);
  });
  tally.tell(area.square_metres(), answer);
  look_beyond(centre, radius, look.metres(), answer);
  return answer;
}

}  // namespace rootstead
