#include "engine/cutting/cutting_figures.hpp"

#include <numbers>

#include "engine/cutting/bore_advice.hpp"
#include "engine/cutting/cut_distance.hpp"
#include "engine/cutting/excavation.hpp"

namespace rootstead {
namespace {

using Figures = std::vector<Figure>;

FigureInput stem_input() {
  return {"stem", "stem diameter", "12in"};
}
FigureInput form_input() {
  return {"form", "growth form, where it is a palm or other monocot", "broadleaf"};
}

// Fails for palms, and for a stem of no thickness.
Result<Length> stem_of(const std::string& figure, const HandValues& values) {
  const auto form = growth_form_from(values.word("form", "broadleaf"));
  if (!form)
    return Error{Code::wrong_use, figure, "form=" + values.word("form") + " is not understood",
                 "write e.g. form=palm"};
  if (*form == GrowthForm::palm || *form == GrowthForm::other_monocot)
    return Error{Code::outside_rule_domain, figure,
                 "a stem diameter says nothing of a palm's roots", "ask for cutting.palm-distance"};
  const double stem = values.in("stem", "m");
  if (stem <= 0)
    return Error{Code::value_invalid, figure, "the stem diameter is not above zero",
                 "give it as a positive length"};
  return Length::metres(stem);
}

HandFigure auger_distance() {
  HandFigure one;
  one.kind = {"cutting.auger-distance",
              "m",
              "how far from the face of the trunk a bore starts: two versions of one table",
              {stem_input(), {"crown", "largest crown radius", "3m"}, form_input()}};
  one.may_miss = {"crown", "form"};
  one.compute = [](const HandValues& values) -> Result<Figures> {
    ROOTSTEAD_TRY(const Length stem, stem_of("cutting.auger-distance", values));
    std::optional<Length> crown;
    if (values.has("crown")) crown = Length::metres(values.in("crown", "m"));
    Figures figures;
    for (AugerDistance& version : auger_distances(stem, crown))
      if (version.distance) figures.push_back(std::move(version.figure));
    return figures;
  };
  return one;
}

HandFigure bore_depth(const Tables& tables) {
  HandFigure one;
  one.kind = {
      "cutting.bore-depth",
      "m",
      "how deep the crown of a bore lies beneath roots, by several rules",
      {stem_input(), {"distance", "of the line from the trunk face", "10ft"}, form_input()}};
  one.may_miss = {"form"};
  one.compute = [&tables](const HandValues& values) -> Result<Figures> {
    ROOTSTEAD_TRY(const Length stem, stem_of("cutting.bore-depth", values));
    Figures figures;
    for (BoreDepth& depth : bore_depths(stem, Length::metres(values.in("distance", "m")), tables))
      if (depth.applies) figures.push_back(std::move(depth.figure));
    return figures;
  };
  return one;
}

HandFigure force_lost(const Tables& tables) {
  HandFigure one;
  one.kind = {"cutting.force-lost",
              "",
              "share of the force that tilts a young willow oak lost after a cut: trunk-line, "
              "half-buttress or one-root",
              {{"cut", "kind of cut", "trunk-line"}}};
  one.compute = [&tables](const HandValues& values) -> Result<Figures> {
    std::string word = values.word("cut");
    for (char& c : word)
      if (c == '-') c = '_';
    const bool known = word == "trunk_line" || word == "half_buttress" || word == "one_root";
    if (!known)
      return Error{Code::wrong_use, "cutting.force-lost", "cut=" + word + " was not tested",
                   "write trunk-line, half-buttress or one-root"};
    const Parameter& row = tables.parameter("cutting.force_lost." + word);
    Figure figure;
    figure.value = row.best;
    figure.formula = row.meaning;
    figure.from = row.from;
    return Figures{figure};
  };
  return one;
}

HandFigure least_distance(const Tables& tables) {
  HandFigure one;
  one.kind = {"cutting.least-distance",
              "m",
              "how near to the trunk face roots are cut: least, and better",
              {stem_input(), form_input()}};
  one.may_miss = {"form"};
  one.compute = [&tables](const HandValues& values) -> Result<Figures> {
    ROOTSTEAD_TRY(const Length stem, stem_of("cutting.least-distance", values));
    Tree tree;
    tree.stems = {{Stem::Read::diameter, {stem.metres(), LengthUnit::metre}, {}}};
    return cut_distance(tree, tables).figures;
  };
  return one;
}

HandFigure of_palm(const Tables& tables) {
  HandFigure one;
  one.kind = {"cutting.palm-distance",
              "m",
              "how near to a palm's trunk its roots are cut, by how its kind replaces them",
              {{"species", "botanical name", "Cocos nucifera"}}};
  one.compute = [&tables](const HandValues& values) -> Result<Figures> {
    const Species* species = tables.species_of(values.word("species"));
    if (species && species->form != GrowthForm::palm && species->form != GrowthForm::other_monocot)
      return Error{Code::outside_rule_domain, "cutting.palm-distance",
                   species->botanical_name + " is no palm", "ask for cutting.least-distance"};
    return Figures{palm_distance(palm_regrowth(species, tables), tables)};
  };
  return one;
}

HandFigure precaution_zone(const Tables& tables) {
  HandFigure one;
  one.kind = {"cutting.precaution-zone",
              "m",
              "distance from the bark within which no machine digs: four girths",
              {stem_input(), form_input()}};
  one.may_miss = {"form"};
  one.compute = [&tables](const HandValues& values) -> Result<Figures> {
    ROOTSTEAD_TRY(const Length stem, stem_of("cutting.precaution-zone", values));
    const Parameter& row = tables.parameter("cutting.precaution_girths");
    Figure figure;
    figure.value = row.best * std::numbers::pi * stem.metres();
    figure.unit = "m";
    figure.inputs = values.given();
    figure.inputs.push_back(input_from(row, "n"));
    figure.formula = "n pi D";
    figure.from = row.from;
    return Figures{figure};
  };
  return one;
}

HandFigure trench_slope(const Tables& tables) {
  HandFigure one;
  one.kind = {"cutting.trench-slope",
              "m",
              "set-back of a sloped excavation's top edge, each side, and its width at the top",
              {{"depth", "depth of the excavation", "6ft"},
               {"soil", "rock, A, B or C, as a competent person classes it", "C"},
               {"floor", "width of its floor", "3ft"}}};
  one.may_miss = {"floor"};
  one.compute = [&tables](const HandValues& values) -> Result<Figures> {
    const auto soil = slope_soil_from(values.word("soil"));
    if (!soil)
      return Error{Code::wrong_use, "cutting.trench-slope",
                   "soil=" + values.word("soil") + " is not understood", "write rock, A, B or C"};
    const Length depth = Length::metres(values.in("depth", "m"));
    ROOTSTEAD_TRY(Figure set_back, slope_set_back(depth, *soil, tables));
    Figures figures = {std::move(set_back)};
    if (values.has("floor")) {
      const Length floor = Length::metres(values.in("floor", "m"));
      ROOTSTEAD_TRY(Figure top, slope_top_width(depth, *soil, floor, tables));
      figures.push_back(std::move(top));
    }
    return figures;
  };
  return one;
}

}  // namespace

std::vector<HandFigure> cutting_figures(const Tables& tables) {
  return {auger_distance(), bore_depth(tables),      force_lost(tables),  least_distance(tables),
          of_palm(tables),  precaution_zone(tables), trench_slope(tables)};
}

}  // namespace rootstead
