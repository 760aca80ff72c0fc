#include "engine/tables/traits.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "engine/base/random.hpp"
#include "engine/base/text.hpp"
#include "engine/base/words.hpp"
#include "engine/site/diameter.hpp"
#include "engine/tables/distribution.hpp"

namespace rootstead {
namespace {

constexpr double kBreastHeight = 1.3;  // m: the height fits start here

struct GroupWords {
  TraitGroup group;
  std::string_view key, text;
};
constexpr GroupWords kGroups[] = {
    {TraitGroup::any, "any", "any tree"},
    {TraitGroup::deciduous_broadleaf, "deciduous_broadleaf", "deciduous broadleaf"},
    {TraitGroup::evergreen_broadleaf, "evergreen_broadleaf", "evergreen broadleaf"},
    {TraitGroup::conifer, "conifer", "conifer"},
    {TraitGroup::deciduous_conifer, "deciduous_conifer", "deciduous conifer"},
};

const GroupWords& words_of(TraitGroup group) {
  for (const GroupWords& words : kGroups)
    if (words.group == group) return words;
  return kGroups[0];
}

GrowthForm form_of(const Tree& tree, const Species* species) {
  if (tree.form != GrowthForm::unknown || !species) return tree.form;
  return species->form;
}

bool monocot(GrowthForm form) {
  return form == GrowthForm::palm || form == GrowthForm::other_monocot;
}

// The power law factor * D^power, D in cm, of one group.
struct PowerFit {
  const Parameter& factor;
  const Parameter& power;

