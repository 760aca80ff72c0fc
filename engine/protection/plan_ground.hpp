// Inside engine/protection only: what a plan is drawn on. Kept trees with their ground, the works
// that count with the room they need, what stands in the way.
#pragma once

#include <string>
#include <vector>

#include "engine/assess/assess.hpp"
#include "engine/geom/box_index.hpp"
#include "engine/protection/plan_parts.hpp"
#include "engine/site/site.hpp"

namespace rootstead {

// The parameters `protection.*`, best values.
struct PlanFigures {
  Length post_spacing, sign_spacing, fence_height, people_gate, way_width, gate_reach, least_width,
      straightening, clear_of_room, clear_of_stem, palm_plate, mulch_clear;
  Area least_area;
  Mass light_plant;
  double plate_per_diameter = 4, least_protected = 0.5;
};
PlanFigures plan_figures(const Tables& tables);

struct KeptTree {
  const Tree* tree = nullptr;
  const Zone* zone = nullptr;  // null: `reason` says why
  MultiPolygon ground;         // the zone within the boundary, in front of what stands there
  MultiPolygon wanted;         // the same, its outline in straight runs on or outside the zone
  Length trunk, plate;         // radii
  std::string reason;          // why there is no ground to protect; empty where there is
  Box box;                     // of wanted
};

struct CountedWork {
  const Work* work = nullptr;
  MultiPolygon footprint, with_room;
  MultiPolygon kept_clear;  // with room and the clearance of a fence; empty: needs none
  LoadClass load = LoadClass::heavy;
  bool load_assumed = false;
  Box box;  // of with_room
};

// A frame that moves and turns with the site, so that what is chosen by it does too.
struct SiteFrame {
  Point origin;
  double angle = 0;  // radians, of its first axis
  Point of(const Point& p) const;
};

struct PlanGround {
  PlanFigures figures;
  SiteFrame frame;
  std::vector<KeptTree> kept;  // order of the site
  std::vector<TreeLeftOut> not_kept;
  std::vector<CountedWork> works;
  MultiPolygon boundary;  // empty: not known
  MultiPolygon built;     // buildings, rock and water: nobody passes, no fence stands
  MultiPolygon standing;  // the same and walls that stop roots
  MultiPolygon closing;   // buildings and walls: a fence may end at them
  MultiPolygon surfaced;  // sealed or paved today
  MultiPolygon kept_clear, excavated, rooted;  // unions: of works; dug by them; of trees' ground
  BoxIndex tree_places, work_places;
  std::vector<Note> notes;

  std::vector<std::size_t> works_meeting(const Box& box) const;
  std::vector<std::size_t> trees_meeting(const Box& box) const;
  // Ids of kept trees with more than a touch of ground in `area`.
  std::vector<std::string> trees_in(const MultiPolygon& area) const;
};

PlanGround plan_ground(const Site& site, const Tables& tables, const Assessment& assessment,
                       const ProtectionOptions& options);

// Areas below this are rounding or a touch: 0.05 m2, our choice.
inline constexpr Area kTouch = Area::square_metres(0.05);
// Works done by hand inside a fence, that need no room of their own.
bool done_inside(const Work& work);
Box grown_box(const Box& box, Length by);
// The part of a polygon's parts that meet `area` by more than a touch.
MultiPolygon parts_meeting(const MultiPolygon& parts, const MultiPolygon& area);

}  // namespace rootstead
