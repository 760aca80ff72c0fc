// Sites in a few lines, for tests and benchmarks: plain shapes, seeded random sites, and the same
// site moved, turned or drawn in another order. Header only.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "engine/base/random.hpp"
#include "engine/site/site.hpp"

namespace rootstead::test {

inline EnteredLength metres(double value) {
  return {value, LengthUnit::metre};
}
inline EnteredLength millimetres(double value) {
  return {value, LengthUnit::millimetre};
}

inline MultiPolygon rectangle(double x0, double y0, double x1, double y1) {
  return {Polygon{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}}};
}

// All ground north of `y`, as far as any zone reaches: the far side of a straight cut.
inline MultiPolygon ground_north_of(double y) {
  constexpr double kFar = 1000;
  return rectangle(-kFar, y, kFar, kFar);
}

//   Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).pit("W1", ground_north_of(4.5), 1.0);
class SiteBuilder {
 public:
  SiteBuilder& rules(std::vector<std::string> ids) {
    site_.settings.rules = std::move(ids);
    return *this;
  }

  // A tree that thickens, one stem of `diameter` metres, a round crown of 10 diameters.
  SiteBuilder& tree(std::string id, Point at, double diameter) {
    Tree tree;
    tree.id = tree.tag = std::move(id);
    tree.form = GrowthForm::broadleaf;
    tree.condition = Condition::good;
    tree.stage = LifeStage::mature;
    tree.stems = {{Stem::Read::diameter, metres(diameter), metres(1.4)}};
    tree.basal_diameter = metres(diameter);
    tree.position = Position{at, "test", {}};
    tree.crown = round_crown(10 * diameter);
    tree.height = metres(25 * diameter);
    return add(std::move(tree));
  }

  SiteBuilder& palm(std::string id, Point at) {
    Tree palm;
    palm.id = palm.tag = std::move(id);
    palm.form = GrowthForm::palm;
    palm.condition = Condition::good;
    palm.stems = {{Stem::Read::diameter, metres(0.35), metres(1.4)}};
    palm.position = Position{at, "test", {}};
    palm.crown = round_crown(2.5);
    palm.height = metres(9);
    return add(std::move(palm));
  }

  SiteBuilder& trench(std::string id, Line line, double width, double depth) {
    Work& work = add_work(std::move(id), WorkKind::trench);
    work.shape.lines = {std::move(line)};
    work.width = metres(width);
    work.depth = metres(depth);
    return *this;
  }

  SiteBuilder& root_cut(std::string id, Line line, double depth) {
    Work& work = add_work(std::move(id), WorkKind::root_cut);
    work.shape.lines = {std::move(line)};
    work.depth = metres(depth);
    return *this;
  }

  SiteBuilder& area(std::string id, WorkKind kind, MultiPolygon shape, double depth) {
    Work& work = add_work(std::move(id), kind);
    work.shape.areas = std::move(shape);
    work.depth = metres(depth);
    return *this;
  }
  SiteBuilder& pit(std::string id, MultiPolygon shape, double depth) {
    return area(std::move(id), WorkKind::pit, std::move(shape), depth);
  }
  SiteBuilder& paving(std::string id, MultiPolygon shape) {
    return area(std::move(id), WorkKind::paving, std::move(shape), 0.2);
  }

  SiteBuilder& surface(std::string id, MultiPolygon area) {
    Surface surface;
    surface.id = std::move(id);
    surface.area = std::move(area);
    site_.surfaces.push_back(std::move(surface));
    return *this;
  }

  SiteBuilder& building(std::string id, MultiPolygon area) {
    Barrier barrier;
    barrier.id = std::move(id);
    barrier.kind = BarrierKind::building;
    barrier.shape.areas = std::move(area);
    site_.barriers.push_back(std::move(barrier));
    return *this;
  }

  // Changes to the tree or work named last.
  template <class Change>
  SiteBuilder& with_tree(Change change) {
    change(site_.trees.back());
    return *this;
  }
  template <class Change>
  SiteBuilder& with_work(Change change) {
    change(site_.works.back());
    return *this;
  }

  operator Site() const { return site_; }  // NOLINT: a builder is the site it has built
  const Site& site() const { return site_; }

  static Crown round_crown(double radius) {
    Crown crown;
    crown.radius.fill(metres(radius));
    return crown;
  }

 private:
  SiteBuilder& add(Tree tree) {
    site_.trees.push_back(std::move(tree));
    return *this;
  }
  Work& add_work(std::string id, WorkKind kind) {
    Work work;
    work.id = std::move(id);
    work.kind = kind;
    site_.works.push_back(std::move(work));
    return site_.works.back();
  }

  Site site_;
};

// ---- seeded random sites ------------------------------------------------------------------------

