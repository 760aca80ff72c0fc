// demo: the whole job on an invented place, from the surveyor's files to everything that is issued.
#include <algorithm>
#include <filesystem>
#include <ostream>

#include "cli/command.hpp"
#include "cli/job.hpp"
#include "cli/scenario.hpp"
#include "io/export.hpp"
#include "io/import.hpp"
#include "io/levels.hpp"
#include "io/tables.hpp"
#include "issue/issue.hpp"
#include "report/crew_sheet.hpp"
#include "report/owner_sheet.hpp"
#include "report/report.hpp"

namespace rootstead::cli {
namespace {

namespace fs = std::filesystem;

struct DemoOptions {
  std::string out = "rootstead-demo";
  bool project_only = false;
};

constexpr const char* kProjectName = "salt-walk.gpkg";

// Source file and what it holds, in the order of a real job.
constexpr std::pair<const char*, const char*> kSources[] = {
    {"trees.csv", "trees"},           {"neighbours-trees.geojson", "trees"},
    {"works.geojson", "works"},       {"storm-drain.dxf", "works"},
    {"barriers.geojson", "barriers"}, {"ground.geojson", "ground"},
    {"soil-log.csv", "soil"},         {"trial-pits.csv", "evidence"},
    {"boundary.geojson", "boundary"}, {"gates.csv", "gates"}};

// Ground levels: the surveyor's, and the designer's.
constexpr std::pair<const char*, io::LevelState> kLevels[] = {
    {"ground-survey.xml", io::LevelState::existing},
    {"ground-design.xml", io::LevelState::proposed}};

struct SheetMade {
  const char* name;
  SheetSize sheet;
  const char* what;
};
constexpr SheetMade kSheetsMade[] = {
    {"salt-walk-a3.pdf", SheetSize::a3, "the report, its plan on A3"},
    {"salt-walk-a1.pdf", SheetSize::a1, "the same with the plan on A1"},
    {"salt-walk-tabloid.pdf", SheetSize::tabloid, "the same for letter and tabloid paper"}};

constexpr const char* kCrewSheet = "salt-walk-crew.pdf";
constexpr const char* kOwnerSheet = "salt-walk-owner.pdf";
constexpr const char* kCalendar = "salt-walk-visits.ics";

constexpr const char* kPictures[] = {"salt-walk-plan.png", "salt-walk-plan.svg"};

constexpr const char* kExports[] = {"salt-walk.dxf",          "salt-walk.geojson", "salt-walk.csv",
                                    "salt-walk-results.gpkg", "salt-walk.fgb",     "salt-walk.shp"};

ProjectSettings demo_settings() {
  ProjectSettings settings;
  settings.title = "Salt Walk, storm drain and garden works";
  settings.address = "Salt Walk, Port Ellander (an invented place)";
  settings.client = "Port Ellander Harbour Trust (invented)";
  settings.author = "Demonstration";
  settings.credentials = "none: invented data";
  settings.date = "2026-11-25";
  settings.revision = "A";
  settings.status = "demonstration only";
  settings.rules = {"bs5837-2012", "as4970-2009", "england-veteran"};
  settings.demo = true;
  settings.other = {{std::string(kCutStandardKey), "bs5837-2012"},
                    {std::string(kReplacementRulesKey), "five-quarters,miami-fl"},
                    {std::string(kWorksBeginKey), "2027-03-01"},
                    {std::string(kWorksEndKey), "2027-09-30"},
                    {std::string(kYearsOfCareKey), "3"},
                    {std::string(kTelephoneKey), "000 0000 (invented)"}};
  return settings;
}

// Of no map: the place is invented.
Wind demo_wind() {
  Wind wind;
  wind.standard = Wind::Standard::en1991;
  wind.basic_speed = 24;
  wind.terrain = "II";
  return wind;
}

// Of no station.
Climate demo_climate() {
  Climate climate;
  climate.hardiness_zone = 9;
  climate.latitude = 44.1;
  climate.elevation = 3;
  climate.evapotranspiration = {0.9, 1.3, 2.1, 3.0, 4.0, 4.9, 5.3, 4.7, 3.4, 2.1, 1.2, 0.8};
  climate.rain = {2.4, 2.2, 2.0, 2.1, 1.7, 1.2, 0.7, 1.1, 2.3, 3.6, 3.7, 2.8};
  climate.source = "invented for the demonstration";
  return climate;
}

Outcome choose_wind_and_climate(io::Project& project) {
  ROOTSTEAD_TRY(Site site, project.read());
  site.wind = demo_wind();
  site.climate = demo_climate();
  return project.save_choices(site, "wind and climate of the demonstration (invented)",
                              io::utc_now());
}

// A second demo in the same folder replaces the first; anything else of that name is left alone.
Outcome make_room(const fs::path& file) {
  std::error_code ignored;
  if (!fs::exists(file, ignored)) return Nothing{};
  const Result<io::Project> project = io::Project::open(file);
  const Result<Site> site = project ? project->read() : Result<Site>(project.error());
  if (!site || !site->settings.demo) {
    return Error{Code::file_unwritable, file.string(), "a file that is no demo is in the way",
                 "name another folder with --out"};
  }
  if (fs::remove(file, ignored)) return Nothing{};
  return Error{Code::file_unwritable, file.string(), "the earlier demo cannot be replaced",
               "name another folder with --out"};
}

Result<OpenProject> make_demo_project(const fs::path& file) {
  ROOTSTEAD_CHECK(make_room(file));
  ROOTSTEAD_TRY(const ReferenceSystem system, io::reference_system("EPSG:32632"));
  ROOTSTEAD_TRY(io::Project project, io::Project::create(file, system, demo_settings()));
  ROOTSTEAD_TRY(Tables tables, io::load_tables());
  return OpenProject{std::move(project), {}, std::move(tables)};
}

// A source may come with its column map beside it: "storm-drain.columns.toml".
Result<io::ImportOptions> how_to_read(const fs::path& source, const char* kind) {
  io::ImportOptions how;
  how.as = kind;
  const fs::path map = fs::path(source).replace_extension(".columns.toml");
  std::error_code ignored;
  if (fs::exists(map, ignored)) {
    ROOTSTEAD_TRY(how.columns, io::column_map_from_toml(map));
  }
  return how;
}

Outcome add_sources(io::Project& project, const fs::path& folder, std::ostream& out) {
  for (const auto& [name, kind] : kSources) {
    ROOTSTEAD_TRY(const io::ImportOptions how, how_to_read(folder / name, kind));
    ROOTSTEAD_TRY(const io::Import import, io::read_source(folder / name, how, project.system()));
    ROOTSTEAD_CHECK(project.add(import, io::utc_now()));
    out << "  read " << counted(import.rows_read, "row", "rows") << " of " << name << " as " << kind
        << ", " << counted(import.problems.size(), "problem", "problems") << '\n';
  }
  return Nothing{};
}

Outcome add_levels(io::Project& project, const fs::path& folder, std::ostream& out) {
  for (const auto& [name, state] : kLevels) {
    ROOTSTEAD_TRY(const io::ReadLevels read, io::read_levels(folder / name, {}, project.system()));
    ROOTSTEAD_CHECK(project.save_levels(read.surface, state, name, read.problems, io::utc_now()));
    out << "  read " << name << " as the " << io::to_text(state) << " levels, " << read.understood
        << '\n';
  }
  return Nothing{};
}

void show_problems(const OpenProject& open, std::ostream& out) {
  const std::vector<Problem> problems = all_problems(open.project, open.site, open.tables);
  out << "Checked: " << counted(problems.size(), "problem", "problems") << " (rootstead check)\n";
  for (const Problem& problem : problems) out << "  " << problem.sentence() << '\n';
}

Outcome write_reports(const Plan& plan, const fs::path& folder, std::ostream& out) {
  for (const SheetMade& made : kSheetsMade) {
    ROOTSTEAD_CHECK(write_report(plan, ReportOptions{made.sheet, 0}, folder / made.name));
    out << "  report " << made.name << ": " << made.what << '\n';
  }
  for (const char* name : kPictures) {
    ROOTSTEAD_CHECK(write_plan_picture(plan, folder / name));
    out << "  picture " << name << ": the plan alone\n";
  }
  return Nothing{};
}

// For those who dig, those who own, and those who come to look.
Outcome write_sheets(const OpenProject& open, const Plan& plan, const fs::path& folder,
                     std::ostream& out) {
  ROOTSTEAD_CHECK(write_crew_sheet(plan, {}, folder / kCrewSheet));
  out << "  sheet " << kCrewSheet << ": for the crew, to hang up where they dig\n";
  ROOTSTEAD_CHECK(write_owner_sheet(plan, {}, folder / kOwnerSheet));
  out << "  sheet " << kOwnerSheet << ": for the owner, in plain words\n";
  ROOTSTEAD_CHECK(issue::write_calendar(open.site, *plan.advice, folder / kCalendar));
  out << "  calendar " << kCalendar << ": the visits, for any calendar program\n";
  return Nothing{};
}

// What was advised, in one line.
void say_advice(const Advice& advice, std::ostream& out) {
  std::size_t moves = 0, uncovered = 0;
  for (const TreeAdvice& tree : advice.trees) {
    if (tree.move) ++moves;
    if (tree.root_crown.excavation) ++uncovered;
  }
  const std::size_t from_levels = advice.levels ? advice.levels->works.size() : 0;
  const std::size_t clashes = advice.protection ? advice.protection->clashes.size() : 0;
  out << "Advised " << counted(advice.prescriptions().size(), "thing", "things")
      << " to do: " << counted(from_levels, "work", "works") << " found in the ground levels, "
      << counted(moves, "tree", "trees") << " to be moved, "
      << counted(uncovered, "root crown", "root crowns") << " to be uncovered, "
      << counted(clashes, "clash", "clashes") << " of the protection plan (rootstead advise)\n";
}

Outcome write_exports(const OpenProject& open, const Assessment& assessment, const fs::path& folder,
                      std::ostream& out) {
  for (const char* name : kExports) {
    ROOTSTEAD_TRY(const io::ExportReport made,
                  io::write_export(open.site, assessment, open.tables, folder / name));
    out << "  export " << name << '\n';
    for (const std::string& warning : made.warnings) out << "    " << warning << '\n';
  }
  return Nothing{};
}

void name_files(const fs::path& folder, std::ostream& out) {
  std::vector<TableRow> rows;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file()) {
      rows.push_back(
          {entry.path().string(), std::to_string((entry.file_size() + 1023) / 1024) + " kB"});
    }
  }
  std::sort(rows.begin(), rows.end());
  out << "\nFiles made (all INVENTED DATA, no real place):\n" << text_table(rows, {1});
}

