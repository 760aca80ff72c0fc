// why: the trail of a figure: value, formula, inputs with units, source, place and status.
#include <ostream>

#include "cli/command.hpp"
#include "cli/figure_text.hpp"
#include "cli/job.hpp"
#include "engine/advice/told_figure.hpp"
#include "io/json.hpp"

namespace rootstead::cli {
namespace {

struct WhyOptions {
  ProjectOptions project;
  std::string tree;
  std::string figure;
  bool json = false;
};

Result<std::vector<ToldFigure>> figures_asked_for(const WhyOptions& options, OpenProject& open,
                                                  const Console& console) {
  const Tree* tree = open.site.tree(options.tree);
  if (tree == nullptr) {
    return Error{Code::unknown_name, "tree " + options.tree, "the project has no such tree",
                 "give an id or tag as `rootstead assess " + options.project.file + "` lists them"};
  }
  open.site.trees = {Tree(*tree)};  // one tree alone gives the same bits as among others
  ROOTSTEAD_TRY(const Assessment assessment, assess_project(open, console));
  ROOTSTEAD_TRY(const Advice advice, advise_project(open, assessment));
  std::vector<ToldFigure> figures = figures_told(assessment.trees.front(), advice);
  if (options.figure.empty()) return figures;
  return figures_named(figures, options.figure, options.tree);
}

// Names of figures do not say of which work or rule they speak.
std::string about(const ToldFigure& told, const Site& site) {
  if (!told.work.empty()) return work_label(site, told.work);
  return told.rule.empty() ? "" : "rule " + told.rule;
}

Result<Exit> explain(const WhyOptions& options, const Console& console) {
  ROOTSTEAD_TRY(OpenProject open, open_to_assess(options.project, console));
  ROOTSTEAD_TRY(const std::vector<ToldFigure> figures, figures_asked_for(options, open, console));
  if (options.json) {
    io::Json list = io::Json::array();
    for (const ToldFigure& told : figures) list.push_back(io::to_json(told, open.tables));
    console.out << io::written(list);
    return Exit::done;
  }
  if (open.site.settings.demo) console.out << "INVENTED DATA: a demonstration, no real place.\n\n";
  for (const ToldFigure& told : figures)
    console.out << trail_text(told.figure, open.tables, about(told, open.site)) << '\n';
  return Exit::done;
}

}  // namespace

void add_why(CLI::App& app, Job& chosen) {
  CLI::App& command = declare(app, "why", "Say where the figures of one tree come from",
                              "rootstead why mill-lane.gpkg T17\n"
                              "  rootstead why mill-lane.gpkg T17 anchorage\n"
                              "  rootstead why mill-lane.gpkg T17 transplant.ball");
  auto options = std::make_shared<WhyOptions>();
  take_project(command, options->project.file);
  command.add_option("TREE", options->tree, "Tree, by id or tag")->required();
  command.add_option("FIGURE", options->figure,
                     "Only figures of this name, or whose name holds this text");
  command.add_flag("--json", options->json, "Print JSON (docs/formats/json.md)");
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, explain);
}

}  // namespace rootstead::cli