// A star-shaped polygon of `corners` corners: irregular, never crossing itself.
inline Polygon random_patch(RandomStream& random, Point centre, double size, int corners) {
  Polygon patch;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * (i + 0.8 * random.uniform()) / corners;
    const double radius = size * random.uniform(0.4, 1.0);
    patch.outer.push_back(
        {centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)});
  }
  return patch;
}

inline Work random_work(RandomStream& random, std::string id, Point centre) {
  static constexpr WorkKind kKinds[] = {WorkKind::trench,   WorkKind::pit,     WorkKind::cut,
                                        WorkKind::fill,     WorkKind::paving,  WorkKind::traffic,
                                        WorkKind::building, WorkKind::root_cut};
  Work work;
  work.id = std::move(id);
  work.kind = kKinds[random.next() % std::size(kKinds)];
  work.depth = metres(random.uniform(0.1, 1.5));
  if (work.kind == WorkKind::trench || work.kind == WorkKind::root_cut) {
    Point end = centre;
    work.shape.lines = {{end}};
    double heading = random.uniform(0, 2 * std::numbers::pi);
    for (int leg = 0; leg < 3; ++leg) {
      const double length = random.uniform(3, 15);
      heading += random.uniform(-0.6, 0.6);
      end = {end.x + length * std::cos(heading), end.y + length * std::sin(heading)};
      work.shape.lines.front().push_back(end);
    }
    if (work.kind == WorkKind::trench) {
      work.width = metres(random.uniform(0.3, 1.2));
      work.working_room = metres(random.uniform(0.0, 1.5));
    }
  } else {
    const int corners = 4 + static_cast<int>(random.next() % 5);
    work.shape.areas = {random_patch(random, centre, random.uniform(1.5, 8), corners)};
  }
  return work;
}

// Trees of many sizes and works of most kinds on a square of this side, in metres.
inline Site random_site(std::uint64_t seed, int trees, int works, double side) {
  RandomStream random(seed, "random site");
  const auto place = [&] { return Point{random.uniform(0, side), random.uniform(0, side)}; };
  SiteBuilder builder;
  for (int i = 0; i < trees; ++i) {
    const Point at = place();
    builder.tree("T" + std::to_string(i + 1), at, random.uniform(0.08, 1.1));
  }
  Site site = builder;
  for (int i = 0; i < works; ++i) {
    const Point at = place();
    site.works.push_back(random_work(random, "W" + std::to_string(i + 1), at));
  }
  return site;
}

// ---- the same site, seen otherwise --------------------------------------------------------------

template <class Move>
void move_ring(std::vector<Point>& points, Move move) {
  for (Point& point : points) point = move(point);
}
template <class Move>
void move_area(MultiPolygon& area, Move move) {
  for (Polygon& polygon : area) {
    move_ring(polygon.outer, move);
    for (Ring& hole : polygon.holes) move_ring(hole, move);
  }
}
template <class Move>
void move_shape(Shape& shape, Move move) {
  for (Line& line : shape.lines) move_ring(line, move);
  move_area(shape.areas, move);
  move_ring(shape.points, move);
}

// Every point of the site through `move`. Crowns keep their radii: use round ones when turning.
template <class Move>
Site moved(Site site, Move move) {
  for (Tree& tree : site.trees) {
    if (tree.position) tree.position->at = move(tree.position->at);
  }
  for (Work& work : site.works) {
    move_shape(work.shape, move);
    move_area(work.bore_pits, move);
  }
  for (Barrier& barrier : site.barriers) move_shape(barrier.shape, move);
  for (Surface& surface : site.surfaces) move_area(surface.area, move);
  return site;
}

inline Site shifted(const Site& site, double dx, double dy) {
  return moved(site, [&](Point p) { return Point{p.x + dx, p.y + dy}; });
}

inline Site turned(const Site& site, double degrees, Point about) {
  const double a = degrees * std::numbers::pi / 180;
  return moved(site, [&](Point p) {
    const double x = p.x - about.x, y = p.y - about.y;
    return Point{about.x + x * std::cos(a) - y * std::sin(a),
                 about.y + x * std::sin(a) + y * std::cos(a)};
  });
}

// The same polygons with their corners in another order, some of them the other way round.
inline Site redrawn(Site site) {
  std::size_t turn = 1;
  for (Work& work : site.works) {
    for (Polygon& polygon : work.shape.areas) {
      const auto first = static_cast<std::ptrdiff_t>(turn++ % polygon.outer.size());
      std::rotate(polygon.outer.begin(), polygon.outer.begin() + first, polygon.outer.end());
      if (turn % 2 == 0) std::reverse(polygon.outer.begin(), polygon.outer.end());
    }
    for (Line& line : work.shape.lines) std::reverse(line.begin(), line.end());
  }
  return site;
}

}  // namespace rootstead::test
