#include "engine/roots/ground_feature.hpp"

#include <algorithm>
#include <utility>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

bool meet(const Box& a, const Box& b) {
  return !a.empty() && !b.empty() && a.min_x <= b.max_x && b.min_x <= a.max_x &&
         a.min_y <= b.max_y && b.min_y <= a.max_y;
}

Box box_of(const Shape& shape, double margin) {
  Box box = joined(rootstead::box_of(shape.areas), rootstead::box_of(shape.points));
  for (const Line& line : shape.lines) box = joined(box, rootstead::box_of(line));
  if (box.empty()) return box;
  return {box.min_x - margin, box.min_y - margin, box.max_x + margin, box.max_y + margin};
}

std::string name_of(const std::string& id, const std::string& name) {
  if (name.empty() || name == id) return id;
  return id.empty() ? name : id + " (" + name + ")";
}

// Things that are an area when drawn as a line that closes on itself.
bool is_areal(BarrierKind kind) {
  return kind == BarrierKind::building || kind == BarrierKind::rock || kind == BarrierKind::water;
}
bool closes(const Line& line) {
  return line.size() > 3 && line.front() == line.back();
}

MultiPolygon ground_of(const Barrier& barrier, Length width) {
  std::vector<MultiPolygon> parts = {barrier.shape.areas};
  for (const Line& line : barrier.shape.lines) {
    parts.push_back(is_areal(barrier.kind) && closes(line) ? MultiPolygon{{line, {}}}
                                                           : corridor(line, width / 2));
  }
  for (const Point& point : barrier.shape.points) {
    const Point west{point.x - width.metres() / 2, point.y};
    const Point east{point.x + width.metres() / 2, point.y};
    parts.push_back(corridor({west, east}, width / 2));
  }
  return union_of(parts);
}

class Collector {
 public:
  Collector(const Tables& tables, const Box& around, double cell, double leak)
      : tables_(tables), around_(around), cell_(cell), leak_(std::clamp(leak, -1.0, 1.0)) {}

  void add(const Barrier& barrier) {
    const Length width =
        barrier.width ? barrier.width->length() : Length::metres(best(line_width(barrier.kind)));
    if (!meet(box_of(barrier.shape, width.metres()), around_)) return;
    const auto [above, below] = ease_of(barrier.kind);
    keep({name_of(barrier.id, barrier.name), ground_of(barrier, width), depth_of(barrier).metres(),
          above, below, true});
  }

  void add(const Surface& surface) {
    if (!meet(rootstead::box_of(surface.area), around_)) return;
    keep({name_of(surface.id, surface.name),
          surface.area,
          0,
          {},
          paved(surface.permeable ? "permeable" : "pavement"),
          false});
  }

  void add(const Work& work) {
    if (work.state != WorkState::existing) return;
    Box box = box_of(work.shape, width_of(work).metres());
    box = joined(box, rootstead::box_of(work.bore_pits));
    if (!meet(box, around_)) return;
    const double depth = depth_of(work).metres();
    const std::string name = name_of(work.id, work.name);
    if (work.kind == WorkKind::paving) {
      const bool road = !work.permeable && depth >= best("road_base");
      const char* const kind = work.permeable ? "permeable" : road ? "road" : "pavement";
      keep({name, footprint(work), 0, {}, paved(kind), false});
    } else if (work.kind == WorkKind::building) {
      const auto [above, below] = ease_of(BarrierKind::building);
      keep({name, footprint(work), depth, above, below, true});
    } else if (work.digs()) {
      const double dug = value("trench_speed");
      keep({name, footprint(work), depth, {dug, dug}, {}, true});
    }
  }

  std::vector<GroundFeature> take() { return std::move(features_); }

 private:
  const Parameter& parameter(const std::string& name) const {
    return tables_.parameter("barriers." + name);
  }
  double best(const std::string& name) const { return parameter(name).best; }
  double value(const std::string& name) const {
    const Parameter& p = parameter(name);
    return p.best + leak_ * (leak_ < 0 ? p.best - p.low : p.high - p.best);
  }

  static const char* line_width(BarrierKind kind) {
    switch (kind) {
      case BarrierKind::kerb:
        return "kerb_width";
      case BarrierKind::root_barrier:
        return "sheet_width";
      default:
        return "wall_width";
    }
  }

  Ease paved(const std::string& kind) const {
    return {value(kind + "_speed"), value(kind + "_rooting")};
  }

  // Above and below the underside.
  std::pair<Ease, Ease> ease_of(BarrierKind kind) const {
    switch (kind) {
      case BarrierKind::root_barrier:  // thinner than a cell: soil lies on both sides of it
        return {{std::min(1.0, value("sheet_leak") * cell_ / best("sheet_thickness")), 1}, {}};
      case BarrierKind::water:
        return {{0, 0}, {value("below_water_speed"), value("below_water_speed")}};
      default:
        return {{0, 0}, {value("below_speed"), value("below_rooting")}};
    }
  }

  void keep(GroundFeature feature) {
    if (!feature.area.empty()) features_.push_back(std::move(feature));
  }

  const Tables& tables_;
  Box around_;
  double cell_, leak_;
  std::vector<GroundFeature> features_;
};

}  // namespace

std::vector<GroundFeature> features_round(const Site& site, const Tables& tables, const Box& around,
                                          double cell, double leak) {
  Collector found(tables, around, cell, leak);
  for (const Barrier& barrier : site.barriers) found.add(barrier);
  for (const Surface& surface : site.surfaces) found.add(surface);
  for (const Work& work : site.works) found.add(work);
  return found.take();
}

double rootable_depth(const Soil& soil, const Tables& tables) {
  double depth = tables.parameter("roots.depth_limit").best;
  if (soil.rooting_depth) depth = std::min(depth, soil.rooting_depth->length().metres());
  if (soil.water_table) depth = std::min(depth, soil.water_table->length().metres());
  return depth;
}

}  // namespace rootstead
