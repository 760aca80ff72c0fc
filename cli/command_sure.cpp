// sure: which verdicts would be others if what was measured were off, and what is worth measuring.
#include <algorithm>
#include <ostream>

#include "cli/command.hpp"
#include "cli/design_options.hpp"
#include "cli/job.hpp"
#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "engine/sureness/sureness.hpp"
#include "io/json.hpp"

namespace rootstead::cli {
namespace {

using io::Json;

constexpr std::size_t kWorthShown = 10;

struct SureCommand {
  ProjectOptions project;
  std::optional<std::uint64_t> seed;
  int draws = SurenessOptions().draws;
  int root_draws = SurenessOptions().root_draws;
  int threads = 0;
  bool json = false;
};

const Tree& surveyed(const Site& site, const std::string& id) {
  return *site.tree(id);
}

std::string share_text(int changed, int draws) {
  return changed == 0 ? "-" : percent(share_of(changed, draws).best, 0);
}

std::string off_by(const TreeErrors& errors, const AmountText& amount) {
  return amount.length(Length::metres(errors.position.sigma)) + ", " +
         percent(errors.size.sigma, 0) + (errors.of_height ? " of height" : "");
}

TableRow row_of(const TreeSureness& tree, const Site& site, int draws) {
  const AmountText amount{site.settings.units};
  return {surveyed(site, tree.tree).label(),  std::string(to_text(tree.entered.action)),
          off_by(tree.errors, amount),        share_text(tree.positions.any, draws),
          share_text(tree.sizes.any, draws),  share_text(tree.roots.any, draws),
          share_text(tree.all.any, draws),    share_text(tree.all.action, draws),
          share_text(tree.all.health, draws), share_text(tree.all.stability, draws)};
}

bool ever_changes(const TreeSureness& tree) {
  return tree.positions.any + tree.sizes.any + tree.roots.any + tree.all.any > 0;
}

std::string answers_text(const Answers& answers) {
  return std::string(to_text(answers.action)) + ", health " + std::string(to_text(answers.health)) +
         ", stability " + std::string(to_text(answers.stability));
}

void print_changing(const Sureness& sureness, const Site& site, std::ostream& out) {
  std::vector<const TreeSureness*> changing;
  std::size_t never = 0;
  for (const TreeSureness& tree : sureness.trees) {
    if (ever_changes(tree)) changing.push_back(&tree);
    never += static_cast<std::size_t>(tree.decided && !ever_changes(tree));
  }
  std::stable_sort(changing.begin(), changing.end(),
                   [](const auto* a, const auto* b) { return a->all.any > b->all.any; });
  if (!changing.empty()) {
    std::vector<TableRow> rows{{"tree", "verdict as entered", "off by", "place", "size", "roots",
                                "all", "action", "health", "stability"}};
    for (const TreeSureness* tree : changing) rows.push_back(row_of(*tree, site, sureness.draws));
    out << text_table(rows) << "\nShare of " << sureness.draws
        << " draws in which the verdict, the health or the stability answer is another than as "
           "entered, by the place\nalone, by the stem (palms: the height) alone, by the range of "
           "the root estimate alone, and all together; of these last\nalso each answer by itself. "
           "A share of 50 % is good to "
        << percent(share_of(sureness.draws / 2, sureness.draws).high - 0.5, 0)
        << " either way (95 of 100 cases).\n";
  }
  if (never > 0)
    out << counted(never, "tree", "trees") << " never changed: for each a chance below "
        << percent(share_of(0, sureness.draws).high, 1) << " (95 of 100 cases).\n";
}

// Only trees that the range of the root estimate decides.
void print_ends(const Sureness& sureness, const Site& site, std::ostream& out) {
  std::vector<TableRow> rows{{"tree", "least lost", "most lost"}};
  for (const TreeSureness& tree : sureness.trees)
    if (tree.most_lost != tree.least_lost)
      rows.push_back({surveyed(site, tree.tree).label(), answers_text(tree.least_lost),
                      answers_text(tree.most_lost)});
  if (rows.size() == 1) return;
  out << "\nThe answers at the two ends of the root estimate:\n" << text_table(rows);
}

void print_worth(const Sureness& sureness, std::ostream& out) {
  out << "\nVerdicts expected to be others, all causes together: "
      << fixed_number(sureness.expected, 1) << " of "
      << counted(sureness.trees.size(), "tree", "trees") << ". If it were known: all places "
      << fixed_number(sureness.fewer_by_positions, 1) << " fewer, all stems and heights "
      << fixed_number(sureness.fewer_by_sizes, 1) << " fewer, a pit at every tree "
      << fixed_number(sureness.fewer_by_pits, 1) << " fewer.\n";
  if (sureness.worth.empty()) {
    out << "No single measurement stands out of the sampling; ask for more with --draws.\n";
    return;
  }
  out << "What one measurement is worth, in verdicts expected to change:\n";
  const std::size_t shown = std::min(kWorthShown, sureness.worth.size());
  for (std::size_t i = 0; i < shown; ++i) {
    const Worth& one = sureness.worth[i];
    out << "  " << fixed_number(one.fewer, 2) << " fewer (give or take "
        << fixed_number(one.standard_error, 2) << ")  " << one.what << '\n';
  }
  if (shown < sureness.worth.size())
    out << "  and " << sureness.worth.size() - shown << " more, with --json.\n";
}

void print_sureness(const Sureness& sureness, const Site& site, std::ostream& out) {
  if (site.settings.demo) out << "INVENTED DATA: a demonstration, no real place.\n";
  print_changing(sureness, site, out);
  print_ends(sureness, site, out);
  print_worth(sureness, out);
  for (const Note& note : sureness.notes)
    out << "Note: " << note.subject << ": " << note.text << '\n';
  out << "What is not stated about an error is our assumption (docs/methods/sureness.md). A "
         "verdict "
         "that never changes here\nis sure of its own rules and model only: neither is proof that "
         "a tree will stand or live.\nSeed "
      << sureness.seed << ", " << sureness.root_draws << " draws of the root model in each.\n\n";
  for (const std::string& caution : sureness.cautions) out << "Caution: " << caution << '\n';
}

Json answers_json(const Answers& answers) {
  return {{"action", to_text(answers.action)},
          {"health", to_text(answers.health)},
          {"stability", to_text(answers.stability)}};
}

Json changed_json(const Changed& changed, int draws) {
  const Range any = share_of(changed.any, draws);
  return {{"any", changed.any},       {"action", changed.action},
          {"health", changed.health}, {"stability", changed.stability},
          {"share", any.best},        {"share_95", {any.low, any.high}}};
}

Json error_json(const InputError& error) {
  return {{"sigma", error.sigma},
          {"known", error.known},
          {"status", error.stated ? Json(nullptr) : Json(to_text(error.from.status))}};
}

Json tree_json(const TreeSureness& tree, int draws) {
  return {{"tree", tree.tree},
          {"entered", answers_json(tree.entered)},
          {"decided", tree.decided},
          {"few_draws_differ", tree.few_draws_differ},
          {"position_error_m", error_json(tree.errors.position)},
          {"size_error", error_json(tree.errors.size)},
          {"size_is_height", tree.errors.of_height},
          {"positions", changed_json(tree.positions, draws)},
          {"sizes", changed_json(tree.sizes, draws)},
          {"roots", changed_json(tree.roots, draws)},
          {"all", changed_json(tree.all, draws)},
          {"least_lost", answers_json(tree.least_lost)},
          {"most_lost", answers_json(tree.most_lost)}};
}

Json sureness_json(const Sureness& sureness, const Site& site) {
  Json trees = Json::array(), worth = Json::array();
  for (const TreeSureness& tree : sureness.trees) trees.push_back(tree_json(tree, sureness.draws));
  for (const Worth& one : sureness.worth)
    worth.push_back({{"tree", one.tree},
                     {"measurement", to_text(one.measurement)},
                     {"fewer", one.fewer},
                     {"standard_error", one.standard_error},
                     {"what", one.what}});
  return {{"trees", std::move(trees)},
          {"worth", std::move(worth)},
          {"expected", sureness.expected},
          {"fewer_by_positions", sureness.fewer_by_positions},
          {"fewer_by_sizes", sureness.fewer_by_sizes},
          {"fewer_by_pits", sureness.fewer_by_pits},
          {"notes", notes_json(sureness.notes)},
          {"cautions", sureness.cautions},
          {"draws", sureness.draws},
          {"root_draws", sureness.root_draws},
          {"seed", sureness.seed},
          {"demo", site.settings.demo}};
}

Result<Exit> tell_sureness(const SureCommand& options, const Console& console) {
  ROOTSTEAD_TRY(const OpenProject open, open_to_assess(options.project, console));
  SurenessOptions how;
  how.as_entered = simulation_of(open.site.settings);
  how.seed = options.seed.value_or(how.as_entered.seed);
  how.draws = options.draws;
  how.root_draws = options.root_draws;
  how.threads = options.threads;
  Progress progress(console, "drawing");
  how.progress = [&](std::size_t done, std::size_t all) { progress.show(done, all); };
  ROOTSTEAD_TRY(const Sureness sureness, sureness_of(open.site, open.tables, how));
  if (options.json)
    console.out << io::written(sureness_json(sureness, open.site));
  else
    print_sureness(sureness, open.site, console.out);
  return Exit::done;
}

}  // namespace

void add_sure(CLI::App& app, Job& chosen) {
  CLI::App& command =
      declare(app, "sure", "Tell how sure each verdict is, and which measurement would help most",
              "rootstead sure mill-lane.gpkg --draws 400");
  auto options = std::make_shared<SureCommand>();
  take_project(command, options->project.file);
  command.add_option("--draws", options->draws, "Draws of what was measured")
      ->check(CLI::Range(2, 100'000))
      ->capture_default_str();
  command.add_option("--root-draws", options->root_draws, "Draws of the root model in each")
      ->check(CLI::Range(1, 100'000))
      ->capture_default_str();
  command.add_option("--seed", options->seed, "Seed; that of the project where none is given");
  command.add_option("--threads", options->threads, "Threads; as many as the machine has")
      ->check(CLI::Range(1, 1024));
  command.add_flag("--json", options->json, "Print JSON (docs/formats/json.md)");
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, tell_sureness);
}

}  // namespace rootstead::cli
