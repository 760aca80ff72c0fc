#include "engine/figures/trait_figures.hpp"

#include "engine/tables/traits.hpp"

namespace rootstead {
namespace {

using Answer = Result<std::vector<Figure>>;

HandFigure wood_density(const Tables& tables) {
  return {
      {"species.wood-density",
       "g/cm3",
       "oven-dry mass of stem wood per green volume: of the species, else of its genus, else of "
       "all woods",
       {{"species", "botanical name", "Quercus robur"}}},
      {},
      [&tables](const HandValues& given) -> Answer {
        Filled<Density> density = wood_density_of(given.word("species"), tables);
        if (density.note) density.figure.formula += "; " + density.note->text;
        density.figure.name.clear();
        return std::vector{std::move(density.figure)};
      }};
}

HandFigure wet_soil(const Tables& tables) {
  return {{"species.wet-soil",
           "",
           "how the species bears ground without air: 0 very intolerant to 4 very tolerant; root "
           "loss is another matter",
           {{"species", "botanical name", "Quercus alba"}}},
          {},
          [&tables](const HandValues& given) -> Answer {
            const std::string species = given.word("species");
            const WetSoilTolerance* row = tables.wet_soil_of(species);
            if (row == nullptr || row->tolerance == WetSoil::unknown)
              return Error{Code::unknown_name, "species.wet-soil",
                           "no source read here says how " + species + " bears wet ground",
                           "add a row to a wet_soil.csv of your own"};
            Figure figure;
            figure.value =
                static_cast<double>(row->tolerance) - static_cast<double>(WetSoil::very_intolerant);
            figure.word = to_text(row->tolerance);
            figure.formula = "class of " + row->botanical_name + " in a list of five";
            if (row->sources_disagree) figure.formula += "; sources disagree";
            figure.from = row->from;
            return std::vector{std::move(figure)};
          }};
}

}  // namespace

std::vector<HandFigure> trait_figures(const Tables& tables) {
  return {wood_density(tables), wet_soil(tables)};
}

}  // namespace rootstead
