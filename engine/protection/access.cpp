#include "engine/protection/access.hpp"

#include <algorithm>
#include <cmath>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

constexpr Length kFrameBeyond = Length::metres(30);  // of a site whose boundary is not known

Box box_of_all(const PlanGround& ground, const MultiPolygon& enclosures) {
  Box box = joined(box_of(enclosures), box_of(ground.built));
  for (const KeptTree& kept : ground.kept) box = joined(box, kept.box);
  for (const CountedWork& work : ground.works) box = joined(box, work.box);
  return box;
}

MultiPolygon rectangle_of(const Box& b) {
  return {{{{b.min_x, b.min_y}, {b.max_x, b.min_y}, {b.max_x, b.max_y}, {b.min_x, b.max_y}}, {}}};
}

// Ground one may stand on: open, or inside an enclosure.
struct Place {
  MultiPolygon area;
  Box box;
  std::size_t site_part = 0;  // which part of the site, as buildings and the boundary divide it
  bool fenced = false, reached = false;
};

class AccessFinder {
 public:
  AccessFinder(const Site& site, const PlanGround& ground, const MultiPolygon& enclosures,
               const std::vector<FenceGate>& gates)
      : site_(site), ground_(ground), gates_(gates) {
    const Box frame = grown_box(box_of_all(ground, enclosures), kFrameBeyond);
    corner_ = {frame.min_x, frame.min_y};
    const MultiPolygon all = ground.boundary.empty() ? rectangle_of(frame) : ground.boundary;
    const MultiPolygon parts = difference_of(all, ground.built);
    for (std::size_t i = 0; i < parts.size(); ++i) {
      for (const Polygon& open : difference_of({parts[i]}, enclosures)) add({open}, i, false);
    }
    for (const Polygon& enclosure : enclosures) add({enclosure}, 0, true);
    parts_ = parts.size();
  }

  Access find() {
    Access access;
    for (const Gate& gate : site_.gates) enter_by(gate, access);
    for (std::size_t part = 0; part < parts_; ++part) enter_anyhow(part);
    pass_gates();
    for (const CountedWork& work : ground_.works) look_for(work, access);
    for (const Place& place : places_) {
      if (place.reached && !place.fenced)
        access.reached.insert(access.reached.end(), place.area.begin(), place.area.end());
    }
    return access;
  }

 private:
  void add(MultiPolygon area, std::size_t part, bool fenced) {
    const Box box = box_of(area);
    places_.push_back({std::move(area), box, part, fenced, false});
  }

  bool machines_fit(const Place& place) const {
    return !grown(place.area, ground_.figures.way_width / -2).empty();
  }

  std::vector<std::size_t> places_near(const Point& at, Length reach) const {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < places_.size(); ++i) {
      if (distance(at, places_[i].box) <= reach && distance_between(at, places_[i].area) <= reach)
        found.push_back(i);
    }
    return found;
  }

  bool has_machine_gate_at(const Point& at) const {
    return std::any_of(gates_.begin(), gates_.end(), [&](const FenceGate& gate) {
      return gate.use == GateUse::machines &&
             distance(gate.at, at) <= gate.width / 2 + ground_.figures.gate_reach;
    });
  }

  // A gate of the boundary opens the ground behind it, or is shut in where no machine fits there.
  void enter_by(const Gate& gate, Access& access) {
    if (!is_at_boundary(gate, ground_)) return;
    bool entered = false;
    for (const std::size_t i : places_near(gate.at, ground_.figures.gate_reach)) {
      Place& place = places_[i];
      if (place.fenced ? !has_machine_gate_at(gate.at) : !machines_fit(place)) continue;
      place.reached = entered = true;
    }
    if (!entered) access.shut_in.push_back({{}, gate.id, gate.at, {}});
  }

  // Where no gate leads into a part of the site, its largest open ground is taken to be open to
  // machines; of a site without a boundary, the ground at its rim.
  void enter_anyhow(std::size_t part) {
    Place* largest = nullptr;
    for (Place& place : places_) {
      if (place.fenced || place.site_part != part) continue;
      if (place.reached) return;
      if (ground_.boundary.empty() && contains(place.area, corner_)) {
        place.reached = true;
        return;
      }
      if (largest == nullptr || area_of(place.area) > area_of(largest->area)) largest = &place;
    }
    if (largest != nullptr) largest->reached = true;
  }

  void pass_gates() {
    std::vector<std::vector<std::size_t>> joins;
    for (const FenceGate& gate : gates_) {
      if (gate.use == GateUse::machines)
        joins.push_back(places_near(gate.at, ground_.figures.straightening * 2));
    }
    for (bool changed = true; changed;) {
      changed = false;
      for (const std::vector<std::size_t>& join : joins) {
        const bool any = std::any_of(join.begin(), join.end(),
                                     [&](std::size_t i) { return places_[i].reached; });
        for (const std::size_t i : join) {
          if (!any || places_[i].reached) continue;
          places_[i].reached = changed = true;
        }
      }
    }
  }

  void look_for(const CountedWork& work, Access& access) const {
    if (done_inside(*work.work)) return;
    const Place* around = nullptr;
    for (const Place& place : places_) {
      const Box &a = place.box, &b = work.box;
      if (a.min_x > b.max_x || b.min_x > a.max_x || a.min_y > b.max_y || b.min_y > a.max_y)
        continue;
      if (area_of(intersection_of(place.area, work.with_room)) <= kTouch) continue;
      if (place.reached) return;
      if (around == nullptr || around->fenced) around = &place;
    }
    if (around == nullptr) return;  // wholly outside the boundary, or too small to stand on
    const MultiPolygon& area = work.with_room.empty() ? work.footprint : work.with_room;
    access.shut_in.push_back({work.work->id,
                              {},
                              centroid_of(area.front()),
                              around->fenced ? MultiPolygon{} : around->area});
  }

  const Site& site_;
  const PlanGround& ground_;
  const std::vector<FenceGate>& gates_;
  std::vector<Place> places_;
  std::size_t parts_ = 0;
  Point corner_;
};

double distance_to_rings(const Point& at, const MultiPolygon& area) {
  double least = HUGE_VAL;
  const auto look = [&](const Ring& ring) {
    Line line = ring;
    line.push_back(ring.front());
    least = std::min(least, distance_between(at, line).metres());
  };
  for (const Polygon& polygon : area) {
    look(polygon.outer);
    for (const Ring& hole : polygon.holes) look(hole);
  }
  return least;
}

}  // namespace

bool is_at_boundary(const Gate& gate, const PlanGround& ground) {
  if (ground.boundary.empty()) return false;
  return distance_to_rings(gate.at, ground.boundary) <= ground.figures.gate_reach.metres();
}

Access access_of(const Site& site, const PlanGround& ground, const MultiPolygon& enclosures,
                 const std::vector<FenceGate>& gates) {
  return AccessFinder(site, ground, enclosures, gates).find();
}

}  // namespace rootstead
