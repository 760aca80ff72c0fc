// ease: the smallest change of a work after which every tree passes, or why there is none.
#include <ostream>

#include "cli/command.hpp"
#include "cli/design_options.hpp"
#include "cli/job.hpp"
#include "engine/base/text.hpp"
#include "engine/ease/ease.hpp"
#include "engine/rootstead.hpp"
#include "io/json.hpp"

namespace rootstead::cli {
namespace {

using io::Json;

struct EaseCommand {
  ProjectOptions project;
  std::string work, range, health = "small", stability = "small";
  std::optional<double> most_loss, least_kept;
  std::optional<int> draws;
  bool json = false;
};

std::string label(const Site& site, const std::string& id) {
  const Tree* tree = site.tree(id);
  return tree == nullptr ? id : tree->label();
}

std::string failing_text(const Failing& one, const Site& site) {
  std::string text = label(site, one.tree) + ": health " + std::string(to_text(one.vitality)) +
                     " concern, " + percent(one.loss.best) + " of fine roots lost; stability " +
                     std::string(to_text(one.stability)) + " concern";
  if (one.kept) text += ", " + percent(one.kept->best) + " of anchorage kept";
  return text;
}

Concern concern_named(const std::string& text) {
  for (const Concern one : {Concern::none, Concern::small, Concern::material, Concern::large})
    if (text == to_text(one)) return one;
  return Concern::small;
}

void print_family(const EasedWork& family, const Site& site, std::ostream& out) {
  out << (family.passes ? "  passes  " : "  no      ") << family.what;
  if (family.change == Change::moved && family.passes) out << ", the least to within 5 cm";
  out << '\n';
  if (family.bound)
    out << "          bound: " << family.bound_of << " leaves " << failing_text(*family.bound, site)
        << '\n';
  if (!family.passes && family.unproved > 0)
    out << "          not ruled out: stretches shorter than 5 cm, "
        << fixed_number(family.unproved, 2) << " m in all\n";
}

void print_answer(const EaseAnswer& answer, const Site& site, const RootSimulation& how,
                  const std::optional<bool>& confirmed, std::ostream& out) {
  if (site.settings.demo) out << "INVENTED DATA: a demonstration, no real place.\n";
  out << work_label(site, answer.work) << '\n';
  if (answer.passes_as_drawn)
    out << (answer.fail_without.empty() ? "Every tree it touches passes as it is drawn.\n"
                                        : "Every other tree it touches passes as it is drawn.\n");
  if (!answer.failing.empty()) out << "As drawn, these do not pass:\n";
  for (const Failing& one : answer.failing)
    out << "  " << failing_text(one, site) << "\n    " << one.reason << '\n';
  if (!answer.fail_without.empty())
    out << "These do not pass even without this work, so that no change of it can help them; they "
           "are left out:\n";
  for (const Failing& one : answer.fail_without) {
    out << "  " << failing_text(one, site);
    if (one.loss_as_drawn) out << "; with it " << percent(one.loss_as_drawn->best) << " lost";
    out << '\n';
  }
  if (answer.fail_untouched > 0)
    out << "  and " << counted(static_cast<std::size_t>(answer.fail_untouched), "tree", "trees")
        << " that it does not touch.\n";
  if (!answer.families.empty()) out << "Changes looked at:\n";
  for (const EasedWork& family : answer.families) print_family(family, site, out);
  if (const EasedWork* smallest = answer.smallest()) {
    out << "Smallest change that passes: " << smallest->what << ".\n";
    if (confirmed)
      out << (*confirmed ? "Assessed again with the project's own draws: it passes.\n"
                         : "Assessed again with the project's own draws it does NOT pass: the "
                           "margin is too thin; ask for more with --draws.\n");
  } else if (!answer.families.empty()) {
    out << "No change of these kinds makes every tree pass: see the bounds.\n";
  }
  out << "Searched with " << how.draws << " draws, seed " << how.seed << ".\n";
  for (const Note& note : answer.notes)
    out << "Note: " << label(site, note.subject) << ": " << note.text << ".\n";
  out << "Health and stability are two answers, each held to its own limit. Passing a limit is no "
         "proof that a tree will stand or live.\n";
}

Json failing_json(const Failing& one) {
  return {{"tree", one.tree},
          {"vitality", to_text(one.vitality)},
          {"stability", to_text(one.stability)},
          {"absorbing_loss", io::to_json(one.loss)},
          {"anchorage_kept", one.kept ? io::to_json(*one.kept) : Json(nullptr)},
          {"reason", one.reason}};
}

Json answer_json(const EaseAnswer& answer, const std::optional<bool>& confirmed) {
  const auto all = [](const std::vector<Failing>& list) {
    Json made = Json::array();
    for (const Failing& one : list) made.push_back(failing_json(one));
    return made;
  };
  Json families = Json::array();
  for (const EasedWork& family : answer.families)
    families.push_back(
        {{"change", to_text(family.change)},
         {"what", family.what},
         {"passes", family.passes},
         {"amount_m", family.amount},
         {"towards_deg", family.towards ? Json(family.towards->degrees()) : Json(nullptr)},
         {"range_m", family.range},
         {"unproved_m", family.unproved},
         {"looked_at", family.looked_at},
         {"bound", family.bound ? failing_json(*family.bound) : Json(nullptr)},
         {"bound_of", family.bound_of}});
  return {{"work", answer.work},
          {"passes_as_drawn", answer.passes_as_drawn},
          {"failing", all(answer.failing)},
          {"fail_without", all(answer.fail_without)},
          {"changes", std::move(families)},
          {"confirmed", confirmed ? Json(*confirmed) : Json(nullptr)},
          {"notes", notes_json(answer.notes)},
          {"cautions", cautions()}};
}

// The smallest change with the draws of the project. Trees that fail anyway are not asked.
Result<std::optional<bool>> confirm(const EaseAnswer& answer, const OpenProject& open,
                                    const PassLimits& limits) {
  const EasedWork* smallest = answer.smallest();
  if (smallest == nullptr) return std::optional<bool>();
  const Work* work = open.site.work(answer.work);
  ROOTSTEAD_TRY(Appraiser appraiser,
                Appraiser::start(open.site, *work, open.tables, route_prices(open.tables),
                                 simulation_of(open.site.settings)));
  const auto trees = appraiser.assessed(smallest->works);
  for (std::size_t i = 0; i < trees.size(); ++i)
    if (open.site.trees[i].intent != Intent::remove && passes(appraiser.without()[i], limits) &&
        !passes(trees[i], limits))
      return std::optional(false);
  return std::optional(true);
}

Result<Exit> ease(const EaseCommand& options, const Console& console) {
  ROOTSTEAD_TRY(const OpenProject open, open_to_assess(options.project, console));
  EaseOptions how;
  how.how = trial_of(open.site.settings, options.draws);
  how.limits = {concern_named(options.health), concern_named(options.stability), options.most_loss,
                options.least_kept};
  if (!options.range.empty()) {
    ROOTSTEAD_TRY(how.range, length_given(options.range, "--range"));
  }
  ROOTSTEAD_TRY(const EaseAnswer answer,
                smallest_change(open.site, options.work, open.tables, how));
  ROOTSTEAD_TRY(const std::optional<bool> confirmed, confirm(answer, open, how.limits));
  if (options.json)
    console.out << io::written(answer_json(answer, confirmed));
  else
    print_answer(answer, open.site, how.how, confirmed, console.out);
  return answer.passes_as_drawn || answer.smallest() != nullptr ? Exit::done : Exit::problems;
}

}  // namespace

void add_ease(CLI::App& app, Job& chosen) {
  CLI::App& command =
      declare(app, "ease", "Find the smallest change of a work after which every tree passes",
              "rootstead ease mill-lane.gpkg W4 --range 6m");
  auto options = std::make_shared<EaseCommand>();
  take_project(command, options->project.file);
  command.add_option("WORK", options->work, "Id of a proposed work")->required();
  command.add_option("--range", options->range, "How far it may be moved or held back; 10 m");
  command.add_option("--health", options->health, "Largest concern for health that passes")
      ->check(CLI::IsMember({"none", "small", "material"}))
      ->capture_default_str();
  command
      .add_option("--stability", options->stability, "Largest concern for stability that passes")
      ->check(CLI::IsMember({"none", "small", "material"}))
      ->capture_default_str();
  command
      .add_option("--most-loss", options->most_loss,
                  "Largest share of fine roots a tree may lose, best estimate")
      ->check(CLI::Range(0.0, 1.0));
  command
      .add_option("--least-kept", options->least_kept,
                  "Least share of anchorage a tree must keep, low end")
      ->check(CLI::Range(0.0, 1.0));
  command.add_option("--draws", options->draws, "Draws of the simulation while searching; 64")
      ->check(CLI::Range(1, 100000));
  command.add_flag("--json", options->json, "Print JSON (docs/formats/json.md)");
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, ease);
}

}  // namespace rootstead::cli
