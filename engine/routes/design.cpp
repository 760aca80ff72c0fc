#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/routes/appraisal.hpp"

namespace rootstead {
namespace {

// A square pit with one side across the end of a bore, outside it.
Polygon pit_beyond(const Point& end, const Point& from, double side) {
  const double length = std::hypot(end.x - from.x, end.y - from.y);
  const double ux = (end.x - from.x) / length, uy = (end.y - from.y) / length, h = side / 2;
  const Point middle{end.x + ux * h, end.y + uy * h};
  const auto corner = [&](double along, double across) {
    return Point{middle.x + h * (along * ux - across * uy),
                 middle.y + h * (along * uy + across * ux)};
  };
  return {{corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)}, {}};
}

Polygon pit_round(const Point& at, double side) {
  const double h = side / 2;
  return {{{at.x - h, at.y - h}, {at.x + h, at.y - h}, {at.x + h, at.y + h}, {at.x - h, at.y + h}},
          {}};
}

MultiPolygon pits_round(const Line& line, double side) {
  MultiPolygon pits;
  pits.push_back(pit_beyond(line.front(), line[1], side));
  for (std::size_t i = 1; i + 1 < line.size(); ++i) pits.push_back(pit_round(line[i], side));
  pits.push_back(pit_beyond(line.back(), line[line.size() - 2], side));
  return pits;
}

Work part_of_work(const Work& drawn, const RouteStretch& stretch, const LineSize& size,
                  std::size_t number) {
  Work work;
  work.id = drawn.id + "/" + std::to_string(number);
  work.name = drawn.name.empty() ? std::string(to_text(stretch.method))
                                 : drawn.name + ", " + std::string(to_text(stretch.method));
  work.state = WorkState::proposed;
  work.shape.lines = {stretch.line};
  if (stretch.method == RouteMethod::bore) {
    work.kind = WorkKind::bore;
    work.depth = in_metres(size.bore_depth);
    work.bore_diameter = drawn.bore_diameter.value_or(in_metres(size.width));
    work.bore_pits = pits_round(stretch.line, size.pit_side);
    return work;
  }
  const bool by_hand = stretch.method == RouteMethod::hand;
  work.kind = WorkKind::trench;
  work.method = by_hand ? DigMethod::hand : DigMethod::machine;
  work.width = in_metres(size.width);
  work.depth = in_metres(size.depth);
  work.working_room = in_metres(by_hand ? 0 : size.room);
  return work;
}

}  // namespace

LineSize line_size_of(const Work& work, const Tables& tables) {
  LineSize size;
  const bool bore = work.kind == WorkKind::bore;
  size.width = bore ? default_width(WorkKind::trench).length().metres() : width_of(work).metres();
  size.depth = depth_of(work).metres();
  size.room = work.working_room ? work.working_room->length().metres() : 0;
  size.pit_side = tables.parameter("cutting.bore.pit_side").best;
  size.bore_depth = std::max(size.depth, tables.parameter("routes.bore.crown_depth").best);
  return size;
}

Design design_of(const RouteWay& way, const Work& drawn, const LineSize& size,
                 const RoutePrices& prices, const SearchOptions& options) {
  Design design;
  for (const RouteStretch& stretch : way) {
    RouteStretch built = stretch;
    if (stretch.method != RouteMethod::bore)
      if (auto line = rounded(stretch.line, options.least_radius)) built.line = std::move(*line);
    const double length = length_of(built.line).metres();
    design.length += length;
    design.building += length * prices.per_metre(built.method);
    design.works.push_back(part_of_work(drawn, built, size, design.works.size() + 1));
  }
  design.building += pits_of(way) * prices.pit + changes_of(way) * prices.change +
                     bends_of(line_of(way), options.bend_angle) * prices.bend;
  return design;
}

}  // namespace rootstead
