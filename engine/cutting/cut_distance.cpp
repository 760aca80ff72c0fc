#include "engine/cutting/cut_distance.hpp"

#include <algorithm>

#include "engine/base/text.hpp"
#include "engine/roots/root_model.hpp"
#include "engine/site/diameter.hpp"

namespace rootstead {
namespace {

std::string row_word(PalmRegrowth::Kind kind) {
  switch (kind) {
    case PalmRegrowth::Kind::base_only:
      return "base_only";
    case PalmRegrowth::Kind::any_length:
      return "any_length";
    case PalmRegrowth::Kind::longer_more:
      return "longer_more";
    case PalmRegrowth::Kind::unknown:
      break;
  }
  return "unknown";
}

// Requires: a row in a unit of length.
Length length_of(const Parameter& row) {
  return Length::metres(row.best * metres_per(length_unit_from(row.unit).value()));
}

Figure diameters_figure(const std::string& name, Length diameter, const Parameter& row) {
  Figure figure;
  figure.name = "cutting." + name;
  figure.value = (row.best * diameter).metres();
  figure.unit = "m";
  figure.inputs = {{"D", "stem diameter", fixed_number(diameter.millimetres(), 0) + " mm"},
                   input_from(row, "n")};
  figure.formula = "n D, from the trunk face";
  figure.from = row.from;
  return figure;
}

void fill_palm(CutDistance& distance, const Tree& tree, const Species* species,
               const Tables& tables) {
  distance.regrowth = palm_regrowth(species, tables);
  Figure figure = palm_distance(*distance.regrowth, tables);
  distance.least = Length::metres(figure.value);
  distance.figures.push_back(std::move(figure));
  if (distance.regrowth->kind == PalmRegrowth::Kind::unknown)
    distance.notes.push_back({NoteCode::palm_kind_unknown, tree.label(),
                              "no trial of how this palm replaces cut roots was found: the largest "
                              "distance of all palms is taken"});
}

}  // namespace

Figure palm_distance(const PalmRegrowth& regrowth, const Tables& tables) {
  const Parameter& any = tables.parameter("cutting.palm.any");
  const Parameter& ball = tables.parameter("cutting.palm.radius." + row_word(regrowth.kind));
  Figure figure;
  figure.name = "cutting.palm-distance";
  figure.value = std::max(length_of(any), length_of(ball)).metres();
  figure.unit = "m";
  figure.inputs = {input_from(any, "a"), input_from(ball, "b")};
  figure.formula = "the larger of a and b, from the trunk; ball radii carried over to cuts by us";
  figure.from = {ball.from.source, ball.from.place, Status::assumption};
  return figure;
}

CutDistance cut_distance(const Tree& tree, const Tables& tables) {
  CutDistance distance;
  const Species* species = tables.species_of(tree.botanical_name);
  const auto diameter = combined_diameter(tree, {});
  if (diameter) distance.trunk_radius = *diameter / 2;
  distance.palm = roots_like_a_palm(tree, species);
  if (distance.palm) {
    fill_palm(distance, tree, species, tables);
    return distance;
  }
  if (!diameter) {
    distance.notes.push_back(
        {NoteCode::cut_nearness_unknown, tree.label(),
         "without a stem diameter nothing is said of how near a cut may come"});
    return distance;
  }
  const Parameter& least = tables.parameter("cutting.least_diameters");
  const Parameter& preferred = tables.parameter("cutting.preferred_diameters");
  distance.diameter = *diameter;
  distance.least = least.best * *diameter;
  distance.preferred = preferred.best * *diameter;
  distance.figures = {diameters_figure("least-distance", *diameter, least),
                      diameters_figure("preferred-distance", *diameter, preferred)};
  return distance;
}

}  // namespace rootstead
