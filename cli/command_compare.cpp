// compare: what differs between two issues, or an issue and the project as it is.
#include <ostream>

#include "cli/job.hpp"
#include "cli/revision_commands.hpp"
#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "io/comparison_json.hpp"
#include "io/revision_ledger.hpp"
#include "io/tables.hpp"

namespace rootstead::cli {
namespace {

constexpr const char* kNow = "now";

struct CompareCommand {
  ProjectOptions project;
  std::string from, to = kNow;
  bool json = false;
};

std::string range_text(const std::optional<Range>& range) {
  if (!range) return "unknown";
  return fixed_number(100 * range->best, 0) + " % (" + fixed_number(100 * range->low, 0) + "-" +
         fixed_number(100 * range->high, 0) + ")";
}

std::string answer_text(const AnswerChange& answer) {
  return range_text(answer.before) + " > " + range_text(answer.after) + ", " +
         std::string(to_text(answer.trend));
}

std::string verdict_text(const TreeChange& tree) {
  const auto word = [](const std::optional<Action>& action) {
    return action ? std::string(to_text(*action)) : std::string("not there");
  };
  return tree.before == tree.after ? word(tree.after)
                                   : word(tree.before) + " > " + word(tree.after);
}

void print_things(const Comparison& changes, UnitSystem units, std::ostream& out) {
  for (const ThingChange& thing : changes.things) {
    out << to_text(thing.sort) << ' ' << thing.id
        << (thing.name == thing.id ? "" : " " + thing.name) << ": " << to_text(thing.how) << '\n';
    if (thing.moved)
      out << "  lies elsewhere, by up to " << AmountText{units}.length(*thing.moved) << '\n';
    for (const FieldChange& field : thing.fields)
      out << "  " << field.field << ": " << (field.before.empty() ? "-" : field.before) << " > "
          << (field.after.empty() ? "-" : field.after) << '\n';
  }
}

std::string label_of(const Site& site, const std::string& id) {
  const Tree* tree = site.tree(id);
  return tree == nullptr ? id : tree->label();
}

void print_trees(const Comparison& changes, const Site& site, std::ostream& out) {
  std::vector<TableRow> rows{
      {"tree", "health: fine roots lost", "stability: anchorage kept", "verdict"}};
  for (const TreeChange& tree : changes.trees)
    rows.push_back({label_of(site, tree.tree), answer_text(tree.health),
                    answer_text(tree.stability), verdict_text(tree)});
  if (!changes.trees.empty()) out << '\n' << text_table(rows);
  out << '\n'
      << counted(changes.trees_same, "tree", "trees") << " the same in both answers. "
      << trend_rule() << '\n';
}

void print_limits(const Comparison& changes, const Site& site, std::ostream& out) {
  if (!changes.limits.empty()) out << '\n';
  for (const LimitChange& limit : changes.limits)
    out << "Limit " << (limit.newly_passed ? "newly passed" : "passed no longer") << ": tree "
        << label_of(site, limit.tree) << ", " << limit.rule << ' ' << limit.zone << ' '
        << limit.limit << (limit.triggers.empty() ? "" : ": " + limit.triggers) << '\n';
}

Result<issue::State> state_named(const CompareCommand& options, const std::string& name,
                                 const Tables& tables, const issue::Maker& maker) {
  if (name != kNow) return issue::issued_state(options.project.file, name, tables, maker);
  ROOTSTEAD_TRY(const io::Project project, io::Project::open(options.project.file));
  ROOTSTEAD_TRY(Site site, project.read());
  return issue::assessed(std::move(site), tables, maker.progress);
}

// The last issue, but not the one it is compared with.
Result<std::string> earlier_issue(const CompareCommand& options) {
  ROOTSTEAD_TRY(const io::RevisionLedger ledger, io::RevisionLedger::open(options.project.file));
  ROOTSTEAD_TRY(const auto issues, ledger.issues());
  std::string before;
  for (const IssueMade& one : issues) {
    if (one.revision == options.to) break;
    before = one.revision;
  }
  if (!before.empty()) return before;
  return Error{Code::wrong_use, options.project.file, "there is no earlier issue to compare with",
               "make one: rootstead issue FILE --revision A"};
}

Result<Exit> compare_states(const CompareCommand& options, const Console& console) {
  std::string from = options.from;
  if (from.empty()) {
    ROOTSTEAD_TRY(from, earlier_issue(options));
  }
  ROOTSTEAD_TRY(const Tables tables, io::load_tables(options.project.rules_dir));
  Progress progress(console, "assessing");
  const issue::Maker maker =
      this_program([&](std::size_t done, std::size_t all) { progress.show(done, all); });
  ROOTSTEAD_TRY(const issue::State before, state_named(options, from, tables, maker));
  ROOTSTEAD_TRY(const issue::State after, state_named(options, options.to, tables, maker));
  const UnitSystem units = after.site.settings.units;
  const Comparison changes =
      compare({&before.site, &before.assessment}, {&after.site, &after.assessment}, units);
  if (options.json) {
    io::Json json{{"from", from}, {"to", options.to}, {"demo", after.site.settings.demo}};
    json.update(io::to_json(changes));
    console.out << io::written(json);
    return Exit::done;
  }
  if (after.site.settings.demo) console.out << "INVENTED DATA: a demonstration, no real place.\n";
  console.out << "From " << from << " to " << options.to << ": "
              << counted(changes.things.size(), "change", "changes") << '\n';
  print_things(changes, units, console.out);
  print_trees(changes, after.site, console.out);
  print_limits(changes, after.site, console.out);
  return Exit::done;
}

}  // namespace

void add_compare(CLI::App& app, Job& chosen) {
  CLI::App& command = declare(app, "compare", "Say what differs between two states of a project",
                              "rootstead compare mill-lane.gpkg\n"
                              "  rootstead compare mill-lane.gpkg --from A --to B");
  auto options = std::make_shared<CompareCommand>();
  take_project(command, options->project.file);
  command.add_option("--from", options->from,
                     "Revision compared with, or now; the issue before the other if not given");
  command.add_option("--to", options->to, "Revision, or now")->capture_default_str();
  command.add_flag("--json", options->json, "Print JSON (docs/formats/json.md)");
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, compare_states);
}

}  // namespace rootstead::cli
