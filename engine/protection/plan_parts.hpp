// The parts of a protection plan, as plain data: they can be computed, or drawn by hand and then
// checked by find_clashes() (engine/protection/clashes.hpp).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/prescription.hpp"
#include "engine/base/units.hpp"
#include "engine/geom/shapes.hpp"
#include "engine/site/work.hpp"

namespace rootstead {

struct ProtectionOptions {
  enum class Zones { main_rule, strictest } zones = Zones::main_rule;
  // Which new works the fence makes room for: those approved, or those proposed too.
  bool proposed_works = true;
  bool mulch = true;                  // bare ground inside the fences
  std::optional<double> months = {};  // how long the works last; unknown: one month of visits
  UnitSystem units = UnitSystem::metric;
};

// ---- trees and the ground that is theirs --------------------------------------------------------

struct ProtectedTree {
  std::string tree, rule, zone;  // ids
  MultiPolygon ground;           // the zone within the boundary, in front of walls and buildings
  MultiPolygon open;             // of it: neither fenced nor taken by works; left over
  double fenced = 0;             // share of `ground` inside fences
  double covered = 0;            // share of it under ground protection
  Length plate;                  // radius round the stem kept clear of driven posts
};

struct TreeLeftOut {
  std::string tree, reason;
};

// Ground shut off by fences and by the walls of buildings; may be round several trees.
struct Enclosure {
  std::string id;  // "E1"
  Polygon area;
  std::vector<std::string> trees;  // whose ground lies in it
};

// ---- fences -------------------------------------------------------------------------------------

// What a post stands on. Ballasted: blocks or trays on the ground with a stay inside, nothing
// driven; beside stems and over structural roots.
enum class Footing { driven, ballasted };

struct FencePost {
  Point at;
  Footing footing = Footing::driven;
  Length moved;  // along the fence, off the even spacing; zero: not moved
};

// A stretch of a fence by chainage from its first point, all of it on one footing.
struct FenceStretch {
  Length from, to;
  Footing footing = Footing::driven;
  std::vector<std::string> trees;  // whose plate it crosses
};

struct Fence {
  std::string id;         // "F1"
  std::string enclosure;  // id; empty: of none
  Line line;              // straight runs from corner to corner; a closed one ends where it began
  std::vector<FenceStretch> stretches;  // all of its length, gates included
  std::vector<FencePost> posts;
};

enum class GateUse { people, machines };

struct FenceGate {
  std::string id;     // "G1", or the id of the site's gate
  std::string fence;  // id
  Point at;           // its middle, on the fence
  Length width;
  GateUse use = GateUse::people;
};

// A way for machines through the ground of trees, left open between fences and covered, because a
// gate or a work cannot be reached otherwise.
struct Way {
  std::string id;    // "Y1"
  std::string work;  // id of the work that is reached; empty where it is a gate
  std::string gate;  // id of the site's gate; empty where it is a work
  Line line;
  Length width;
};

// ---- ground and digging -------------------------------------------------------------------------

// By the gross mass of what passes. The layers themselves are designed for the vehicle elsewhere.
enum class LoadClass { foot, light_plant, heavy };

struct CoveredGround {
  std::string id;  // "P1"
  MultiPolygon area;
  LoadClass load = LoadClass::heavy;
  bool load_assumed = false;       // no vehicle on record: the heaviest class was taken
  std::string work, way;           // ids: what needs it; both empty: ground that no fence can hold
  std::vector<std::string> trees;  // in whose ground
};

// New surfacing over roots: built on top of the ground as it lies.
struct NoDigArea {
  std::string work;
  MultiPolygon area;
  std::vector<std::string> trees;
};

// The edge of an excavation that faces kept trees, inside their ground.
struct RootCutLine {
  std::string id;  // "R1"
  std::string work;
  Line line;
  Length depth;
  Length nearest;  // to the nearest of the stems' centres
  std::vector<std::string> trees;
};

// Part of a line work inside the ground of kept trees, by chainage along one of its lines.
struct DigStretch {
  std::string id;  // "D1"
  std::string work;
  std::size_t line = 0;  // of Work::shape.lines
  Length from, to;
  Point start, end;  // on the line
  DigMethod method = DigMethod::hand;
  std::vector<std::string> trees;
};

// A bore beneath the ground of kept trees.
struct BorePassage {
  std::string work;
  std::size_t line = 0;
  Length from, to;
  Length crown_depth;
  std::size_t pits_in_ground = 0;  // pits that lie in the ground of kept trees
  std::vector<std::string> trees;
};

// A trunk that no fence can hold off wheels and tools.
struct StemGuard {
  std::string tree, reason;
};

struct Sign {
  std::string fence;
  Point at;
};

// ---- order, visits, quantities, clashes ---------------------------------------------------------

// One step of the works. At a hold point nothing goes on until those named have seen it and said
// so in writing.
struct Step {
  int number = 0;
  std::string text;
  bool hold = false;
  std::vector<std::string> attends;  // "arborist", "site manager", "authority" ...
  std::string record;                // what is written
  Citation from;
};

struct Inspection {
  std::string trigger;  // an event, or "every month"
  std::string looks_at;
  double visits = 1;
  Citation from;
};

struct BillItem {
  std::string name;  // "fence-driven"
  std::string text;  // "Fence on driven posts, gates not counted"
  std::string unit;  // "m", "m2", "m3", "no"
  double quantity = 0;
  std::vector<std::string> parts;  // ids of what was measured
  Citation from;
};

enum class ClashKind {
  fence_in_work,        // a fence in the room a work needs
  outside_boundary,     // fence or enclosure on ground that is not the client's
  tree_unprotected,     // a kept tree that neither fence nor cover protects
  access_missing,       // work or gate shut in, with no gate or way for machines
  cover_on_excavation,  // ground protection where the ground is dug away
  fence_near_stem,      // too close for the trunk and its flare
  fences_cross,
  enclosure_without_gate,  // no way in for those who tend the tree
  fence_in_building,
  fence_gap,  // an outline that no fence, gate or wall closes
  post_near_stem,
};

struct Clash {
  ClashKind kind = ClashKind::fence_in_work;
  std::vector<std::string> ids;  // fences, enclosures, works, trees, gates concerned
  Point at;
  std::string text, remedy;  // a sentence each
};

struct ProtectionPlan {
  std::vector<ProtectedTree> trees;
  std::vector<TreeLeftOut> not_kept;  // trees that are to go or be moved
  std::vector<Enclosure> enclosures;
  std::vector<Fence> fences;
  std::vector<FenceGate> gates;
  std::vector<Way> ways;
  std::vector<CoveredGround> covers;
  std::vector<NoDigArea> no_dig;
  std::vector<RootCutLine> root_cuts;
  std::vector<DigStretch> digs;
  std::vector<BorePassage> bores;
  std::vector<StemGuard> guards;
  std::vector<Sign> signs;
  MultiPolygon mulch;
  std::vector<Step> steps;
  std::vector<Inspection> inspections;
  std::vector<BillItem> bill;
  std::vector<Clash> clashes;
  std::vector<Prescription> prescriptions;
  std::vector<Note> notes;
};

Length length_of(const Fence& fence);  // gates included

std::string_view to_text(Footing footing);  // "driven", "ballasted"
std::string_view to_text(GateUse use);      // "people", "machines"
std::string_view to_text(LoadClass load);   // "foot", "light plant", "heavy"
std::string_view to_text(ClashKind kind);   // "fence in work", "outside boundary" ...

}  // namespace rootstead
