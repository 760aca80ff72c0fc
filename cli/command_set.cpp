// set: the texts, rules, soil, wind, climate and choices of advice of a project, by KEY=VALUE; all
// in one change or none.
#include <ostream>

#include "cli/choices.hpp"
#include "cli/command.hpp"
#include "cli/job.hpp"
#include "engine/base/text.hpp"

namespace rootstead::cli {
namespace {

struct SetOptions {
  ProjectOptions project;
  std::vector<std::string> choices;
};

void list_choices(const OpenProject& open, std::ostream& out) {
  std::vector<TableRow> rows;
  for (const Choice& choice : choices())
    rows.push_back({choice.key, choice.value(open.site), "  " + choice.takes});
  for (TableRow& row : rows) {
    if (row[1].empty()) row[1] = "-";
  }
  out << text_table(rows);
  if (open.site.soil.layers.empty()) return;
  out << counted(open.site.soil.layers.size(), "soil layer", "soil layers")
      << " (rootstead add FILE SOURCE --as soil)\n";
}

Result<Exit> set_choices(const SetOptions& options, const Console& console) {
  ROOTSTEAD_TRY(OpenProject open, open_project(options.project, console));
  if (options.choices.empty()) {
    list_choices(open, console.out);
    return Exit::done;
  }
  std::vector<std::string> done;
  for (const std::string& text : options.choices) {
    ROOTSTEAD_TRY(const Choice* const choice, choose(text, open.site, open.tables));
    const std::string value = choice->value(open.site);
    done.push_back(choice->key + " = " + (value.empty() ? "-" : value));
  }
  ROOTSTEAD_CHECK(choices_fit(open.site));
  ROOTSTEAD_CHECK(open.project.save_choices(open.site, joined(done, ", "), io::utc_now()));
  for (const std::string& line : done) console.out << line << '\n';
  return Exit::done;
}

}  // namespace

void add_set(CLI::App& app, Job& chosen) {
  CLI::App& command = declare(
      app, "set",
      "Set texts, rules, soil, wind, climate and what is advised by; without KEY=VALUE, list them",
      "rootstead set mill-lane.gpkg soil.texture=clay soil.rooting_depth=0.6m\n"
      "  rootstead set mill-lane.gpkg wind.standard=en1991 wind.speed=24m/s wind.terrain=III\n"
      "  rootstead set mill-lane.gpkg climate.hardiness_zone=8 climate.latitude=51.5\n"
      "  rootstead set mill-lane.gpkg works_begin=2026-03-02 works_end=2026-09-30 years_of_care=3\n"
      "  rootstead set mill-lane.gpkg client=\"Harbour Trust\" revision=B\n"
      "  rootstead set mill-lane.gpkg");
  auto options = std::make_shared<SetOptions>();
  take_project(command, options->project.file);
  command.add_option("KEY=VALUE", options->choices,
                     "What to set; an empty value takes it away. All keys: rootstead set FILE");
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, set_choices);
}

}  // namespace rootstead::cli
