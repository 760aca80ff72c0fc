// Work: something that will be, or was, done to the ground; and Barrier: something in the ground
// that roots meet.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/units.hpp"
#include "engine/geom/shapes.hpp"
#include "engine/site/soil_words.hpp"
#include "engine/site/tree.hpp"

namespace rootstead {

enum class WorkKind {
  trench,       // line, width, depth, working room each side
  pit,          // polygon, depth: excavation, foundation pit
  cut,          // polygon, depth: ground lowered
  fill,         // polygon, height of fill in `depth`
  paving,       // polygon, construction depth in `depth`
  traffic,      // polygon: wheels, tracks, storage
  building,     // polygon, foundation depth
  fence_posts,  // line or points: spacing, post hole width and depth
  bore,         // line, depth to crown of bore, bore diameter, pits as polygons
  root_cut,     // line, depth: roots severed along a line, no soil removed
};

enum class WorkState { proposed, approved, existing };
enum class DigMethod { machine, hand, air };

// What a work or barrier looks like in plan: a line, areas, or single points.
struct Shape {
  std::vector<Line> lines;
  MultiPolygon areas;
  std::vector<Point> points;
  bool empty() const { return lines.empty() && areas.empty() && points.empty(); }
};

// What drives or stands on the ground; what is not known is left out.
struct Vehicle {
  std::string name;                            // "8 t excavator"
  std::optional<double> gross_mass;            // kg
  std::optional<double> wheel_load;            // kN, the heaviest wheel; of tracks: one track
  std::optional<double> contact_pressure;      // kPa
  std::optional<EnteredLength> contact_width;  // of one wheel or track
  std::optional<EnteredLength> contact_length;
  std::optional<double> passes;  // in all
};

// What lies between the wheels and the soil.
struct GroundCover {
  std::string name;                          // "composite mats on wood chips"
  std::optional<EnteredLength> chips;        // thickness of the loose layer
  std::optional<EnteredLength> plate_width;  // of one stiff board, mat or plate
  std::optional<EnteredLength> plate_length;
};

struct Work {
  std::string id;  // unique in the project
  std::string name;
  WorkKind kind = WorkKind::trench;
  WorkState state = WorkState::proposed;
  DigMethod method = DigMethod::machine;
  Shape shape;
  std::optional<EnteredLength> width;         // trench; post hole side
  std::optional<EnteredLength> depth;         // see WorkKind
  std::optional<EnteredLength> working_room;  // beyond each side of a trench or edge of a pit
  std::optional<EnteredLength> bore_diameter;
  std::optional<EnteredLength> spacing;  // of fence posts along the line
  MultiPolygon bore_pits;
  bool permeable = false;            // paving
  std::optional<Vehicle> vehicle;    // traffic
  std::optional<GroundCover> cover;  // traffic: laid before the first wheel
  SoilTexture fill_texture = SoilTexture::unknown;
  bool wet = false;  // done while the ground is wet
  std::string date;  // of existing works: when they were done, "2024-05" or "2024-05-17"
  std::string seen;  // of existing works: what was seen of the damage
  std::string notes;
  Origin origin;

  // Are the roots in its footprint lost at once? True of everything that removes ground, and of a
  // root cut; false of fill and traffic, which press, and of paving laid without digging (depth 0).
  bool digs() const;
};

enum class BarrierKind { wall, foundation, kerb, root_barrier, building, rock, water };

struct Barrier {
  std::string id;
  std::string name;
  BarrierKind kind = BarrierKind::wall;
  Shape shape;
  std::optional<EnteredLength> width;  // of a line barrier
  std::optional<EnteredLength> depth;  // to its underside
  std::string notes;
  Origin origin;
};

// Ground that is sealed or surfaced today.
struct Surface {
  std::string id;
  std::string name;
  bool permeable = false;
  MultiPolygon area;
  Origin origin;
};

// The ground a work takes, in plan, without overlaps:
// - areas as they are, lines as corridors of the work's width, single points as squares of it;
//   a line that closes on itself is an area where the kind is one (pit, cut, fill, paving, traffic,
//   building);
// - fence posts: square holes, evenly along each line from end to end, no further apart than the
//   spacing; posts closer than their own width, or than 0.1 m, are a trench;
// - a bore: its pits, and its line only where the crown is shallower than kShallowBore;
// - a root cut: the thin corridor of the tool, kRootCutWidth.
// `with_working_room` adds the room all round, where machines press and store but do not dig.
// A missing width is filled with the default of the kind; callers say so by a note. Empty where
// the work has no shape.
MultiPolygon footprint(const Work& work, bool with_working_room = false);

// What is assumed where the record is silent; all our assumption, shown as notes wherever used.
inline constexpr Length kRootCutWidth = Length::millimetres(100);
inline constexpr Length kShallowBore = Length::millimetres(600);  // most roots live above this
inline constexpr EnteredLength kDefaultPostSpacing{2.4, LengthUnit::metre};
EnteredLength default_width(WorkKind kind);
EnteredLength default_depth(WorkKind kind);  // of a bore: shallow, so that nothing is overlooked
EnteredLength default_depth(BarrierKind kind);
Length width_of(const Work& work);  // entered (a bore's is its diameter), or the default
Length depth_of(const Work& work);  // entered, or the default
Length depth_of(const Barrier& barrier);

std::string_view to_text(WorkKind kind);  // "trench", "pit", "fence posts", "root cut" ...
std::string_view to_text(WorkState state);
std::string_view to_text(DigMethod method);
std::string_view to_text(BarrierKind kind);
// Words of plans in English, German, French, Spanish or Dutch; case, accents and hyphens do not
// matter: "Trench", "Leitungsgraben", "tranchée", "zanja", "sleuf" ...
std::optional<WorkKind> work_kind_from(std::string_view text);
std::optional<WorkState> work_state_from(std::string_view text);
std::optional<DigMethod> dig_method_from(std::string_view text);
std::optional<BarrierKind> barrier_kind_from(std::string_view text);

}  // namespace rootstead