  PowerFit(const Tables& tables, const std::string& id)
      : factor(tables.parameter(id + ".factor")), power(tables.parameter(id + ".power")) {}
  double at(Length diameter) const {
    return factor.best * std::pow(diameter.centimetres(), power.best);
  }
};

FigureInput diameter_input(Length diameter) {
  return {"D", "stem diameter, all stems together",
          fixed_number(diameter.millimetres(), 0) + " mm"};
}

// The diameter to fill from, or why nothing can be filled.
Result<Length> diameter_for_filling(const Tree& tree, const Tables& tables,
                                    const std::string& what) {
  if (is_monocot(tree, tables))
    return Error{
        Code::missing_measurement, "tree " + tree.label(),
        "it is a palm or other monocot, whose " + what + " is never worked out from a stem",
        "measure it"};
  return combined_diameter(tree, {});
}

Filled<Length> measured(std::string name, Length value) {
  Filled<Length> known{value, false, {}, {}};
  known.figure.name = std::move(name);
  known.figure.value = value.metres();
  known.figure.unit = "m";
  known.figure.formula = "as measured";
  known.figure.from = {"survey", "", Status::published};
  return known;
}

// ---- crown --------------------------------------------------------------------------------------

// One way to guess a width, with its trail.
struct Width {
  double metres = 0;
  std::string formula;
  std::vector<FigureInput> inputs;
  Citation from;
};

// Beyond its vertex a falling parabola is held level: no tree narrows by growing.
double stand_width_ft(const CrownWidth& row, double inches) {
  const double d =
      row.ft_per_in2 < 0 ? std::min(inches, -row.ft_per_in / (2 * row.ft_per_in2)) : inches;
  return std::max(0.0, row.constant_ft + row.ft_per_in * d + row.ft_per_in2 * d * d);
}

Width width_in_a_stand(const CrownWidth& row, Length diameter) {
  Width width;
  width.metres =
      stand_width_ft(row, in_unit(diameter, LengthUnit::inch)) * metres_per(LengthUnit::foot);
  width.formula = "W = " + shortest_number(row.constant_ft) + " + " +
                  shortest_number(row.ft_per_in) + " D + " + shortest_number(row.ft_per_in2) +
                  " D^2, feet and inches, level beyond its highest point; radius W / 2";
  width.inputs = {{"row", "crown widths of stand-grown trees", row.botanical_name}};
  width.from = row.from;
  return width;
}

Width width_of_group(TraitGroup group, Length diameter, const PowerFit& fit) {
  Width width;
  width.metres = fit.at(diameter);
  width.formula = "W = a D^b, D in cm; radius W / 2";
  width.inputs = {input_from(fit.factor, "a"), input_from(fit.power, "b")};
  width.from = fit.factor.from;
  if (group == TraitGroup::any) width.from.status = Status::assumption;
  return width;
}

Width width_in_the_open(const Parameter& ratio, Length diameter) {
  Width width;
  width.metres = ratio.best * diameter.metres();
  width.formula = "W = " + shortest_number(ratio.best) + " D; radius W / 2";
  width.inputs = {input_from(ratio, "c")};
  width.from = ratio.from;
  return width;
}

// The crown fits have no deciduous conifers, and need some group.
std::string crown_fit_id(TraitGroup group) {
  if (group == TraitGroup::any) group = TraitGroup::deciduous_broadleaf;
  if (group == TraitGroup::deciduous_conifer) group = TraitGroup::conifer;
  return "traits.crown_width." + std::string(key_of(group));
}

std::string height_fit_id(TraitGroup group) {
  if (group == TraitGroup::any) group = TraitGroup::deciduous_broadleaf;
  return "traits.height." + std::string(key_of(group));
}

Note filled_note(NoteCode code, const Tree& tree, const std::string& what, const Figure& figure) {
  return {code, tree.label(),
          what + " is not recorded: " + fixed_number(figure.value, 1) + " m (" +
              fixed_number(figure.range->low, 1) + " to " + fixed_number(figure.range->high, 1) +
              " m) is filled from the stem diameter"};
}

}  // namespace

std::string_view to_text(TraitGroup group) {
  return words_of(group).text;
}

std::string_view key_of(TraitGroup group) {
  return words_of(group).key;
}

bool is_monocot(const Tree& tree, const Tables& tables) {
  const Species* species = tables.species_of(tree.botanical_name);
  return tree.is_monocot() || (species && monocot(species->form));
}

TraitGroup trait_group_of(const Tree& tree, const Tables& tables) {
  const GrowthForm form = form_of(tree, tables.species_of(tree.botanical_name));
  assert(!monocot(form));
  const Leaves* leaves = tables.leaves_of(tree.botanical_name);
  const LeafHabit habit = leaves ? leaves->habit : LeafHabit::unknown;
  if (form == GrowthForm::conifer)
    return habit == LeafHabit::deciduous ? TraitGroup::deciduous_conifer : TraitGroup::conifer;
  if (form != GrowthForm::broadleaf || habit == LeafHabit::unknown) return TraitGroup::any;
  return habit == LeafHabit::deciduous ? TraitGroup::deciduous_broadleaf
                                       : TraitGroup::evergreen_broadleaf;
}

Range lognormal_range(double median, double sigma) {
  const double factor = std::exp(kNormalP90 * sigma);
  return {median / factor, median, median * factor};
}

Result<Filled<Length>> crown_radius_of(const Tree& tree, const Tables& tables) {
  if (tree.crown && tree.crown->mean_radius() > Length{})
    return measured("crown.radius", tree.crown->mean_radius());
  ROOTSTEAD_TRY(const Length diameter, diameter_for_filling(tree, tables, "crown"));

  const TraitGroup group = trait_group_of(tree, tables);
  const PowerFit fit(tables, crown_fit_id(group));
  const CrownWidth* row = tables.crown_width_of(tree.botanical_name);
  Width width = row ? width_in_a_stand(*row, diameter) : width_of_group(group, diameter, fit);
  Width open = width_in_the_open(tables.parameter("traits.crown_width.urban"), diameter);
  if (open.metres > width.metres) width = std::move(open);

  Filled<Length> crown{Length::metres(width.metres / 2), true, {}, {}};
  crown.figure = {
      "crown.radius",
      width.metres / 2,
      "m",
      lognormal_range(width.metres / 2, tables.parameter("traits.crown_width.scatter").best),
      {diameter_input(diameter)},
      width.formula,
      width.from};
  crown.figure.inputs.insert(crown.figure.inputs.end(), width.inputs.begin(), width.inputs.end());
  crown.note = filled_note(NoteCode::crown_filled, tree, "the crown radius", crown.figure);
  return crown;
}

Result<Filled<Length>> height_of(const Tree& tree, const Tables& tables) {
  if (tree.height && tree.height->length() > Length{})
    return measured("tree.height", tree.height->length());
  ROOTSTEAD_TRY(const Length diameter, diameter_for_filling(tree, tables, "height"));

  const TraitGroup group = trait_group_of(tree, tables);
  const PowerFit fit(tables, height_fit_id(group));
  const Parameter& urban = tables.parameter("traits.height.urban");
  const Range above =
      lognormal_range(urban.best * fit.at(diameter), distribution_of(tables, urban.id).sigma());
  Filled<Length> height{Length::metres(kBreastHeight + above.best), true, {}, {}};
  Figure& figure = height.figure;
  figure.name = "tree.height";
  figure.value = height.value.metres();
  figure.unit = "m";
  figure.range =
      Range{kBreastHeight + above.low, kBreastHeight + above.best, kBreastHeight + above.high};
  figure.inputs = {diameter_input(diameter), input_from(urban, "f"), input_from(fit.factor, "a"),
                   input_from(fit.power, "b")};
  figure.formula = "H = 1.3 m + f a D^b, D in cm";
  figure.from = urban.from;
  if (group == TraitGroup::any) figure.from.status = Status::assumption;
  height.note = filled_note(NoteCode::height_filled, tree, "the height", figure);
  return height;
}

}  // namespace rootstead
