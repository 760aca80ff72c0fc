// route: other ways for a line work, weighed against the one that is drawn.
#include <algorithm>
#include <fstream>
#include <optional>
#include <ostream>

#include "cli/command.hpp"
#include "cli/design_options.hpp"
#include "cli/job.hpp"
#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "engine/rootstead.hpp"
#include "engine/routes/routes.hpp"
#include "io/json.hpp"

namespace rootstead::cli {
namespace {

using io::Json;

struct RouteCommand {
  ProjectOptions project;
  std::string work;
  int alternatives = 3;
  std::vector<std::string> through, without, prices, avoid;
  std::string within, radius, depth, margin, cell;
  bool json = false;
  std::optional<int> draws;
};

Result<RouteWishes> wishes_of(const RouteCommand& options, const Site& site) {
  RouteWishes wishes;
  wishes.alternatives = options.alternatives;
  for (const std::string& text : options.through) {
    ROOTSTEAD_TRY(const Point at, point_from(text));
    wishes.through.push_back(at);
  }
  for (const std::string& name : options.without) {
    if (name == "open") wishes.allowed[0] = false;
    if (name == "hand") wishes.allowed[1] = false;
    if (name == "bore") wishes.allowed[2] = false;
  }
  ROOTSTEAD_TRY(wishes.avoid, ground_named(options.avoid, site));
  if (!options.within.empty()) {
    ROOTSTEAD_TRY(wishes.within, ground_named({options.within}, site));
  }
  if (!options.radius.empty()) {
    ROOTSTEAD_TRY(wishes.least_radius, length_given(options.radius, "--radius"));
  }
  if (!options.depth.empty()) {
    ROOTSTEAD_TRY(wishes.depth, length_given(options.depth, "--depth"));
  }
  if (!options.margin.empty()) {
    ROOTSTEAD_TRY(wishes.margin, length_given(options.margin, "--margin"));
  }
  if (!options.cell.empty()) {
    ROOTSTEAD_TRY(wishes.cell, length_given(options.cell, "--cell"));
  }
  return wishes;
}

std::string methods_text(const Route& route, const AmountText& amounts) {
  std::vector<std::string> parts;
  for (int m = 0; m < kRouteMethods; ++m)
    if (route.by_method[m] > 0.05)
      parts.push_back(amounts.length(Length::metres(route.by_method[m])) + " " +
                      std::string(to_text(static_cast<RouteMethod>(m))));
  return joined(parts, ", ");
}

void print_route(const Route& route, const RouteAnswer& answer, const Site& site,
                 std::ostream& out) {
  const AmountText amounts{site.settings.units};
  const Appraisal& a = route.appraisal;
  out << "\n"
      << (route.name == "as drawn" ? "As drawn" : "Route " + route.name) << ": "
      << amounts.length(Length::metres(a.length)) << " (" << methods_text(route, amounts) << "), "
      << counted(static_cast<std::size_t>(route.bends), "bend", "bends");
  if (route.pits > 0) out << ", " << counted(static_cast<std::size_t>(route.pits), "pit", "pits");
  if (route.blocked > 0.05)
    out << ", " << amounts.length(Length::metres(route.blocked))
        << " of it where nothing may be dug";
  if (!route.radius_kept) out << ", a bend has no room for the least radius";
  if (route.name != "as drawn" && route.name != "A")
    out << ", apart from those before it over " << percent(route.apart, 0);
  out << "\n  building " << money_text(a.building) << ", roots (health) "
      << money_text(sum_of(a, &TreeToll::roots_cost)) << ", anchorage (stability) "
      << money_text(sum_of(a, &TreeToll::hold_cost)) << ", near trunks "
      << money_text(sum_of(a, &TreeToll::near_cost)) << "; in sum " << money_text(a.total());
  if (route.name != "as drawn")
    out << " (" << percent(a.total() / answer.drawn.appraisal.total(), 0) << " of the drawn line)";
  out << "\n  fine roots lost over all trees " << fixed_number(100 * a.roots_lost, 1)
      << " % of one tree's, anchorage " << fixed_number(100 * a.hold_lost, 1) << " %\n";
  if (a.trees.empty()) {
    out << "  no tree loses anything by it\n";
    return;
  }
  out << toll_table(a, site);
  if (route.name == "as drawn") return;
  for (const RouteStretch& stretch : route.way) {
    out << "  " << to_text(stretch.method) << ":";
    for (const Point& p : stretch.line)
      out << ' ' << fixed_number(p.x, 2) << ',' << fixed_number(p.y, 2);
    out << '\n';
  }
}

Json route_json(const Route& route) {
  Json way = Json::array();
  for (const RouteStretch& stretch : route.way) {
    Json line = Json::array();
    for (const Point& p : stretch.line) line.push_back({p.x, p.y});
    way.push_back({{"method", to_text(stretch.method)}, {"line", std::move(line)}});
  }
  Json json = {{"name", route.name},         {"way", std::move(way)},
               {"bends", route.bends},       {"pits", route.pits},
               {"blocked_m", route.blocked}, {"radius_kept", route.radius_kept},
               {"apart_share", route.apart}};
  json.update(appraisal_json(route.appraisal));
  return json;
}

void print_answer(const RouteAnswer& answer, const Site& site, std::ostream& out) {
  if (site.settings.demo) out << "INVENTED DATA: a demonstration, no real place.\n";
  print_route(answer.drawn, answer, site, out);
  for (const Route& route : answer.routes) print_route(route, answer, site, out);
  out << '\n'
      << answer.looked_at
      << " ways were assessed anew by the whole model, among all other works; cells of "
      << fixed_number(answer.cell.metres(), 2) << " m led the search.\n"
      << prices_text(answer.prices);
  for (const Note& note : answer.notes) out << "Note: " << note.text << ".\n";
  out << kDesignCaution;
}

Result<Exit> find_routes(const RouteCommand& options, const Console& console) {
  ROOTSTEAD_TRY(const OpenProject open, open_to_assess(options.project, console));
  ROOTSTEAD_TRY(const RoutePrices prices, prices_given(options.prices, open.tables));
  ROOTSTEAD_TRY(RouteWishes wishes, wishes_of(options, open.site));
  wishes.how = trial_of(open.site.settings, options.draws);
  ROOTSTEAD_TRY(const RouteAnswer answer,
                least_loss_routes(open.site, options.work, open.tables, prices, wishes));
  if (!options.json) {
    print_answer(answer, open.site, console.out);
    return Exit::done;
  }
  Json routes = Json::array();
  for (const Route& route : answer.routes) routes.push_back(route_json(route));
  Json json = {{"work", options.work},
               {"drawn", route_json(answer.drawn)},
               {"routes", std::move(routes)},
               {"prices", prices_json(answer.prices)},
               {"notes", notes_json(answer.notes)},
               {"cautions", cautions()}};
  console.out << io::written(json);
  return Exit::done;
}

}  // namespace

void add_route(CLI::App& app, Job& chosen) {
  CLI::App& command =
      declare(app, "route", "Find other ways for a line work that take less from trees",
              "rootstead route mill-lane.gpkg W2 --options 3 --price open=95 --price pit=2500");
  auto options = std::make_shared<RouteCommand>();
  take_project(command, options->project.file);
  command.add_option("WORK", options->work, "Id of a work drawn as one line")->required();
  command.add_option("--options", options->alternatives, "How many other ways at most")
      ->check(CLI::Range(1, 9))
      ->capture_default_str();
  command.add_option("--through", options->through, "A fixed point, X,Y; in the order of the line");
  command.add_option("--without", options->without, "A method not to be used")
      ->check(CLI::IsMember({"open", "hand", "bore"}));
  command.add_option("--avoid", options->avoid,
                     "Id of a work or surface whose ground is not to be touched, or a file of "
                     "outlines: x,y a line, an empty line between two");
  command.add_option("--within", options->within, "The corridor: as --avoid, or `boundary`");
  command.add_option("--margin", options->margin,
                     "How far from the drawn line is looked without a corridor; 15 m");
  command.add_option("--radius", options->radius, "Least radius of bends");
  command.add_option("--depth", options->depth, "Depth of the trench, if not as drawn");
  command.add_option("--cell", options->cell, "Side of the cells that lead the search");
  command.add_option("--price", options->prices,
                     "A price or weight of your own, NAME=NUMBER: " + joined(price_names(), " "));
  command.add_option("--draws", options->draws, "Draws of the simulation while searching; 64")
      ->check(CLI::Range(1, 100000));
  command.add_flag("--json", options->json, "Print JSON (docs/formats/json.md)");
  command.add_option("--rules-dir", options->project.rules_dir,
                     "Folder of your own rules and tables");
  when_parsed(command, options, chosen, find_routes);
}

}  // namespace rootstead::cli
