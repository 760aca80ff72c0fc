#include "cli/job.hpp"

#include <algorithm>
#include <ostream>

#include "engine/base/text.hpp"
#include "io/tables.hpp"
#include "issue/issue.hpp"
#include "issue/revisions.hpp"

namespace rootstead::cli {
namespace {

constexpr const char* kSeedKey = "seed";
constexpr const char* kDrawsKey = "draws";
constexpr std::size_t kColumnGap = 2;

// Characters of UTF-8 text: every byte that does not continue another.
std::size_t width_of(const std::string& text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

std::vector<std::size_t> widths_of(const std::vector<TableRow>& rows) {
  std::vector<std::size_t> widths;
  for (const TableRow& row : rows) {
    if (widths.size() < row.size()) widths.resize(row.size());
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], width_of(row[i]));
  }
  return widths;
}

constexpr std::string_view kAllOf = ", all ";  // "survey.csv, all 20 trees"

bool stands_for_all(const Problem& of_site) {
  return of_site.subject.find(kAllOf) != std::string::npos;
}

// Does the site tell what a source told when it was read? Its subject is the same, names the thing
// beside the row ("survey.csv row 12, tree T17"), or stands for all things of the file.
bool is_same_fault(const Problem& of_source, const Problem& of_site) {
  if (of_source.code != of_site.code) return false;
  if (of_source.subject == of_site.subject) return true;
  if (of_site.subject.starts_with(of_source.subject + ", ")) return !stands_for_all(of_site);
  const auto all = of_site.subject.find(kAllOf);
  return all != std::string::npos &&
         of_source.subject.starts_with(of_site.subject.substr(0, all) + " ");
}

// What comparing the two surfaces shows; nothing where there are not two.
void add_level_problems(const Site& site, const Tables& tables, std::vector<Problem>& problems) {
  if (!site.existing_levels && !site.proposed_levels) return;
  const Result<LevelChanges> levels = level_changes(site, tables);
  if (!levels) {
    const Error& error = levels.error();
    problems.push_back(
        {true, NoteCode::levels_not_taken, error.subject, error.message, error.remedy});
    return;
  }
  for (const Note& note : levels->notes) {
    std::string text = note.text;
    if (text.ends_with('.')) text.pop_back();  // a problem's sentence ends by itself
    problems.push_back({false, note.code, "ground levels", std::move(text), ""});
  }
}

}  // namespace

Result<OpenProject> open_project(const ProjectOptions& options, const Console& console) {
  ROOTSTEAD_TRY(Tables tables, io::load_tables(options.rules_dir));
  ROOTSTEAD_TRY(io::Project project, io::Project::open(options.file));
  if (project.recovered()) {
    console.err << options.file << ": a program was stopped while writing; the project was set "
                << "back to its last complete state.\n";
  }
  ROOTSTEAD_TRY(Site site, project.read());
  return OpenProject{std::move(project), std::move(site), std::move(tables)};
}

void add_level_works(OpenProject& open, const Console& console) {
  Result<Site> site = with_level_works(open.site, open.tables);
  if (site) {
    open.site = std::move(site).value();
    return;
  }
  open.no_level_works = site.error();
  console.err << issue::without_levels(site.error()) << '\n';
}

Result<OpenProject> open_to_assess(const ProjectOptions& options, const Console& console) {
  ROOTSTEAD_TRY(OpenProject open, open_project(options, console));
  add_level_works(open, console);
  return open;
}

RootSimulation simulation_of(const ProjectSettings& settings) {
  return issue::simulation_of(settings);
}

void keep_simulation(ProjectSettings& settings, const RootSimulation& simulation) {
  settings.other[kSeedKey] = std::to_string(simulation.seed);
  settings.other[kDrawsKey] = std::to_string(simulation.draws);
}

Result<Assessment> assess_project(const OpenProject& open, const Console& console) {
  Progress progress(console, "assessing");
  AssessOptions options;
  options.simulation = simulation_of(open.site.settings);
  options.progress = [&](std::size_t done, std::size_t all) { progress.show(done, all); };
  ROOTSTEAD_TRY(Assessment assessment, assess(open.site, open.tables, options));
  if (open.no_level_works) {
    assessment.cautions.push_back(issue::without_levels(*open.no_level_works));
  }
  return assessment;
}

Result<Advice> advise_project(const OpenProject& open, const Assessment& assessment,
                              std::set<std::string> made) {
  return issue::advise_project(open.site, open.tables, assessment, std::move(made));
}

std::string setting_of(const ProjectSettings& settings, std::string_view key) {
  const auto found = settings.other.find(std::string(key));
  return found == settings.other.end() ? std::string() : found->second;
}

std::string work_label(const Site& site, const std::string& id) {
  const Work* work = site.work(id);
  if (work == nullptr || work->name.empty() || work->name == id) return id;
  return id + " " + work->name;
}

std::vector<Problem> each_once(std::vector<Problem> of_sources, std::vector<Problem>& of_site) {
  std::vector<bool> told(of_site.size(), false);
  std::erase_if(of_sources, [&](const Problem& of_source) {
    for (std::size_t i = 0; i < of_site.size(); ++i) {
      if (told[i] || !is_same_fault(of_source, of_site[i])) continue;
      told[i] = !stands_for_all(of_site[i]);
      of_site[i].blocks = of_site[i].blocks || of_source.blocks;
      return true;
    }
    return false;
  });
  return of_sources;
}

std::vector<Problem> all_problems(const io::Project& project, const Site& site,
                                  const Tables& tables) {
  std::vector<Problem> of_site = problems_of(site);
  std::vector<Problem> problems = each_once(project.import_problems(), of_site);
  problems.insert(problems.end(), std::make_move_iterator(of_site.begin()),
                  std::make_move_iterator(of_site.end()));
  add_level_problems(site, tables, problems);
  return problems;
}

std::string counted(std::size_t count, const std::string& one, const std::string& several) {
  if (count == 0) return "no " + several;
  return std::to_string(count) + " " + (count == 1 ? one : several);
}

std::string text_table(const std::vector<TableRow>& rows, const std::vector<std::size_t>& right) {
  const std::vector<std::size_t> widths = widths_of(rows);
  std::string text;
  for (const TableRow& row : rows) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i) {
      const std::string padding(widths[i] - width_of(row[i]), ' ');
      const bool to_right = std::find(right.begin(), right.end(), i) != right.end();
      line += to_right ? padding + row[i] : row[i] + padding;
      line += std::string(kColumnGap, ' ');
    }
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + '\n';
  }
  return text;
}

}  // namespace rootstead::cli
