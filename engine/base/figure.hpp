// Figure: a computed number with its birth certificate. Every figure a person sees can be asked
// "why?"; this is the answer. Figures are made for results, never inside inner loops.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/base/range.hpp"
#include "engine/base/source.hpp"

namespace rootstead {

// One thing a figure was computed from: "D", "stem diameter", "500 mm".
struct FigureInput {
  std::string symbol;
  std::string meaning;
  std::string value;  // with its unit, as entered where it was entered
};

struct Figure {
  std::string name;  // "bs5837-2012.root-protection-area.radius"
  double value = 0;
  std::string unit;  // "m", "m2", "" for a share
  std::optional<Range> range;
  std::vector<FigureInput> inputs;
  std::string formula;  // "r = 12 D, at most 15 m"
  Citation from;
  std::string word =
      {};  // what the answer is called where it is no number: "sandy loam"; else empty
};

// A figure that is a range; its value is the best of it.
inline Figure ranged_figure(std::string name, const Range& range, std::string unit,
                            std::string formula, Citation from,
                            std::vector<FigureInput> inputs = {}) {
  Figure figure;
  figure.name = std::move(name);
  figure.value = range.best;
  figure.unit = std::move(unit);
  figure.range = range;
  figure.inputs = std::move(inputs);
  figure.formula = std::move(formula);
  figure.from = std::move(from);
  return figure;
}

}  // namespace rootstead
