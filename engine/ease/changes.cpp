// How a work looks after a change of one number.
#include <algorithm>
#include <cmath>

#include "engine/ease/change.hpp"
#include "engine/geom/along.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

void move(Line& points, double dx, double dy) {
  for (Point& at : points) at = {at.x + dx, at.y + dy};
}
void move(MultiPolygon& areas, double dx, double dy) {
  for (Polygon& polygon : areas) {
    move(polygon.outer, dx, dy);
    for (Ring& hole : polygon.holes) move(hole, dx, dy);
  }
}

EnteredLength entered(double metres) {
  return {metres, LengthUnit::metre};
}

}  // namespace

Work moved(Work work, double dx, double dy) {
  for (Line& line : work.shape.lines) move(line, dx, dy);
  move(work.shape.areas, dx, dy);
  move(work.shape.points, dx, dy);
  move(work.bore_pits, dx, dy);
  return work;
}

// The same work on less ground: an area is taken as it is by every kind of work.
Work shrunk_for_moves(Work work, double by) {
  MultiPolygon ground = grown(footprint(work), Length::metres(-by), 8);
  work.shape = {};
  work.shape.areas = std::move(ground);
  work.bore_pits.clear();
  return work;
}

std::optional<Work> narrowed(const Work& work, double by, double least_width) {
  Work made = work;
  const double room = work.working_room ? work.working_room->length().metres() : 0;
  const double room_left = std::max(0.0, room - by);
  if (work.working_room) made.working_room = entered(room_left);
  const double rest = std::max(0.0, by - room);  // off each side
  if (!(rest > 0)) return made;
  if (!work.shape.areas.empty()) {
    made.shape.areas = grown(work.shape.areas, Length::metres(-rest), 8);
    return made.shape.areas.empty() ? std::nullopt : std::optional(made);
  }
  if (work.kind != WorkKind::trench) return {};
  const double width = width_of(work).metres() - 2 * rest;
  if (width < least_width - 1e-9) return {};
  made.width = entered(width);
  return made;
}

double narrowing_range(const Work& work, double least_width, double range) {
  const double room = work.working_room ? work.working_room->length().metres() : 0;
  if (!work.shape.areas.empty()) return std::min(range, room + range);
  if (work.kind != WorkKind::trench) return room;
  return room + std::max(0.0, (width_of(work).metres() - least_width) / 2);
}

// Without the discs round the stems, and without the working room inside them.
std::optional<Work> held_back(const Work& work, const std::vector<Point>& stems, double radius) {
  std::vector<MultiPolygon> discs;
  for (const Point& stem : stems)
    discs.push_back({polygon_of(Circle{stem, Length::metres(radius)}, 96)});
  Work made = work;
  made.shape.areas = difference_of(work.shape.areas, union_of(discs));
  if (made.shape.areas.empty()) return {};
  // The room of what is left would reach back into the discs: it is kept on the far side only.
  made.working_room.reset();
  return made;
}

Work shallower(const Work& work, double depth) {
  Work made = work;
  made.depth = entered(depth);
  return made;
}

}  // namespace rootstead
