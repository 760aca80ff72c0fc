// methods: one work by every method, side by side; as a table or as a page with pictures.
#include <optional>
#include <ostream>

#include "cli/command.hpp"
#include "cli/design_options.hpp"
#include "cli/job.hpp"
#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "engine/routes/methods.hpp"
#include "io/json.hpp"
#include "report/methods_page.hpp"

namespace rootstead::cli {
namespace {

using io::Json;

struct MethodsCommand {
  ProjectOptions project;
  std::string work, out;
  std::vector<std::string> prices;
  std::optional<int> draws;
  bool json = false;
};

void print_table(const MethodsAnswer& answer, const Site& site, std::ostream& out) {
  const AmountText amounts{site.settings.units};
  if (site.settings.demo) out << "INVENTED DATA: a demonstration, no real place.\n";
  out << work_label(site, answer.work) << "\n\n";
  std::vector<TableRow> rows{{"method", "length", "building", "fine roots lost", "weighs",
                              "anchorage lost", "weighs", "in sum"}};
  for (const MethodOutcome& one : answer.methods) {
    const Appraisal& a = one.appraisal;
    const std::string name = one.made.name + (one.made.as_drawn ? " (as drawn)" : "");
    if (!one.made.applies) {
      rows.push_back({name, "does not apply: " + one.made.why_not, "", "", "", "", "", ""});
      continue;
    }
    rows.push_back({name, a.length > 0 ? amounts.length(Length::metres(a.length)) : "-",
                    money_text(a.building), fixed_number(100 * a.roots_lost, 1) + " %",
                    money_text(sum_of(a, &TreeToll::roots_cost)),
                    fixed_number(100 * a.hold_lost, 1) + " %",
                    money_text(sum_of(a, &TreeToll::hold_cost)), money_text(a.total())});
  }
  out << text_table(rows)
      << "\nShares are of one tree's roots and of one tree's anchorage, added up over all trees.\n";
  for (const MethodOutcome& one : answer.methods) {
    if (!one.made.applies || one.appraisal.trees.empty()) continue;
    out << '\n'
        << one.made.name << ": " << one.made.what << '\n'
        << toll_table(one.appraisal, site);
  }
  out << '\n' << prices_text(answer.prices);
  for (const Note& note : answer.notes) out << "Note: " << note.text << ".\n";
  out << kDesignCaution;
}

Json answer_json(const MethodsAnswer& answer) {
  Json methods = Json::array();
  for (const MethodOutcome& one : answer.methods) {
    Json json = {{"method", one.made.name},
                 {"what", one.made.what},
                 {"as_drawn", one.made.as_drawn},
                 {"applies", one.made.applies},
                 {"why_not", one.made.why_not}};
    if (one.made.applies) json.update(appraisal_json(one.appraisal));
    methods.push_back(std::move(json));
  }
  return {{"work", answer.work},
          {"methods", std::move(methods)},
          {"prices", prices_json(answer.prices)},
          {"notes", notes_json(answer.notes)},
          {"cautions", cautions()}};
}

Result<Exit> compare(const MethodsCommand& options, const Console& console) {
  ROOTSTEAD_TRY(const OpenProject open, open_to_assess(options.project, console));
  ROOTSTEAD_TRY(const RoutePrices prices, prices_given(options.prices, open.tables));
  RootSimulation how = simulation_of(open.site.settings);
  if (options.draws) how.draws = *options.draws;
  ROOTSTEAD_TRY(const MethodsAnswer answer,
                methods_side_by_side(open.site, options.work, open.tables, prices, how));
  if (!options.out.empty()) {
    ROOTSTEAD_TRY(const Assessment assessment, assess_project(open, console));
    const Plan plan{&open.site, &open.tables, &assessment, nullptr};
    const SheetSize size =
        open.site.settings.units == UnitSystem::metric ? SheetSize::a4 : SheetSize::letter;
    ROOTSTEAD_CHECK(write_methods_page(plan, answer, size, options.out));
    console.out << "Made " << options.out << '\n';
  } else if (options.json) {
    console.out << io::written(answer_json(answer));
  } else {
    print_table(answer, open.site, console.out);
  }
  return Exit::done;
}

}  // namespace

void add_methods(CLI::App& app, Job& chosen) {
  CLI::App& command = declare(app, "methods", "Lay one work by every method side by side",
                              "rootstead methods mill-lane.gpkg W2 --out methods.pdf");
  auto options = std::make_shared<MethodsCommand>();
  take_project(command, options->project.file);
  command.add_option("WORK", options->work, "Id of a work")->required();
  command.add_option("--out", options->out, "PDF to write: one page with pictures at one scale");
  command.add_option("--price", options->prices,
                     "A price or weight of your own, NAME=NUMBER: " + joined(price_names(), " "));
  command.add_option("--draws", options->draws, "Draws of the simulation; those of the project")
      ->check(CLI::Range(1, 100000));
  command.add_flag("--json", options->json, "Print JSON (docs/formats/json.md)");
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, compare);
}

}  // namespace rootstead::cli
