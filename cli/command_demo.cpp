// demo: the whole job on an invented place, from the surveyor's files to everything that is issued.
#include <algorithm>
#include <filesystem>
#include <ostream>

#include "cli/command.hpp"
#include "cli/job.hpp"
#include "cli/revision_commands.hpp"
#include "cli/scenario.hpp"
#include "io/export.hpp"
#include "io/import.hpp"
#include "io/levels.hpp"
#include "io/revision_ledger.hpp"
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
struct Source {
  const char* name;
  const char* kind;
};
constexpr Source kSources[] = {
    {"trees.csv", "trees"},         {"neighbours-trees.geojson", "trees"},
    {"works.geojson", "works"},     {"barriers.geojson", "barriers"},
    {"ground.geojson", "ground"},   {"soil-log.csv", "soil"},
    {"trial-pits.csv", "evidence"}, {"boundary.geojson", "boundary"},
    {"gates.csv", "gates"}};
// What came late, after revision A was issued.
constexpr Source kLateSource{"storm-drain.dxf", "works"};

constexpr const char *kDateOfA = "2026-11-18", *kDateOfB = "2026-11-25";

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
  settings.date = kDateOfA;
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

// A project, the file it lies in, and the folder its sources come from.
struct Reading {
  io::Project& project;
  fs::path file, sources;
  std::ostream& out;
};

Outcome keep_checksum(const Reading& from, const char* name) {
  ROOTSTEAD_TRY(io::RevisionLedger ledger, io::RevisionLedger::open(from.file));
  return ledger.keep_checksum(from.sources / name, io::utc_now());
}

Outcome add_source(const Reading& from, const Source& source) {
  const fs::path file = from.sources / source.name;
  ROOTSTEAD_TRY(const io::ImportOptions how, how_to_read(file, source.kind));
  ROOTSTEAD_TRY(const io::Import import, io::read_source(file, how, from.project.system()));
  ROOTSTEAD_CHECK(from.project.add(import, io::utc_now()));
  from.out << "  read " << counted(import.rows_read, "row", "rows") << " of " << source.name
           << " as " << source.kind << ", "
           << counted(import.problems.size(), "problem", "problems") << '\n';
  return keep_checksum(from, source.name);
}

Outcome add_levels(const Reading& from) {
  for (const auto& [name, state] : kLevels) {
    ROOTSTEAD_TRY(const io::ReadLevels read,
                  io::read_levels(from.sources / name, {}, from.project.system()));
    ROOTSTEAD_CHECK(
        from.project.save_levels(read.surface, state, name, read.problems, io::utc_now()));
    ROOTSTEAD_CHECK(keep_checksum(from, name));
    from.out << "  read " << name << " as the " << io::to_text(state) << " levels, "
             << read.understood << '\n';
  }
  return Nothing{};
}

void show_problems(const OpenProject& open, std::ostream& out) {
  const std::vector<Problem> problems = all_problems(open.project, open.site, open.tables);
  out << "Checked: " << counted(problems.size(), "problem", "problems") << " (rootstead check)\n";
  for (const Problem& problem : problems) out << "  " << problem.sentence() << '\n';
}

Outcome write_reports(const Plan& plan, const RevisionHistory& history, const fs::path& folder,
                      std::ostream& out) {
  for (const SheetMade& made : kSheetsMade) {
    ROOTSTEAD_CHECK(
        write_report(plan, ReportOptions{made.sheet, 0}, folder / made.name, {}, &history));
    out << "  report " << made.name << ": " << made.what << '\n';
  }
  for (const char* name : kPictures) {
    ROOTSTEAD_CHECK(write_plan_picture(plan, folder / name));
    out << "  picture " << name << ": the plan alone\n";
  }
  return Nothing{};
}

