#include "engine/root_crown/root_crown_figures.hpp"

#include "engine/base/text.hpp"
#include "engine/root_crown/girdling.hpp"
#include "engine/root_crown/taper.hpp"

namespace rootstead {
namespace {

HandFigure girdling(const Tables& tables) {
  HandFigure one;
  one.kind = {
      "root-crown.girdling",
      "",
      "share of a trunk's circumference encircled and girdled by roots, by the soil above the "
      "main roots",
      {{"depth", "soil above the first main roots", "10cm"},
       {"species", "botanical name", "Acer"}}};
  one.may_miss = {"species"};
  one.compute = [&tables](const HandValues& values) -> Result<std::vector<Figure>> {
    const double depth = values.in("depth", "m");
    if (depth < 0)
      return Error{Code::value_invalid, "root-crown.girdling", "the depth is negative",
                   "give the soil above the main roots, 0 where there is none"};
    auto risk = girdling_risk({depth, depth, depth}, values.word("species", ""), tables);
    return std::move(risk.figures);
  };
  return one;
}

HandFigure taper(const Tables& tables) {
  HandFigure one;
  one.kind = {"root-crown.taper",
              "",
              "how much a trunk widens at the ground: below 1.05 suspect burial, below 1.10 probe",
              {{"ground", "lowest diameter", "620mm"},
               {"above", "diameter higher up", "560mm"},
               {"height", "height of the upper reading above the ground", "0.3m"},
               {"lowest", "height of the lowest reading", "0m"}}};
  one.may_miss = {"height", "lowest"};
  one.compute = [&tables](const HandValues& values) -> Result<std::vector<Figure>> {
    const auto length = [&](const std::string& key, double otherwise) {
      return EnteredLength{values.in(key, "m", otherwise), LengthUnit::metre};
    };
    const double height = tables.parameter("root_crown.taper.reference_height").best;
    auto fit = fit_taper({{length("lowest", 0), length("ground", 0)},
                          {length("height", height), length("above", 0)}},
                         tables);
    if (!fit)
      return Error{Code::value_invalid, "root-crown.taper",
                   "these are no two diameters of a trunk within a metre of the ground",
                   "give two above zero at different heights"};
    Figure says = fit->figure;
    says.name = "root-crown.taper.says";
    says.word = to_text(fit->says);
    says.formula = "below 1.05 like a pole, below 1.10 worth a probe";
    fit->figure.inputs = says.inputs = {};
    return std::vector<Figure>{fit->figure, says};
  };
  return one;
}

}  // namespace

std::vector<HandFigure> root_crown_figures(const Tables& tables) {
  return {girdling(tables), taper(tables)};
}

}  // namespace rootstead
