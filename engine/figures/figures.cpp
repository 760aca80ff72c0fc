#include "engine/figures/figures.hpp"

#include <algorithm>

#include "engine/base/nearest.hpp"
#include "engine/cutting/cutting_figures.hpp"
#include "engine/figures/trait_figures.hpp"
#include "engine/replacement/replacement_figures.hpp"
#include "engine/root_crown/root_crown_figures.hpp"
#include "engine/rules/figures.hpp"
#include "engine/soil/soil_figures.hpp"
#include "engine/transplant/transplant_figures.hpp"
#include "engine/water/water_figures.hpp"

namespace rootstead {
namespace {

// One line a room.
std::vector<HandFigure> hand_figures(const Tables& tables) {
  std::vector<HandFigure> all;
  const auto take = [&](std::vector<HandFigure> of_room) {
    for (HandFigure& figure : of_room) all.push_back(std::move(figure));
  };
  take(soil_figures(tables));
  take(water_figures(tables));
  take(transplant_figures(tables));
  take(cutting_figures(tables));
  take(root_crown_figures(tables));
  take(replacement_figures(tables));
  take(trait_figures(tables));
  return all;
}

Error unknown(const Tables& tables, std::string_view name) {
  std::vector<std::string> known;
  for (const FigureKind& kind : figure_kinds(tables)) known.push_back(kind.name);
  const std::string near = nearest(name, known);
  return Error{Code::unknown_name, "figure", "there is no figure \"" + std::string(name) + "\"",
               near.empty() ? "list them with `rootstead figure --list`"
                            : "perhaps \"" + near + "\" is meant"};
}

}  // namespace

std::vector<FigureKind> figure_kinds(const Tables& tables) {
  std::vector<FigureKind> kinds = rule_figure_kinds(tables);
  for (const HandFigure& figure : hand_figures(tables)) kinds.push_back(figure.kind);
  std::sort(kinds.begin(), kinds.end(),
            [](const FigureKind& a, const FigureKind& b) { return a.name < b.name; });
  return kinds;
}

Result<std::vector<Figure>> figure(const Tables& tables, std::string_view name,
                                   const FigureArguments& arguments) {
  for (const HandFigure& one : hand_figures(tables))
    if (one.kind.name == name) return answer(one, arguments);
  auto figures = rule_figure(tables, name, arguments);
  if (!figures && figures.error().code == Code::unknown_name) return unknown(tables, name);
  return figures;
}

}  // namespace rootstead
