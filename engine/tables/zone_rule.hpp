// ZoneRule: one published rule, or one town's, as data: how big the zones are, how they are
// measured, and which limits trigger what. Read from data/rules/*.toml (io does the parsing); the
// meaning of each part is in engine/rules. docs/formats/rules.md describes the file.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/source.hpp"
#include "engine/base/units.hpp"
#include "engine/site/diameter.hpp"
#include "engine/site/tree.hpp"
#include "engine/site/work.hpp"

namespace rootstead {

// One way to get a radius (or an outline). A zone has one or several; see ZoneDefinition.
struct ZoneTerm {
  enum class Kind {
    stem_multiple,    // factor * D
    girth_multiple,   // factor * U
    power,            // factor * (base * D)^exponent, all in metres
    crown_outline,    // the crown's radii * factor, grown outward by offset
    crown_circle,     // circle of the largest crown radius * factor + offset
    height_multiple,  // factor * H
    fixed,            // offset alone
    class_table,      // by D: see rows
    vigour_table,     // factor by tolerance and life stage, times D: see matrix
  };
  Kind kind = Kind::stem_multiple;
  double factor = 1;
  double base = 1;
  double exponent = 1;
  EnteredLength offset;

  struct Row {
    EnteredLength up_to;  // D up to and including
    EnteredLength radius;
    std::optional<Status> status;  // where a row is known less well than the table
  };
  std::vector<Row> rows;                        // ascending; a D between rows takes the next one up
  double beyond_factor = 0;                     // factor * D above the last row; 0: last radius
  std::optional<EnteredLength> round_class_to;  // D rounded to this before the look-up

  std::optional<Status> beyond_status;
  std::optional<Status> between_status;  // of a D that is not exactly a row's, unrounded tables

  // Factors of D: rows good, moderate, poor tolerance; columns young, mature, over-mature.
  std::vector<std::vector<double>> matrix;

  bool about_stem() const;
  bool about_crown() const { return kind == Kind::crown_outline || kind == Kind::crown_circle; }
};

// What the radius is counted from. From bark, the distance from the centre is D/2 more. Crown terms
// are places on the ground and always stand where the crown stands.
enum class ZoneCentre { stem_centre, bark };

enum class StemMeasure { standard, basal };  // which diameter goes in: D, or that at the buttress

// What a zone is for: a limit on one must not be read as a limit on the other.
enum class ZonePurpose { vitality, stability, crown, precaution };

// Which trees a zone is for. All that is stated must hold; what is empty does not matter.
struct Applies {
  std::vector<GrowthForm> forms;        // empty: all but palms and other monocots
  std::vector<Condition> conditions;    // empty: all
  std::vector<LifeStage> stages;        // empty: all
  std::vector<std::string> categories;  // empty: all; "A" also takes in "A1"
  std::vector<std::string> taxa;        // botanical names or genera; empty: all
  std::optional<bool> columnar;         // only (true), or only not (false), columnar crowns
  std::optional<bool> several_stems;    // only, or only not, trees with more than one stem
  std::optional<bool> leaning;          // only, or only not, trees with a lean on record
};

// What several terms make together. `reach`: all ground that any of them covers, the larger circle
// where they are circles. `area`: the one term with the largest area.
enum class LargestBy { reach, area };

// Several definitions may share an id: they are alternatives, and the first that applies to a tree
// is the one that counts (a palm clause beside the stem clause, a mature category beside the rest).
struct ZoneDefinition {
  std::string id;    // "root-protection-area"
  std::string name;  // "Root protection area"
  ZonePurpose purpose = ZonePurpose::vitality;
  Applies applies;
  std::vector<ZoneTerm> terms;
  LargestBy largest_by = LargestBy::reach;
  std::optional<EnteredLength> at_least;  // both counted from `centre`
  std::optional<EnteredLength> at_most;   // of circles; a crown outline is never cut back
  ZoneCentre centre = ZoneCentre::stem_centre;
  StemMeasure measure = StemMeasure::standard;
  bool redraw_at_barriers = false;  // an equal-area polygon where a barrier stands
  Citation from;
  // Where a part is known less well than the rest: a figure that rests on it has the weaker status.
  std::optional<Status> bounds_status;  // of at_least and at_most
  std::optional<Status> redraw_status;
  std::string note;
};

// What a limit counts, and as a share of what.
struct LimitDefinition {
  enum class Measure {
    area_share,        // affected area / zone area; passed above `threshold`
    unsurfaced_share,  // new surfacing / zone area not surfaced today; passed above `threshold`
    any_entry,         // any affected area inside the zone
    nearest_approach,  // distance of the nearest affected point / zone radius; passed below
                       // `threshold`
    nearest_distance,  // the same as a length; passed below `depth`
    level_change,      // cut or fill deeper than `depth` inside `within` * radius
    trench_side,       // (affected area + area beyond it as seen from the stem) / zone area
  };
  std::string id;
  std::string zone;  // id of a ZoneDefinition of this rule
  Measure measure = Measure::area_share;
  std::vector<WorkKind> kinds;  // works that count; empty: all
  double threshold = 0;         // share or ratio; see `inclusive`
  EnteredLength depth;          // level_change; nearest_distance
  double within = 1;            // level_change: share of the radius
  bool inclusive = true;        // reaching the threshold exactly already passes the limit
  enum class Weight { note, measures, justify, refuse };
  Weight weight = Weight::measures;  // what passing it means for the tree
  std::string triggers;              // "major encroachment: viability to be shown"
  Citation from;
};

struct ZoneRule {
  std::string id;            // "bs5837-2012"
  std::string title;         // "BS 5837:2012, root protection area"
  std::string jurisdiction;  // "United Kingdom"
  std::string edition;
  std::string checked;          // date the text was last read, or "not read"
  bool off_by_default = false;  // drafts: never chosen unless named
  EnteredLength measured_at;    // height at which D is taken
  DiameterRule diameter;
  std::optional<Status> stems_status;       // of combining several stems; none: as the zone's
  std::optional<Status> many_stems_status;  // of combining more than diameter.many_above
  std::optional<EnteredLength> round_diameter_to;
  std::vector<ZoneDefinition> zones;
  std::vector<LimitDefinition> limits;
  std::vector<std::string> notes;
  std::vector<Source> sources;  // works the rule's own file names, beside those of data/sources.csv
  std::string file;             // where it was read from

  bool needs_stem() const;  // does any zone take a stem diameter or girth?
};

// Words of the rule files: "stem times", "bark", "share of area" ...
std::string_view to_text(ZoneTerm::Kind kind);
std::string_view to_text(ZoneCentre centre);
std::string_view to_text(StemMeasure measure);
std::string_view to_text(ZonePurpose purpose);
std::string_view to_text(LargestBy largest_by);
std::string_view to_text(LimitDefinition::Measure measure);
std::string_view to_text(LimitDefinition::Weight weight);
std::optional<ZoneTerm::Kind> zone_term_kind_from(std::string_view text);
std::optional<ZoneCentre> zone_centre_from(std::string_view text);
std::optional<StemMeasure> stem_measure_from(std::string_view text);
std::optional<ZonePurpose> zone_purpose_from(std::string_view text);
std::optional<LargestBy> largest_by_from(std::string_view text);
std::optional<LimitDefinition::Measure> limit_measure_from(std::string_view text);
std::optional<LimitDefinition::Weight> limit_weight_from(std::string_view text);

}  // namespace rootstead
