// new: an empty project file with its reference system, units and rules.
#include <ostream>

#include "cli/command.hpp"
#include "cli/job.hpp"
#include "engine/base/text.hpp"
#include "io/tables.hpp"

namespace rootstead::cli {
namespace {

constexpr const char* kDefaultRule = "bs5837-2012";

struct NewOptions {
  ProjectOptions project;
  std::string crs;
  std::string units = "metric";
  std::string rules;
  ProjectSettings texts;
};

Outcome check_rules(const std::vector<std::string>& ids, const Tables& tables) {
  for (const std::string& id : ids) {
    if (tables.rule(id) != nullptr) continue;
    return Error{Code::unknown_name, "rule " + id, "there is no rule of this name",
                 "choose from `rootstead rule list`, or name your own folder with --rules-dir"};
  }
  return Nothing{};
}

std::vector<std::string> chosen_rules(const std::string& text) {
  std::vector<std::string> ids;
  for (const std::string& part : split(text.empty() ? kDefaultRule : text, ',')) {
    if (const std::string_view id = trimmed(part); !id.empty()) ids.emplace_back(id);
  }
  return ids;
}

void say_made(const NewOptions& options, const ReferenceSystem& system,
              const ProjectSettings& settings, std::ostream& out) {
  out << "Made " << options.project.file << '\n'
      << "  reference system  " << system.code << " (" << system.name << ")\n"
      << "  units             " << options.units << '\n'
      << "  rules             " << joined(settings.rules, ", ");
  if (options.rules.empty()) out << "  (chosen by default: name yours with --rules)";
  out << "\nNext: rootstead add " << options.project.file << " SURVEY\n";
}

Result<Exit> make_project(const NewOptions& options, const Console& console) {
  ROOTSTEAD_TRY(const Tables tables, io::load_tables(options.project.rules_dir));
  ProjectSettings settings = options.texts;
  settings.units = options.units == "us" ? UnitSystem::us_customary : UnitSystem::metric;
  settings.rules = chosen_rules(options.rules);
  ROOTSTEAD_CHECK(check_rules(settings.rules, tables));
  ROOTSTEAD_TRY(const ReferenceSystem system, io::reference_system(options.crs));
  ROOTSTEAD_TRY(const io::Project project,
                io::Project::create(options.project.file, system, settings));
  say_made(options, project.system(), settings, console.out);
  return Exit::done;
}

}  // namespace

void add_new(CLI::App& app, Job& chosen) {
  CLI::App& command = declare(app, "new", "Make an empty project file",
                              "rootstead new mill-lane.gpkg --crs EPSG:27700 --rules bs5837-2012 "
                              "--title \"Mill Lane\"");
  auto options = std::make_shared<NewOptions>();
  command.add_option("FILE", options->project.file, "Project file to make, *.gpkg")->required();
  command
      .add_option("--crs", options->crs,
                  "Projected reference system of the site, e.g. EPSG:27700 (degrees cannot carry "
                  "distances and are refused)")
      ->required();
  command.add_option("--units", options->units, "Units of every output")
      ->check(CLI::IsMember({"metric", "us"}))
      ->capture_default_str();
  command.add_option("--rules", options->rules,
                     "Zone rules to apply, ID,ID; the first is the main one");
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  ProjectSettings& texts = options->texts;
  command.add_option("--title", texts.title, "Title of the job");
  command.add_option("--address", texts.address, "Address of the site");
  command.add_option("--client", texts.client, "Who asked for the work");
  command.add_option("--author", texts.author, "Who signs it");
  command.add_option("--credentials", texts.credentials, "The author's qualification");
  command.add_option("--date", texts.date, "Date printed on the sheets");
  command.add_option("--revision", texts.revision, "Revision letter or number");
  command.add_option("--status", texts.status, "Status, e.g. \"for comment\"");
  when_parsed(command, options, chosen, make_project);
}

}  // namespace rootstead::cli
