#include "serve/offsets.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/assess/live_assessment.hpp"
#include "engine/geom/along.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/site/diameter.hpp"
#include "serve/desk.hpp"

namespace rootstead::serve {
namespace {

using io::Json;

constexpr double kLeastSpan = 3;      // m of offsets, however small the tree
constexpr double kSameOffset = 0.01;  // m: offsets closer than this are one

struct Direction {
  double x = 1, y = 0;
};

void move(Line& points, const Direction& way, double by) {
  for (Point& at : points) at = {at.x + way.x * by, at.y + way.y * by};
}

void move(MultiPolygon& areas, const Direction& way, double by) {
  for (Polygon& polygon : areas) {
    move(polygon.outer, way, by);
    for (Ring& hole : polygon.holes) move(hole, way, by);
  }
}

Work moved(Work work, const Direction& way, double by) {
  for (Line& line : work.shape.lines) move(line, way, by);
  move(work.shape.areas, way, by);
  move(work.shape.points, way, by);
  move(work.bore_pits, way, by);
  return work;
}

// Across the run of a line that lies nearest, on the side away from the stem.
Direction across(const Line& line, const Point& stem) {
  Direction best;
  double least = HUGE_VAL;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Point &a = line[i - 1], &b = line[i];
    const double run = distance(a, b).metres(), away = distance_to_segment(stem, a, b);
    if (!(run > 0) || !(away < least)) continue;
    least = away;
    best = {(b.y - a.y) / run, -(b.x - a.x) / run};
    const bool towards_stem = (stem.x - a.x) * best.x + (stem.y - a.y) * best.y > 0;
    if (towards_stem) best = {-best.x, -best.y};
  }
  return best;
}

Point nearest_of(const MultiPolygon& ground, const Point& stem) {
  Point best = box_of(ground).centre();
  if (contains(ground, stem)) return best;
  double least = HUGE_VAL;
  for (const Polygon& polygon : ground) {
    Line ring = polygon.outer;
    ring.push_back(ring.front());
    const Point near = point_along(ring, nearest_chainage(ring, stem));
    const double away = distance(near, stem).metres();
    if (away < least) {
      least = away;
      best = near;
    }
  }
  return best;
}

// Of a line across itself; of all else straight away from the stem.
Direction away_from(const Point& stem, const Work& work, const MultiPolygon& ground) {
  const Line* nearest = nullptr;
  const auto away = [&](const Line& line) { return distance_between(stem, line); };
  for (const Line& line : work.shape.lines)
    if (nearest == nullptr || away(line) < away(*nearest)) nearest = &line;
  if (nearest != nullptr) return across(*nearest, stem);
  const Point near = nearest_of(ground, stem);
  const double length = distance(stem, near).metres();
  if (!(length > 0)) return {};
  return {(near.x - stem.x) / length, (near.y - stem.y) / length};
}

// What is near the stem: a bore that is deep has no ground of its own but its pits.
MultiPolygon ground_of(const Work& work) {
  MultiPolygon ground = footprint(work);
  if (work.kind != WorkKind::bore) return ground;
  std::vector<MultiPolygon> parts{std::move(ground)};
  for (const Line& line : work.shape.lines) parts.push_back(corridor(line, width_of(work) / 2));
  return union_of(parts);
}

double offset_of(const Work& work, const Point& stem, double radius) {
  return std::max(0.0, distance_between(stem, ground_of(work)).metres() - radius);
}

// How far out anything is to be seen: beyond the zones and the roots.
double span_of(const TreeAssessment& tree) {
  double span = kLeastSpan;
  for (const ZoneAssessment& zone : tree.zones) span = std::max(span, zone.zone.reach.metres());
  if (tree.estimate) span = std::max(span, tree.estimate->extent_m.best);
  return span;
}

Json point_json(double offset, const TreeAssessment& tree) {
  return {{"offset_m", offset},
          {"absorbing_loss", tree.roots ? io::to_json(tree.roots->all) : Json(nullptr)},
          {"anchorage_kept", tree.anchorage ? io::to_json(tree.anchorage->kept) : Json(nullptr)},
          {"verdict", to_text(tree.verdict.action)}};
}

Outcome movable(const Snapshot& snapshot, const Work& work, const Tree& tree) {
  const auto refused = [&](Code code, const char* message, const char* remedy) {
    return Error{code, "work " + work.id, message, remedy};
  };
  if (!snapshot.movable(work))
    return refused(Code::wrong_use,
                   work.state == WorkState::existing ? "it stands already"
                                                     : "it follows from the ground levels",
                   "choose a work that is proposed");
  if (work.shape.empty())
    return refused(Code::missing_measurement, "it has no place on the plan", "draw it first");
  if (!tree.position)
    return Error{Code::missing_measurement, "tree " + tree.label(), "it has no position",
                 "enter its position"};
  return Nothing{};
}

}  // namespace

Result<Json> offsets(const Snapshot& snapshot, const std::string& work_id,
                     const std::string& tree_id) {
  ROOTSTEAD_TRY(const Work* work, snapshot.work(work_id));
  ROOTSTEAD_TRY(const Tree* tree, snapshot.tree(tree_id));
  ROOTSTEAD_CHECK(movable(snapshot, *work, *tree));
  const Point stem = tree->position->at;
  const auto diameter = combined_diameter(*tree, {});
  const double radius = diameter ? diameter->metres() / 2 : 0;
  const double now = offset_of(*work, stem, radius);
  const Direction way = away_from(stem, *work, ground_of(*work));

  Site alone = snapshot.site;
  alone.trees = {*tree};  // one tree alone gives the same bits as among others
  AssessOptions options;
  options.simulation = snapshot.assessment.simulation;
  options.simulation.draws = std::min(options.simulation.draws, kTrialDraws);
  options.threads = 1;
  options.answers_only = true;
  ROOTSTEAD_TRY(LiveAssessment live,
                LiveAssessment::start(std::move(alone), snapshot.tables, options));

  const double span = std::max(span_of(snapshot.assessed(*tree)), 1.25 * now);
  std::map<double, Json> points{{now, point_json(now, live.trees().front())}};
  for (int i = 0; i < kOffsetSteps; ++i) {
    Work other = moved(*work, way, span * i / (kOffsetSteps - 1) - now);
    const double offset = offset_of(other, stem, radius);
    const auto next = points.lower_bound(offset - kSameOffset);
    if (next != points.end() && next->first <= offset + kSameOffset) continue;
    live.put(std::move(other));
    points.emplace(offset, point_json(offset, live.trees().front()));
  }
  Json list = Json::array();
  for (auto& [offset, point] : points) list.push_back(std::move(point));
  return Json{{"work", work->id}, {"tree", tree->id}, {"now_m", now}, {"points", std::move(list)}};
}

}  // namespace rootstead::serve