Outcome issue_all(const OpenProject& open, const Assessment& assessment, const fs::path& folder,
                  std::ostream& out) {
  ROOTSTEAD_TRY(const Advice advice, issue::advise_for_report(open.site, open.tables, assessment));
  say_advice(advice, out);
  const Plan plan{&open.site, &open.tables, &assessment, &advice};
  ROOTSTEAD_CHECK(write_reports(plan, folder, out));
  ROOTSTEAD_CHECK(write_sheets(open, plan, folder, out));
  return write_exports(open, assessment, folder, out);
}

Result<Exit> run_demo(const DemoOptions& options, const Console& console) {
  const fs::path folder = options.out;
  console.out << "Salt Walk, Port Ellander: an invented place, invented trees, invented works.\n";
  ROOTSTEAD_CHECK(write_scenario(folder / "sources"));
  ROOTSTEAD_TRY(OpenProject open, make_demo_project(folder / kProjectName));
  ROOTSTEAD_CHECK(add_sources(open.project, folder / "sources", console.out));
  ROOTSTEAD_CHECK(add_levels(open.project, folder / "sources", console.out));
  ROOTSTEAD_CHECK(choose_wind_and_climate(open.project));
  ROOTSTEAD_TRY(open.site, open.project.read());
  show_problems(open, console.out);
  add_level_works(open, console);
  ROOTSTEAD_TRY(const Assessment assessment, assess_project(open, console));
  ROOTSTEAD_CHECK(open.project.save_assessment(open.site, assessment, io::utc_now()));
  console.out << "Assessed " << counted(assessment.trees.size(), "tree", "trees") << " against "
              << counted(open.site.works.size(), "work", "works") << '\n';
  if (!options.project_only) ROOTSTEAD_CHECK(issue_all(open, assessment, folder, console.out));
  name_files(folder, console.out);
  return Exit::done;
}

}  // namespace

void add_demo(CLI::App& app, Job& chosen) {
  CLI::App& command = declare(app, "demo", "Do the whole job on an invented place",
                              "rootstead demo --out /tmp/rootstead-demo");
  auto options = std::make_shared<DemoOptions>();
  command.add_option("--out", options->out, "Folder to make")->capture_default_str();
  command.add_flag("--project-only", options->project_only,
                   "Make the project, to be opened in the workbench; no report, sheets or exports");
  when_parsed(command, options, chosen, run_demo);
}

}  // namespace rootstead::cli
