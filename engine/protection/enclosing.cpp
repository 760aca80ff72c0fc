#include "engine/protection/enclosing.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/protection/access.hpp"
#include "engine/protection/along.hpp"
#include "engine/protection/straight_runs.hpp"

namespace rootstead {
namespace {

constexpr double kSampled = 0.5;         // m between places tried along an outline
constexpr std::size_t kWaysTried = 400;  // nearest first
constexpr int kRounds = 12;              // each may open ways that the next needs

MultiPolygon tidy(const MultiPolygon& area, const PlanGround& ground) {
  const PlanFigures& f = ground.figures;
  const MultiPolygon wide = without_narrow_ground(area, f.least_width, f.least_area);
  return in_straight_runs(wide, f.straightening, ground.frame);
}

// Room for the leaves and wheels of the gates in the boundary.
MultiPolygon throats(const Site& site, const PlanGround& ground) {
  constexpr int kSides = 8;
  std::vector<MultiPolygon> parts;
  for (const Gate& gate : site.gates) {
    if (!is_at_boundary(gate, ground)) continue;
    Polygon around;
    const double r = gate.width.length().metres() / 2 / std::cos(std::numbers::pi / kSides);
    for (int i = 0; i < kSides; ++i) {
      const double a = ground.frame.angle + 2 * std::numbers::pi * i / kSides;
      around.outer.push_back({gate.at.x + r * std::cos(a), gate.at.y + r * std::sin(a)});
    }
    parts.push_back({around});
  }
  return union_of(parts);
}

// ---- ways ---------------------------------------------------------------------------------------

std::vector<Point> sampled(const MultiPolygon& area) {
  std::vector<Point> points;
  const auto add = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
      const int pieces =
          std::max(1, static_cast<int>(std::ceil(distance(a, b).metres() / kSampled)));
      for (int k = 0; k < pieces; ++k) {
        const double t = static_cast<double>(k) / pieces;
        points.push_back({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
      }
    }
  };
  for (const Polygon& polygon : area) {
    add(polygon.outer);
    for (const Ring& hole : polygon.holes) add(hole);
  }
  return points;
}

Point nearest_on(const MultiPolygon& area, const Point& at) {
  Point best = at;
  double least = HUGE_VAL;
  const auto look = [&](const Ring& ring) {
    Line line = ring;
    line.push_back(ring.front());
    for (std::size_t i = 1; i < line.size(); ++i) {
      const double away = distance_to_segment(at, line[i - 1], line[i]);
      if (away >= least) continue;
      least = away;
      const Line run{line[i - 1], line[i]};
      best = point_along(run, nearest_chainage(run, at));
    }
  };
  for (const Polygon& polygon : area) {
    look(polygon.outer);
    for (const Ring& hole : polygon.holes) look(hole);
  }
  return best;
}

Line stretched(const Point& a, const Point& b, double by) {
  const double length = distance(a, b).metres();
  if (!(length > 0)) return {};
  const double ux = (b.x - a.x) / length * by, uy = (b.y - a.y) / length * by;
  return {{a.x - ux, a.y - uy}, {b.x + ux, b.y + uy}};
}

bool is_passable(const Line& line, Length width, const PlanGround& ground,
                 const std::string& own_work) {
  const MultiPolygon strip = corridor(line, width / 2);
  const Box box = box_of(strip);
  for (const KeptTree& kept : ground.kept) {
    if (!kept.tree->position || distance(kept.tree->position->at, box) > Length::metres(5))
      continue;
    const Length room = width / 2 + kept.trunk + ground.figures.clear_of_stem;
    if (distance_between(kept.tree->position->at, line) < room) return false;
  }
  if (area_of(intersection_of(strip, ground.built)) > kTouch) return false;
  // At a gate the strip begins beyond the boundary; along the boundary it would be half lost.
  if (!ground.boundary.empty() && area_of(difference_of(strip, ground.boundary)) > width * width)
    return false;
  for (const std::size_t i : ground.works_meeting(box)) {
    const CountedWork& work = ground.works[i];
    if (work.work->id == own_work || !work.work->digs()) continue;
    if (area_of(intersection_of(strip, work.footprint)) > kTouch) return false;
  }
  return true;
}

// The shortest straight way that machines can pass from what is shut in to open ground.
std::optional<Way> way_out(const ShutIn& shut, const MultiPolygon& reached,
                           const PlanGround& ground, Length width) {
  if (reached.empty()) return {};
  struct Try {
    double length;
    Line line;
  };
  std::vector<Try> tries;
  const auto add = [&](const Point& from, const Point& to) {
    const Line line = stretched(from, to, width.metres() / 2);
    if (!line.empty()) tries.push_back({distance(from, to).metres(), line});
  };
  if (shut.ground.empty()) {
    for (const Point& to : sampled(reached)) add(shut.at, to);
  } else {
    for (const Point& from : sampled(shut.ground)) add(from, nearest_on(reached, from));
    for (const Point& to : sampled(reached)) {
      if (distance(to, box_of(shut.ground)) < Length::metres(60))
        add(nearest_on(shut.ground, to), to);
    }
  }
  std::stable_sort(tries.begin(), tries.end(),
                   [](const Try& a, const Try& b) { return a.length < b.length - 1e-6; });
  if (tries.size() > kWaysTried) tries.resize(kWaysTried);
  for (const Try& one : tries) {
    if (is_passable(one.line, width, ground, shut.work))
      return Way{{}, shut.work, shut.gate, one.line, width};
  }
  return {};
}

Length width_for(const ShutIn& shut, const Site& site, const PlanGround& ground) {
  for (const Gate& gate : site.gates) {
    if (gate.id == shut.gate) return gate.width.length();
  }
  return ground.figures.way_width;
}

// Cuts ways out of the enclosures until every work and gate is reached, or no more can be found.
MultiPolygon with_ways(MultiPolygon fenced, const Site& site, const PlanGround& ground,
                       std::vector<Way>& ways) {
  for (int round = 0; round < kRounds; ++round) {
    const Access access = access_of(site, ground, fenced, {});
    std::vector<MultiPolygon> cut;
    for (const ShutIn& shut : access.shut_in) {
      const bool tried = std::any_of(ways.begin(), ways.end(), [&](const Way& way) {
        return way.work == shut.work && way.gate == shut.gate;
      });
      if (tried) continue;  // once is enough: what it could not open stays a clash
      auto way = way_out(shut, access.reached, ground, width_for(shut, site, ground));
      if (!way) continue;
      way->id = "Y" + std::to_string(ways.size() + 1);
      cut.push_back(ground_of(*way));
      ways.push_back(std::move(*way));
      break;  // it may have opened the others too
    }
    if (cut.empty()) return fenced;
    fenced = tidy(difference_of(fenced, union_of(cut)), ground);
  }
  return fenced;
}

// ---- names --------------------------------------------------------------------------------------

std::vector<Enclosure> named(const MultiPolygon& fenced, const PlanGround& ground) {
  std::vector<Enclosure> enclosures;
  for (const Polygon& polygon : fenced) {
    Enclosure enclosure{{}, polygon, ground.trees_in({polygon})};
    if (!enclosure.trees.empty()) enclosures.push_back(std::move(enclosure));
  }
  const auto first_tree = [&](const Enclosure& e) {
    const auto at = std::find_if(ground.kept.begin(), ground.kept.end(),
                                 [&](const KeptTree& k) { return k.tree->id == e.trees.front(); });
    return at - ground.kept.begin();
  };
  std::stable_sort(enclosures.begin(), enclosures.end(),
                   [&](const Enclosure& a, const Enclosure& b) {
                     if (first_tree(a) != first_tree(b)) return first_tree(a) < first_tree(b);
                     return area_of(a.area) > area_of(b.area);
                   });
  for (std::size_t i = 0; i < enclosures.size(); ++i)
    enclosures[i].id = "E" + std::to_string(i + 1);
  return enclosures;
}

}  // namespace

MultiPolygon ground_of(const Way& way) {
  return corridor(way.line, way.width / 2);
}

MultiPolygon areas_of(const std::vector<Enclosure>& enclosures) {
  MultiPolygon areas;
  for (const Enclosure& enclosure : enclosures) areas.push_back(enclosure.area);
  return areas;
}

Enclosing enclosing_of(const Site& site, const PlanGround& ground) {
  std::vector<MultiPolygon> wanted;
  for (const KeptTree& kept : ground.kept) {
    if (kept.reason.empty()) wanted.push_back(kept.wanted);
  }
  const MultiPolygon clear = union_of({ground.kept_clear, throats(site, ground)});
  MultiPolygon fenced = tidy(difference_of(union_of(wanted), clear), ground);
  Enclosing made;
  fenced = with_ways(std::move(fenced), site, ground, made.ways);
  made.enclosures = named(fenced, ground);
  return made;
}

}  // namespace rootstead
