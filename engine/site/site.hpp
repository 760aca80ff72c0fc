// Site: everything known about one job before anything is computed.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/note.hpp"
#include "engine/geom/level_surface.hpp"
#include "engine/site/evidence.hpp"
#include "engine/site/tree.hpp"
#include "engine/site/work.hpp"

namespace rootstead {

// A projected system; positions in the Site are in metres whatever the unit of the system.
struct ReferenceSystem {
  std::string code;                          // "EPSG:27700"
  std::string name;                          // "OSGB36 / British National Grid"
  LengthUnit file_unit = LengthUnit::metre;  // unit of the system's own axes
  std::string datum;                         // for the title block
  Angle convergence;                         // grid north minus true north at the site centre
};

// One layer of the profile, from the underside of the one above. What is not known is left out
// and changes nothing.
struct SoilLayer {
  EnteredLength bottom;  // below ground level
  SoilTexture texture = SoilTexture::unknown;
  std::optional<double> bulk_density;     // g/cm3, dry
  std::optional<double> air_filled;       // share of the volume at field capacity
  std::optional<double> resistance = {};  // MPa, of a penetrometer in moist soil
  std::optional<double> sand = {}, silt = {},
                        clay = {};            // shares by mass, 0 to 1, USDA particle limits
  std::optional<double> organic_matter = {};  // share by mass
  std::optional<double> water = {};           // share of the volume, when the works are done
};

// One soil for the whole site.
struct Soil {
  SoilTexture texture = SoilTexture::unknown;
  Drainage drainage = Drainage::unknown;
  std::optional<EnteredLength> rooting_depth;  // to rock or pan
  std::optional<EnteredLength> water_table;    // its high level, below ground
  bool compacted = false;
  std::vector<SoilLayer> layers;  // from the top down; may be empty
  std::string notes;
};

// The climate of the site, for water, seasons and establishment. What is not known is left out.
struct Climate {
  std::optional<int> hardiness_zone;       // USDA, 1 to 13
  std::optional<double> latitude;          // degrees, north positive
  std::optional<double> elevation;         // m above sea level
  std::vector<double> evapotranspiration;  // reference, mm a day, January to December, or empty
  std::vector<double> rain;                // mm a day, January to December, or empty
  std::string source;                      // where the figures come from, as stated
};

// The wind a project is checked with. A national annex or local code prevails over all of it.
struct Wind {
  enum class Standard { none, en1991, asce7_16, asce7_22 } standard = Standard::none;
  double basic_speed = 0;    // m/s: EN v_b,0 (10-minute mean), ASCE V (3-second gust)
  std::string terrain;       // EN "0", "I", "II", "III", "IV"; ASCE "B", "C", "D"
  double return_years = 50;  // EN: of the probability factor
  double elevation = 0;      // m above sea level, ASCE
};

std::string_view to_text(Wind::Standard standard);  // "none", "en1991", "asce7-16", "asce7-22"
std::optional<Wind::Standard> wind_standard_from(std::string_view text);
// The terrain categories or exposures that the standard knows, as it names them; none for none.
std::vector<std::string> terrains_of(Wind::Standard standard);

// Where people and machines pass the fences or the boundary.
struct Gate {
  std::string id;
  Point at;
  EnteredLength width{4, LengthUnit::metre};
};

// Title-block texts and choices; kept as the person wrote them.
struct ProjectSettings {
  std::string title, address, client, author, credentials, date, revision, status;
  UnitSystem units = UnitSystem::metric;
  std::vector<std::string> rules;  // ids of the zone rules to apply, first is the main one
  bool demo = false;               // invented data: marked so on every output
  std::map<std::string, std::string> other;
};

struct Site {
  ProjectSettings settings;
  ReferenceSystem system;
  std::vector<Tree> trees;
  std::vector<Work> works;
  std::vector<Barrier> barriers;
  std::vector<Surface> surfaces;
  Soil soil;
  Wind wind;
  std::vector<Evidence> evidence;
  std::optional<LevelSurface> existing_levels, proposed_levels;
  MultiPolygon boundary;    // of the ground the client may use; empty: not known
  std::vector<Gate> gates;  // where machines come in
  Climate climate;

  // Null where there is none; an id goes before a tag.
  const Tree* tree(std::string_view id_or_tag) const;
  const Work* work(std::string_view id) const;
};

// One thing wrong or doubtful in a Site, for `check`. A problem that blocks makes figures
// impossible or wrong; the others are worth a look.
struct Problem {
  bool blocks = false;
  NoteCode code = NoteCode::position_missing;
  std::string subject;  // "survey.csv row 12, tree T17"
  std::string message;
  std::string remedy;
  std::string sentence() const;
};

// All problems of the site itself, in the order of trees, works, barriers, surfaces, evidence, soil
// and wind: what is missing, impossible or doubtful in each, double ids and tags, trees inside
// buildings or paving, shapes that cross themselves, defaults that will be used, things far from
// all others or with easting and northing exchanged. Nothing is changed or dropped. Where every
// tree (or barrier) of a file of at least ten lacks the same measurement, one problem says so for
// all of them. The bounds of what is plausible are in plausible.hpp. Cost: n log n; 130,000 trees
// in a second.
std::vector<Problem> problems_of(const Site& site);

}  // namespace rootstead