// For those who dig, those who own, and those who come to look.
Outcome write_sheets(const Plan& plan, const fs::path& folder, std::ostream& out) {
  ROOTSTEAD_CHECK(write_crew_sheet(plan, {}, folder / kCrewSheet));
  out << "  sheet " << kCrewSheet << ": for the crew, to hang up where they dig\n";
  ROOTSTEAD_CHECK(write_owner_sheet(plan, {}, folder / kOwnerSheet));
  out << "  sheet " << kOwnerSheet << ": for the owner, in plain words\n";
  ROOTSTEAD_CHECK(issue::write_calendar(*plan.site, *plan.advice, folder / kCalendar));
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

Outcome write_exports(const Plan& plan, const fs::path& folder, std::ostream& out) {
  for (const char* name : kExports) {
    ROOTSTEAD_TRY(const io::ExportReport made,
                  io::write_export(*plan.site, *plan.assessment, *plan.tables, folder / name));
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

Outcome hand_out(const issue::State& state, const Tables& tables, const fs::path& folder,
                 std::ostream& out) {
  ROOTSTEAD_TRY(const Advice advice,
                issue::advise_for_report(state.site, tables, state.assessment));
  say_advice(advice, out);
  const Plan plan{&state.site, &tables, &state.assessment, &advice};
  ROOTSTEAD_CHECK(write_reports(plan, state.history, folder, out));
  ROOTSTEAD_CHECK(write_sheets(plan, folder, out));
  return write_exports(plan, folder, out);
}

// ---- two revisions, all invented

struct PlanTexts {
  const char *file, *title, *author, *date, *revision;
};
constexpr PlanTexts kPlanTexts[] = {
    {"works.geojson", "House extension and garden works", "The designer (invented)", "2026-11-02",
     "C"},
    {"ground-survey.xml", "Ground levels", "The surveyor (invented)", "2026-09-14", ""},
    {"ground-design.xml", "Ground levels as designed", "The designer (invented)", "2026-11-02",
     "C"},
    {"storm-drain.dxf", "Storm drain, street to harbour", "The water company (invented)",
     "2026-11-20", "P01"}};

Outcome name_plans(const fs::path& file) {
  ROOTSTEAD_TRY(io::RevisionLedger ledger, io::RevisionLedger::open(file));
  ROOTSTEAD_TRY(const auto plans, ledger.plans());
  for (PlanReviewed plan : plans) {
    for (const PlanTexts& texts : kPlanTexts) {
      if (plan.file != texts.file || plan.title == texts.title) continue;
      plan.title = texts.title, plan.author = texts.author;
      plan.date = texts.date, plan.revision = texts.revision;
      ROOTSTEAD_CHECK(ledger.describe_plan(plan, io::utc_now()));
    }
  }
  return Nothing{};
}

Outcome answer_comments(const fs::path& file) {
  ReviewComment missing;
  missing.from = "The water company (invented)", missing.date = "2026-11-20";
  missing.revision = "A";
  missing.text = "The storm drain from the street to the harbour is not on the plan.";
  missing.answer = "Read in from the company's drawing P01; its trench is in every figure now.";
  missing.where = "Plan sheet, clouded; what changed since revision A";
  ReviewComment officer;
  officer.from = "The town's tree officer (invented)", officer.date = "2026-11-21";
  officer.revision = "A";
  officer.text =
      "Say of each tree what becomes worse if a drain is added, health and stability "
      "apart.";
  officer.answer = "Both answers stand side by side, before and now, with their ranges.";
  officer.where = "What changed since revision A";
  ROOTSTEAD_TRY(io::RevisionLedger ledger, io::RevisionLedger::open(file));
  ROOTSTEAD_CHECK(ledger.save_comment(missing, io::utc_now()));
  return ledger.save_comment(officer, io::utc_now());
}

Outcome assess_and_save(OpenProject& open, const Console& console) {
  ROOTSTEAD_TRY(open.site, open.project.read());
  add_level_works(open, console);
  ROOTSTEAD_TRY(const Assessment assessment, assess_project(open, console));
  ROOTSTEAD_CHECK(open.project.save_assessment(open.site, assessment, io::utc_now()));
  console.out << "Assessed " << counted(assessment.trees.size(), "tree", "trees") << " against "
              << counted(open.site.works.size(), "work", "works") << '\n';
  return Nothing{};
}

Outcome issue_as(const OpenProject& open, const fs::path& file, const issue::IssueAsked& asked,
                 std::ostream& out) {
  ROOTSTEAD_TRY(const IssueMade made,
                issue::make_issue(file, asked, open.tables, this_program(), io::utc_now()));
  out << "Issued revision " << made.revision << " (rootstead issue)\n";
  return Nothing{};
}

Result<Exit> run_demo(const DemoOptions& options, const Console& console) {
  const fs::path folder = options.out, file = folder / kProjectName;
  console.out << "Salt Walk, Port Ellander: an invented place, invented trees, invented works.\n";
  ROOTSTEAD_CHECK(write_scenario(folder / "sources"));
  ROOTSTEAD_TRY(OpenProject open, make_demo_project(file));
  const Reading from{open.project, file, folder / "sources", console.out};
  for (const Source& source : kSources) ROOTSTEAD_CHECK(add_source(from, source));
  ROOTSTEAD_CHECK(add_levels(from));
  ROOTSTEAD_CHECK(choose_wind_and_climate(open.project));
  ROOTSTEAD_CHECK(name_plans(file));
  ROOTSTEAD_CHECK(assess_and_save(open, console));
  ROOTSTEAD_CHECK(
      issue_as(open, file, {"A", kDateOfA, "without the storm drain", "", false}, console.out));
  ROOTSTEAD_CHECK(add_source(from, kLateSource));
  ROOTSTEAD_CHECK(name_plans(file));
  ROOTSTEAD_CHECK(answer_comments(file));
  ROOTSTEAD_TRY(open.site, open.project.read());
  show_problems(open, console.out);
  ROOTSTEAD_CHECK(assess_and_save(open, console));
  ROOTSTEAD_CHECK(
      issue_as(open, file, {"B", kDateOfB, "with the storm drain", "", false}, console.out));
  if (!options.project_only) {
    ROOTSTEAD_TRY(const issue::State state,
                  issue::present_state(file, open.tables, this_program()));
    ROOTSTEAD_CHECK(hand_out(state, open.tables, folder, console.out));
  }
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
