// assess: the whole computation, saved into the project and printed as a table or as JSON.
#include <algorithm>
#include <optional>
#include <ostream>

#include "cli/command.hpp"
#include "cli/job.hpp"
#include "engine/base/text.hpp"
#include "io/json.hpp"

namespace rootstead::cli {
namespace {

constexpr int kFewestDraws = 10, kMostDraws = 1'000'000;

struct AssessCommand {
  ProjectOptions project;
  bool json = false;
  std::optional<std::uint32_t> seed;
  std::optional<int> draws;
};

std::string range_text(const Range& range) {
  return fixed_number(100 * range.best, 0) + " % (" + fixed_number(100 * range.low, 0) + "-" +
         fixed_number(100 * range.high, 0) + ")";
}

// The work that takes most by the root estimate; by zone area where there is none.
std::string worst_work(const TreeAssessment& tree) {
  std::string worst;
  double most = 0;
  const auto consider = [&](const std::string& work, double taken) {
    if (taken > most) worst = work, most = taken;
  };
  if (tree.roots) {
    for (const auto& by_work : tree.roots->by_work) consider(by_work.work, by_work.alone.best);
  }
  if (!worst.empty() || tree.zones.empty()) return worst;
  for (const auto& by_work : tree.zones.front().loss.by_work) {
    consider(by_work.work, by_work.share);
  }
  return worst;
}

TableRow row_of(const TreeAssessment& tree, const Site& site) {
  const Tree* surveyed = site.tree(tree.tree);
  const std::string unknown = "unknown";
  return {surveyed == nullptr ? tree.tree : surveyed->label(),
          surveyed == nullptr ? "" : surveyed->botanical_name,
          std::string(to_text(tree.verdict.action)),
          tree.roots ? range_text(tree.roots->all) : unknown,
          tree.anchorage ? range_text(tree.anchorage->kept) : unknown,
          work_label(site, worst_work(tree))};
}

// "14 keep, 9 keep with measures, 3 remove", in the order first met.
std::string summary_of(const Assessment& assessment) {
  std::vector<std::pair<std::string_view, std::size_t>> counts;
  for (const TreeAssessment& tree : assessment.trees) {
    const std::string_view action = to_text(tree.verdict.action);
    auto found = std::find_if(counts.begin(), counts.end(),
                              [&](const auto& count) { return count.first == action; });
    if (found == counts.end()) found = counts.insert(counts.end(), {action, 0});
    ++found->second;
  }
  std::string text;
  for (const auto& [action, count] : counts) {
    text += (text.empty() ? "" : ", ") + std::to_string(count) + " " + std::string(action);
  }
  return text;
}

void print_table(const Site& site, const Assessment& assessment, std::ostream& out) {
  std::vector<TableRow> rows{
      {"tree", "species", "action", "fine roots lost", "anchorage kept", "worst work"}};
  for (const TreeAssessment& tree : assessment.trees) rows.push_back(row_of(tree, site));
  if (site.settings.demo) out << "INVENTED DATA: a demonstration, no real place.\n";
  out << text_table(rows) << '\n'
      << counted(assessment.trees.size(), "tree", "trees") << ": " << summary_of(assessment)
      << ".\nFine roots lost speaks of health, anchorage kept of stability: best estimate and, in "
         "brackets, the range\nfrom the 10th to the 90th percentile ("
      << assessment.simulation.draws << " draws, seed " << assessment.simulation.seed
      << "). Ask for a trail: rootstead why FILE TREE.\n\n";
  for (const std::string& caution : assessment.cautions) out << "Caution: " << caution << '\n';
}

// The seed goes with the settings, so that report, export and why repeat these figures.
void take_simulation(const AssessCommand& options, ProjectSettings& settings) {
  RootSimulation simulation = simulation_of(settings);
  if (options.seed) simulation.seed = *options.seed;
  if (options.draws) simulation.draws = *options.draws;
  keep_simulation(settings, simulation);
}

Result<Exit> assess_and_save(const AssessCommand& options, const Console& console) {
  ROOTSTEAD_TRY(OpenProject open, open_to_assess(options.project, console));
  take_simulation(options, open.site.settings);
  ROOTSTEAD_TRY(const Assessment assessment, assess_project(open, console));
  ROOTSTEAD_CHECK(open.project.save_assessment(open.site, assessment, io::utc_now()));
  if (options.json) {
    console.out << io::written(io::to_json(assessment, open.site));
  } else {
    print_table(open.site, assessment, console.out);
  }
  return Exit::done;
}

}  // namespace

void add_assess(CLI::App& app, Job& chosen) {
  CLI::App& command = declare(app, "assess", "Compute losses, anchorage and verdicts of every tree",
                              "rootstead assess mill-lane.gpkg --json > mill-lane.json");
  auto options = std::make_shared<AssessCommand>();
  take_project(command, options->project.file);
  command.add_flag("--json", options->json, "Print JSON (docs/formats/json.md)");
  command.add_option("--seed", options->seed, "Seed of the simulation; kept with the project");
  command.add_option("--draws", options->draws, "Draws of the simulation; kept with the project")
      ->check(CLI::Range(kFewestDraws, kMostDraws));
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, assess_and_save);
}

}  // namespace rootstead::cli
