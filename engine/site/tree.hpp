// Tree: what a surveyor writes down about one tree, as it was written down. Everything that is
// derived (a diameter for a rule, a filled crown) is computed elsewhere and never stored here.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/units.hpp"
#include "engine/geom/shapes.hpp"

namespace rootstead {

enum class GrowthForm { unknown, broadleaf, conifer, palm, other_monocot };
enum class Condition { unknown, good, fair, poor, dead };
enum class LifeStage { unknown, young, semi_mature, mature, over_mature, veteran };

// Where a record came from, so that every message can say so.
struct Origin {
  std::string file;
  std::string place;  // "row 12", "layer TREES entity 3F"
};

struct Stem {
  enum class Read { diameter, girth };
  Read read = Read::diameter;
  EnteredLength size;
  std::optional<EnteredLength> measured_at;  // height above ground

  Length diameter() const;  // girth / pi where a girth was read
  Length girth() const;
};

// Crown radii from the stem centre in the four directions of grid north.
struct Crown {
  enum Side { north, east, south, west };
  std::array<EnteredLength, 4> radius;
  std::optional<EnteredLength> base_height;
  bool columnar = false;  // upright narrow form, for rules that treat it apart

  Length largest_radius() const;
  Length mean_radius() const;  // radius of the circle with the outline's area
};

// The trunk a little above the ground, for the screening of buried flares.
struct TaperReading {
  EnteredLength height;  // above ground level today
  EnteredLength diameter;
};

// What a person sees at the base without digging.
enum class FlareSign {
  no_flare_all_round,  // the trunk goes into the ground like a pole
  flare_on_one_side,   // roots on one side only
  graft_below_ground,  // the graft union is not seen
  gap_when_rocked,     // the trunk moves in a hole of its own
  roots_round_trunk,   // a root lies across or round the trunk
  soil_or_mulch_heaped,
  wet_or_soft_bark,
  mushrooms_at_base,
  stem_roots,  // roots from the trunk above the flare
};

// What was found where the base was uncovered.
struct FlareRecord {
  std::string date, seen_by;
  std::optional<EnteredLength> flare_depth;           // below the ground before digging
  std::optional<EnteredLength> first_main_root = {};  // depth of its upper side
  std::optional<double> girdled_share;                // of the circumference, 0 to 1
  std::optional<EnteredLength> excavation_radius;     // from the bark
  std::string notes;
};

struct Flare {
  enum class State { unknown, visible, buried };
  State state = State::unknown;
  std::optional<EnteredLength> buried_by;
  std::vector<TaperReading> taper = {};
  std::vector<FlareSign> signs = {};
  std::optional<FlareRecord> found = {};
};

// How the tree came to stand where it stands; decides what moving it means.
enum class GrowthHistory { unknown, from_seed_in_place, planted_from_nursery, moved_before };
// What the project wants with it.
enum class Intent { undecided, keep, move, remove };

struct Lean {
  Angle from_vertical;
  Angle towards;  // azimuth
};

struct Position {
  Point at;                            // project coordinates
  std::string source;                  // "total station", "tape ties", "phone"
  std::optional<EnteredLength> error;  // one-sigma, as stated by whoever measured
};

struct Tree {
  std::string id;   // unique in the project; the tag where tags are unique
  std::string tag;  // as on the label
  std::string botanical_name;
  std::string common_name;
  GrowthForm form = GrowthForm::unknown;
  std::vector<Stem> stems;
  std::optional<EnteredLength> basal_diameter;  // just above the root buttress
  std::optional<EnteredLength> height;
  std::optional<Crown> crown;
  Condition condition = Condition::unknown;
  LifeStage stage = LifeStage::unknown;
  std::optional<Lean> lean;
  Flare flare;
  GrowthHistory history = GrowthHistory::unknown;
  Intent intent = Intent::undecided;
  std::optional<EnteredLength> clear_trunk;  // palms: ground to the lowest leaf base
  std::optional<Position> position;
  std::string ownership;   // "client", "neighbour", "street"
  std::string protection;  // order, ordinance or permit that protects it, as stated
  std::string category;    // retention or quality category, as stated
  std::string notes;
  Origin origin;

  bool is_monocot() const { return form == GrowthForm::palm || form == GrowthForm::other_monocot; }
  const std::string& label() const { return tag.empty() ? id : tag; }
};

// The crown outline as a closed curve: four quarter ellipses through the four radii, which meet
// without a kink; `grown_by` gives the curve parallel to it, that far out all round. `segments`
// chords a quarter, points on the true curve, counter-clockwise from the east; the area is low by
// 0.04 % for a round crown, 0.08 % where a radius is twice its neighbour, 0.4 % where five times.
// A negative radius counts as nil. Requires: tree.position, tree.crown, grown_by >= 0.
Polygon crown_outline(const Tree& tree, Length grown_by = {}, int segments = 32);

// The exact area inside that curve: pi/4 (n + s)(e + w) for radii n, e, s, w, and where it is
// grown by g, also g times the length of the outline and pi g^2.
Area crown_area(const Crown& crown, Length grown_by = {});

std::string_view to_text(GrowthForm form);
std::string_view to_text(Condition condition);
std::string_view to_text(LifeStage stage);
std::string_view to_text(Flare::State state);
std::string_view to_text(FlareSign sign);         // "no flare all round" ...
std::string_view to_text(GrowthHistory history);  // "from seed in place" ...
std::string_view to_text(Intent intent);          // "undecided", "keep", "move", "remove"
// Words a surveyor uses in English, German, French, Spanish or Dutch; case, accents and hyphens do
// not matter: "palm", "Broad-leaved", "Nadelbaum", "résineux", "over-mature" ...
std::optional<GrowthForm> growth_form_from(std::string_view text);
std::optional<Condition> condition_from(std::string_view text);
std::optional<LifeStage> life_stage_from(std::string_view text);
std::optional<Flare::State> flare_state_from(std::string_view text);
std::optional<FlareSign> flare_sign_from(std::string_view text);
std::optional<GrowthHistory> growth_history_from(std::string_view text);
std::optional<Intent> intent_from(std::string_view text);

}  // namespace rootstead
