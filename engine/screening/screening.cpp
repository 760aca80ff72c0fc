#include "engine/screening/screening.hpp"

#include "engine/geom/measure.hpp"

namespace rootstead {
namespace {

MultiPolygon moved(const MultiPolygon& outline, const Point& by) {
  MultiPolygon there = outline;
  const auto move = [&by](Ring& ring) {
    for (Point& p : ring) p = {p.x + by.x, p.y + by.y};
  };
  for (Polygon& polygon : there) {
    move(polygon.outer);
    for (Ring& hole : polygon.holes) move(hole);
  }
  return there;
}

}  // namespace

TreeScreening screen(const Tree& tree, const ScreenZone& zone, const NetworkGround& ground,
                     Length look) {
  TreeScreening made;
  if (!tree.position || !is_finite(tree.position->at)) return made;
  const Point& at = tree.position->at;
  if (!zone.known()) {
    made.status = ScreenStatus::no_figure;
    made.ground = ground.ask(Circle{at, Length()}, look);
    return made;
  }
  made.ground = zone.outline ? ground.ask(moved(*zone.outline, at), at, zone.reach, zone.area, look)
                             : ground.ask(Circle{at, zone.radius}, look);
  const bool reached = made.ground.taken > Area();
  made.status = reached ? ScreenStatus::in_reach : ScreenStatus::clear;
  made.share = made.ground.taken / zone.area;
  if (reached) made.worst_share = made.ground.by_worst / zone.area;
  return made;
}

std::string_view to_text(ScreenStatus status) {
  switch (status) {
    case ScreenStatus::in_reach:
      return "in reach";
    case ScreenStatus::clear:
      return "clear";
    case ScreenStatus::no_figure:
      return "no figure";
    case ScreenStatus::no_position:
      break;
  }
  return "no position";
}

}  // namespace rootstead
