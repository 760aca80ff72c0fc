// Site: everything known about one job before anything is computed.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/note.hpp"
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

enum class SoilTexture { unknown, sand, loam, silt, clay };
enum class Drainage { unknown, free, poor };

// One soil for the whole site; layers come with the full root model.
struct Soil {
  SoilTexture texture = SoilTexture::unknown;
  Drainage drainage = Drainage::unknown;
  std::optional<EnteredLength> rooting_depth;  // to rock, pan or water table
  bool compacted = false;
  std::string notes;
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

// All problems of the site itself, in the order of trees, works, barriers and surfaces: what is
// missing, impossible or doubtful in each, double ids and tags, trees inside buildings or paving,
// shapes that cross themselves, defaults that will be used, things far from all others or with
// easting and northing exchanged. Nothing is changed or dropped. Where every tree (or barrier) of a
// file of at least ten lacks the same measurement, one problem says so for all of them.
// The bounds of what is plausible are in plausible.hpp. Cost: n log n; 130,000 trees in a second.
std::vector<Problem> problems_of(const Site& site);

}  // namespace rootstead
