// Figures that belong to no one rule: stem conventions, straight cuts, equal-area circles, slopes.
#pragma once

#include <functional>

#include "engine/rules/figure_arguments.hpp"

namespace rootstead {

struct PlainFigure {
  FigureKind kind;
  std::function<Result<Figure>(const HandInput&)> compute;  // name and inputs are filled in later
};

const std::vector<PlainFigure>& plain_figures();

}  // namespace rootstead
