// What the figures of soil by hand share. Private to engine/soil.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/base/hand_figure.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead::soil_by_hand {

using Answer = Result<std::vector<Figure>>;
using Inputs = std::vector<FigureInput>;

inline Figure one(double value, std::string unit, std::string formula, Citation from) {
  Figure figure;
  figure.value = value;
  figure.unit = std::move(unit);
  figure.formula = std::move(formula);
  figure.from = std::move(from);
  return figure;
}

inline Figure named(std::string name, Figure figure) {
  figure.name = std::move(name);
  return figure;
}

inline Error not_in(const std::string& name, const std::string& what, const std::string& remedy) {
  return Error{Code::value_invalid, name, what, remedy};
}

// The first of these that is not above zero is refused.
inline std::optional<Error> below_zero(
    const std::string& name, const HandValues& given,
    const std::vector<std::pair<std::string, std::string>>& keys) {
  for (const auto& [key, unit] : keys)
    if (given.has(key) && !(given.in(key, unit) > 0))
      return not_in(name, key + " is not above zero", "give a number above zero");
  return std::nullopt;
}

inline Length metres_in(const HandValues& given, const std::string& key) {
  return Length::metres(given.in(key, "m", 0));
}

std::vector<HandFigure> texture_figures(const Tables& tables);
std::vector<HandFigure> stress_figures();
std::vector<HandFigure> strength_figures(const Tables& tables);
std::vector<HandFigure> air_figures(const Tables& tables);

}  // namespace rootstead::soil_by_hand
