// add: reads one source into the project, and says what was read and how it was understood.
#include <fstream>
#include <map>
#include <ostream>

#include "cli/command.hpp"
#include "cli/job.hpp"
#include "io/import.hpp"
#include "io/import_summary.hpp"
#include "io/levels.hpp"
#include "io/revision_ledger.hpp"

namespace rootstead::cli {
namespace {

constexpr std::size_t kProblemsShown = 5;

struct AddOptions {
  std::string file;
  std::string source;
  std::string as, columns, layer, length_unit;
  std::string save_columns;
  std::string state, surface, height_unit, height_column, vertical_datum, date;
  bool replace = false;
};

// "ground" of a file of shapes or a table is ground that is surfaced; where an option of levels
// goes with it, or the file can hold nothing else, it is ground levels.
bool asks_for_levels(const AddOptions& options) {
  if (options.as == "levels") return true;
  if (!options.as.empty() && options.as != "ground") return false;
  if (io::holds_levels_only(options.source)) return true;
  return options.as == "ground" && (!options.state.empty() || !options.surface.empty());
}

Result<std::optional<LengthUnit>> unit_answered(const std::string& option,
                                                const std::string& answer) {
  using Answer = std::optional<LengthUnit>;
  if (answer.empty()) return Answer{};
  if (const Answer unit = length_unit_from(answer)) return unit;
  return Error{Code::unit_unknown, option + " " + answer, "this is no unit of length",
               "give one of m, cm, mm, ft, us-ft, in"};
}

Result<io::ReadLevelsOptions> level_options(const AddOptions& options) {
  io::ReadLevelsOptions levels;
  levels.surface = options.surface.empty() ? options.layer : options.surface;
  levels.height_column = options.height_column;
  levels.vertical_datum = options.vertical_datum;
  levels.date = options.date;
  ROOTSTEAD_TRY(levels.length_unit, unit_answered("--length-unit", options.length_unit));
  ROOTSTEAD_TRY(levels.height_unit, unit_answered("--height-unit", options.height_unit));
  return levels;
}

Result<io::ImportOptions> import_options(const AddOptions& options) {
  io::ImportOptions import;
  import.as = options.as;
  import.layer = options.layer;
  if (!options.columns.empty()) {
    ROOTSTEAD_TRY(import.columns, io::column_map_from_toml(options.columns));
  }
  if (options.length_unit.empty()) return import;
  import.length_unit = length_unit_from(options.length_unit);
  if (!import.length_unit) {
    return Error{Code::unit_unknown, "--length-unit " + options.length_unit,
                 "this is no unit of length", "give one of m, cm, mm, ft, us-ft, in"};
  }
  return import;
}

std::string said_of(const io::Import& import) {
  const std::string text = io::what_was_read(import);
  return text.empty() ? "nothing of use" : text;
}

void print_indented(const std::string& text, std::ostream& out) {
  std::size_t start = 0;
  while (start < text.size()) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    out << "  " << text.substr(start, end - start) << '\n';
    start = end + 1;
  }
}

void say_problems(const std::vector<Problem>& problems, const std::string& project,
                  std::ostream& out) {
  out << counted(problems.size(), "problem", "problems") << " in this source";
  if (problems.empty()) {
    out << ".\n";
    return;
  }
  out << ":\n";
  const std::size_t shown = std::min(problems.size(), kProblemsShown);
  for (std::size_t i = 0; i < shown; ++i) out << "  " << problems[i].sentence() << '\n';
  if (shown < problems.size()) {
    out << "  and " << problems.size() - shown << " more: rootstead check " << project << '\n';
  }
}

Outcome save_map(const io::Import& import, const std::string& file) {
  std::ofstream stream(file, std::ios::binary);
  stream << import.mapping;
  stream.close();
  if (stream) return Nothing{};
  return Error{Code::file_unwritable, file, "the column map could not be written",
               "name a folder you may write to"};
}

void say_read(const io::Import& import, const AddOptions& options, std::ostream& out) {
  out << "Read " << counted(import.rows_read, "row", "rows") << " of " << options.source << ": "
      << said_of(import) << ".\n";
  if (!import.mapping.empty()) {
    out << "Understood as (kept in the project"
        << (options.save_columns.empty() ? "" : " and in " + options.save_columns) << "):\n";
    print_indented(import.mapping, out);
  }
  say_problems(import.problems, options.file, out);
}

// Every id of the project with the file it came from.
std::map<std::string, std::string> ids_of(const Site& site) {
  std::map<std::string, std::string> ids;
  const auto note = [&ids](const auto& records) {
    for (const auto& record : records) ids.emplace(record.id, record.origin.file);
  };
  note(site.trees);
  note(site.works);
  note(site.barriers);
  note(site.surfaces);
  note(site.evidence);
  return ids;
}

// Plans of works and ground are registered with the checksum of their file.
Outcome register_plan(const AddOptions& options) {
  ROOTSTEAD_TRY(io::RevisionLedger ledger, io::RevisionLedger::open(options.file));
  return ledger.keep_checksum(options.source, io::utc_now());
}

Result<Exit> add_levels(const AddOptions& options, const Console& console) {
  ROOTSTEAD_TRY(const io::ReadLevelsOptions how, level_options(options));
  const auto state = options.state.empty() ? io::LevelState::existing
                                           : io::level_state_from(options.state).value();
  ROOTSTEAD_TRY(io::Project project, io::Project::open(options.file));
  ROOTSTEAD_TRY(const io::ReadLevels read, io::read_levels(options.source, how, project.system()));
  const std::string file = std::filesystem::path(options.source).filename().string();
  ROOTSTEAD_CHECK(project.save_levels(read.surface, state, file, read.problems, io::utc_now()));
  ROOTSTEAD_CHECK(register_plan(options));
  console.out << "Read " << options.source << " as the " << to_text(state)
              << " levels: " << read.understood << ".\n";
  say_problems(read.problems, options.file, console.out);
  return Exit::done;
}

Result<Exit> add_source(const AddOptions& options, const Console& console) {
  if (asks_for_levels(options)) return add_levels(options, console);
  ROOTSTEAD_TRY(io::ImportOptions how, import_options(options));
  ROOTSTEAD_TRY(io::Project project, io::Project::open(options.file));
  ROOTSTEAD_TRY(const Site site, project.read());
  how.taken = ids_of(site);
  ROOTSTEAD_TRY(const io::Import import, io::read_source(options.source, how, project.system()));
  if (!options.save_columns.empty()) {
    ROOTSTEAD_CHECK(save_map(import, options.save_columns));
  }
  ROOTSTEAD_CHECK(options.replace ? project.replace(import, io::utc_now())
                                  : project.add(import, io::utc_now()));
  ROOTSTEAD_CHECK(register_plan(options));
  say_read(import, options, console.out);
  if (options.replace) console.out << "It stands in place of what it brought before.\n";
  return Exit::done;
}

}  // namespace

