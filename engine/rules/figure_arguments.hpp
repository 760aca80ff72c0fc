// What a person gives to a figure by hand, "stem=500mm crown=4m", read into a tree and lengths.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/rules/figures.hpp"

namespace rootstead {

// A tree as far as the arguments tell it, and what else they gave.
struct HandInput {
  Tree tree;
  Tolerance tolerance = Tolerance::unknown;
  std::optional<Length> radius, distance;
  std::optional<EnteredLength> radius_entered, distance_entered;
  std::optional<Area> area, surfaced;
  std::optional<Angle> slope;
  std::optional<double> share;
  std::vector<FigureInput> given;  // as written, for the trail
};

// Every key, with its meaning and an example.
const std::vector<FigureInput>& hand_keys();
// Those of hand_keys() named, in that order.
std::vector<FigureInput> hand_keys(const std::vector<std::string>& names);

// Fails with wrong_use (unknown key, of which `allowed` are the known ones; value not understood)
// or unit_missing.
Result<HandInput> read_arguments(std::string_view figure, const FigureArguments& arguments,
                                 const std::vector<FigureInput>& allowed);

}  // namespace rootstead
