// The project file: one GeoPackage that any GIS opens (docs/formats/project.md). Writes are
// transactions: a killed program leaves the file as it was.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
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
  std::string kind;     // "trees", "works", "barriers", "ground"
  std::string mapping;  // the column map used, TOML text
  std::vector<Tree> trees;
  std::vector<Work> works;
  std::vector<Barrier> barriers;
  std::vector<Surface> surfaces;
  std::vector<Problem> problems;  // by row; kept in the project, listed by `check`
  std::size_t rows_read = 0;
};

class Project {
 public:
  // Fails with crs_unsuitable for a geographic or Web-Mercator system (with the reason),
  // crs_unknown, or file_unwritable; never overwrites an existing file.
  static Result<Project> create(const std::filesystem::path& file, const ReferenceSystem& system,
                                const ProjectSettings& settings);
  // Fails with file_not_found, format_unknown, format_newer or project_busy. A file left behind by
  // a killed program is recovered first; recovered() then says so.
  static Result<Project> open(const std::filesystem::path& file);

  Project(Project&&) noexcept;
  Project& operator=(Project&&) noexcept;
  ~Project();

  bool recovered() const;
  const ReferenceSystem& system() const;

  Result<Site> read() const;
  std::vector<Problem> import_problems() const;

  // One transaction each.
  Outcome add(const Import& import, const std::string& when);
  Outcome save_settings(const ProjectSettings& settings, const std::string& when);
  Outcome save_assessment(const Site& site, const Assessment& assessment, const std::string& when);

  Result<std::vector<JournalEntry>> journal() const;  // checked: fails where the chain is broken

 private:
  struct State;
  explicit Project(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

// The system named by "EPSG:27700" or any text PROJ knows. Fails with crs_unknown, or
// crs_unsuitable where it is geographic, Web Mercator or not in a plane.
Result<ReferenceSystem> reference_system(const std::string& code);

}  // namespace rootstead::io