void add_add(CLI::App& app, Job& chosen) {
  CLI::App& command =
      declare(app, "add", "Read a survey, drawing or map into a project",
              "rootstead add mill-lane.gpkg survey.csv --as trees\n"
              "  rootstead add mill-lane.gpkg drains.dxf --as works --length-unit mm\n"
              "  rootstead add mill-lane.gpkg survey.csv --as trees --replace\n"
              "  rootstead add mill-lane.gpkg trial-pits.csv --as evidence\n"
              "  rootstead add mill-lane.gpkg soil-log.csv --as soil\n"
              "  rootstead add mill-lane.gpkg design.xml --as ground --state proposed\n"
              "  rootstead add mill-lane.gpkg site-outline.geojson --as boundary\n"
              "  rootstead add mill-lane.gpkg gates.csv --as gates");
  auto options = std::make_shared<AddOptions>();
  take_project(command, options->file);
  command
      .add_option("SOURCE", options->source,
                  "File to read: CSV, GeoJSON, GeoPackage, Shapefile, DXF ...")
      ->required();
  command.add_option("--as", options->as, "What it holds; guessed from the content if not given")
      ->check(CLI::IsMember({"trees", "works", "barriers", "ground", "levels", "soil", "evidence",
                             "boundary", "gates"}));
  command.add_option("--columns", options->columns, "Column map to use, TOML");
  command.add_option("--save-columns", options->save_columns,
                     "Write the column map that was used here, to edit and give to --columns");
  CLI::Option* layer =
      command.add_option("--layer", options->layer, "Only this layer of the source");
  command
      .add_flag("--replace", options->replace,
                "In place of what a file of this name brought before: for a corrected file")
      ->excludes(layer);
  command.add_option("--length-unit", options->length_unit,
                     "Unit of a source that names none: m, cm, mm, ft, us-ft, in");
  command
      .add_option("--state", options->state,
                  "Of ground levels: existing (if not given) or proposed")
      ->check(CLI::IsMember({"existing", "proposed"}));
  command.add_option("--surface", options->surface,
                     "Of ground levels: which surface, layer or band, where a file holds several");
  command.add_option("--height-unit", options->height_unit,
                     "Of ground levels: unit of heights, where it is not that of the plan");
  command.add_option("--height-column", options->height_column,
                     "Of ground levels: column that holds the heights");
  command.add_option("--vertical-datum", options->vertical_datum,
                     "Of ground levels: what heights are above, where the file does not say");
  command.add_option("--date", options->date, "Of ground levels: date of the survey");
  when_parsed(command, options, chosen, add_source);
}

}  // namespace rootstead::cli
