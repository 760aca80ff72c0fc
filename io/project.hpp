// The project: one GeoPackage that any GIS opens, or the same tables on a server for several people
// at once (docs/formats/project.md). Writes are transactions: a killed program leaves the project
// as it was. Every `file` may be the address of a project on a server (io/team_address.hpp).
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/rootstead.hpp"

namespace rootstead::io {

// A row of the journal: what was done, when, by which command. Appended, never changed; each row
// carries the hash of the one before it.
struct JournalEntry {
  std::string when;  // ISO 8601, UTC
  std::string action;
  std::string detail;
  std::string hash;
};

// Everything `add` read from one source.
struct Import {
  std::string source;   // file name as given
  std::string kind;     // "trees", "works", "barriers", "ground", "soil", "boundary" ...
  std::string mapping;  // the column map used, TOML text
  std::vector<Tree> trees;
  std::vector<Work> works;
  std::vector<Barrier> barriers;
  std::vector<Surface> surfaces;
  std::vector<Evidence> evidence;
  MultiPolygon boundary;  // where it says one, it replaces that of the project
  std::vector<Gate> gates;
  std::optional<Soil>
      soil;  // what it says replaces what the project has; what it leaves open stays
  std::vector<Problem> problems;  // by row; kept in the project, listed by `check`
  std::size_t rows_read = 0;
};

// Of a surface of ground levels: the ground as it is, or as it is to be.
enum class LevelState { existing, proposed };

// The time now, "2026-11-25T09:30:00Z": the `when` of what a person does now.
std::string utc_now();

enum class ThingSort { tree, work, barrier };

// Trees, works and barriers as they are from now on, and those that are no more.
struct Edits {
  std::vector<Tree> trees;
  std::vector<Work> works;
  std::vector<Barrier> barriers;
  std::vector<std::pair<ThingSort, std::string>> removed;  // with its id
};

// How an edit stands to what others do at the same time.
struct EditTerms {
  // Names the edit for good: sent again with the same key, after a lost answer or a killed program,
  // it is done once. Empty: it has no name.
  std::string key;
  // Others may have changed other things since this Project last read it; only where they changed
  // the same ones (or something that is not known) the edit is refused. What they did is seen when
  // the project is read again.
  bool beside_others = false;
};

// A thing as it was before a change.
struct HistoryEntry {
  std::int64_t journal_number = 0;  // of the change: the n-th entry of the journal
  std::string sort;                 // its table: "trees"
  std::string id;                   // empty where the whole table is meant
  bool existed = false;             // else it was new
  std::string before;               // JSON: its rows by table
};

class Project {
 public:
  // Fails with crs_unsuitable for a geographic or Web-Mercator system (with the reason),
  // crs_unknown, or file_unwritable; never overwrites an existing file. On a server also with
  // file_unreadable, file_not_found (no such database), wrong_use (the address), format_unknown.
  static Result<Project> create(const std::filesystem::path& file, const ReferenceSystem& system,
                                const ProjectSettings& settings,
                                const std::string& when = utc_now());
  // Fails with file_not_found, format_unknown, format_newer or project_busy. A file left behind by
  // a killed program is recovered first (which needs leave to write); recovered() then says so.
  // A write-protected project can be opened and read.
  static Result<Project> open(const std::filesystem::path& file);
  // Every row of a project, its history and journal with it, in a new project: from file to server,
  // from server to file, or the same again. Fails as open() and create() do. Gives what was no part
  // of a project and stays behind: columns and tables that somebody else added.
  static Result<std::vector<std::string>> copy(const std::filesystem::path& from,
                                               const std::filesystem::path& to);

  Project(Project&&) noexcept;
  Project& operator=(Project&&) noexcept;
  ~Project();

  bool recovered() const;
  const ReferenceSystem& system() const;

  Result<Site> read() const;
  std::vector<Problem> import_problems() const;

  // One transaction each: on failure, and when killed, the project stays as it was.
  // All fail with project_busy where another program is writing, file_unwritable, or value_invalid
  // and invalid_geometry where a number is not finite.

  // A project of an older format stays as it is while it is only read; the first of these raises it
  // to the present one, with a row of its own in the journal.

  // Fails with duplicate where an id is in the project (or twice in the import), naming both.
  Outcome add(const Import& import, const std::string& when);
  // The same in place of what an earlier import of a file of this name brought of the same sorts:
  // things that are in it no more are taken away, what it had wrong is told anew. Fails also with
  // unknown_name where there was none.
  Outcome replace(const Import& import, const std::string& when);
  Outcome save_settings(const ProjectSettings& settings, const std::string& when);
  Outcome save_soil(const Soil& soil, const std::string& when);
  // In place of the levels of that state, with what its source had wrong. Fails also as
  // PreparedLevels::prepare() does.
  Outcome save_levels(const LevelSurface& surface, LevelState state, const std::string& source,
                      const std::vector<Problem>& problems, const std::string& when);
  // Settings, soil, wind and climate at once, where `detail` says for the journal what was set.
  // Fails with project_busy where the project was changed since this Project last read or wrote it.
  Outcome save_choices(const Site& site, const std::string& detail, const std::string& when);
  // The work lies there from now on. Fails with unknown_name where the project has no such work,
  // and with project_busy as save_choices() does.
  Outcome save_shape(const std::string& work, const Shape& shape, const std::string& when);
  // What a person changes by hand, all of it or nothing: what is taken away first; then what is
  // there already is put in its own place, what is new at the end. Import problems about what is
  // gone, and about what lacked a place or size that it has now, are gone too. Fails with
  // unknown_name where there is nothing of the id, and with project_busy as save_choices() does.
  Outcome edit(const Edits& edits, const std::string& when, const EditTerms& terms = {});
  // Replaces all earlier results. Fails with project_busy where the project was changed since this
  // Project last read or wrote it, so that results never stand beside other input.
  // With the settings it was made with, seed and draws among them.
  Outcome save_assessment(const Site& site, const Assessment& assessment, const std::string& when);

  // Names the state of the project: another one after every change, whoever makes it.
  Result<std::string> version() const;
  // In the order of the changes; of a project made before there was a history, what came later.
  Result<std::vector<HistoryEntry>> history() const;
  Result<std::vector<JournalEntry>> journal() const;  // checked: fails where the chain is broken

  struct State;  // io's own

 private:
  explicit Project(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

// The system named by "EPSG:27700", "27700" or any text PROJ knows; of a system with heights, the
// plane part. Its convergence is zero until a place is known. Fails with crs_unknown, or with
// crs_unsuitable where lengths would not be true in it: geographic, Web Mercator, geocentric, local
// systems without a place, maps of the world, units other than metre, foot and US survey foot.
Result<ReferenceSystem> reference_system(const std::string& code);

// Grid north minus true north at a place of the plane (metres, as in a Site): positive where grid
// north lies east of true north. By finite differences, to about 1e-6 degrees; zero where PROJ
// cannot tell.
Angle convergence_at(const ReferenceSystem& plane, const Point& at);

}  // namespace rootstead::io
