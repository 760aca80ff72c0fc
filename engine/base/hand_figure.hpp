// Figures by hand: `rootstead figure soil.boussinesq load=10kN depth=0.5m`. A room lists what it
// can compute; the arguments are read here, each with its unit.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/result.hpp"

namespace rootstead {

struct FigureKind {
  std::string name;
  std::string unit;
  std::string meaning;
  std::vector<FigureInput>
      inputs;  // symbol = key, value = example: {"stem", "stem diameter", "500mm"}
};

using FigureArguments = std::vector<std::pair<std::string, std::string>>;  // key, text

// A number with a unit, "10 kN", "1.46 g/cm3", "82 %", "65degF", "3": `si` in the unit that
// `dimension` is counted in (m, m2, m3, s, kg, N, Pa, kg/m3, m/s, degC, J/m2/day, ...).
struct GivenValue {
  double si = 0;
  std::string dimension;  // "length", "force", "pressure", "number" ...
};
std::optional<GivenValue> measure_from(std::string_view text);
// How many of `unit` make up `si`; requires: a unit that measure_from knows ("" for a bare number).
double in_unit(double si, std::string_view unit);

// What was given for one figure, read by the examples of its kind: an argument has the dimension of
// its example; where the example is a word, the argument is one too.
class HandValues {
 public:
  bool has(const std::string& key) const { return values_.contains(key) || words_.contains(key); }
  // Requires: the key is needed by the figure, or has() it; `unit` of the example's dimension.
  double in(const std::string& key, std::string_view unit) const;
  double in(const std::string& key, std::string_view unit, double otherwise) const;
  const std::string& word(const std::string& key) const;
  std::string word(const std::string& key, const std::string& otherwise) const;
  const std::vector<FigureInput>& given() const { return given_; }

 private:
  friend Result<HandValues> read_values(const FigureKind& kind,
                                        const std::vector<std::string>& may_miss,
                                        const FigureArguments& arguments);
  std::map<std::string, double> values_;
  std::map<std::string, std::string> words_;
  std::vector<FigureInput> given_;  // as written, for the trail
};

// Fails with wrong_use (a key unknown, missing, given twice or not understood), unit_missing or
// unit_unknown; the sentence gives the example.
Result<HandValues> read_values(const FigureKind& kind, const std::vector<std::string>& may_miss,
                               const FigureArguments& arguments);

// One figure, or several at once, that a room computes from such values. Name and inputs of the
// figures may be left out: they are filled in from the kind and the arguments.
struct HandFigure {
  FigureKind kind;
  std::vector<std::string> may_miss;  // keys
  std::function<Result<std::vector<Figure>>(const HandValues&)> compute;
};
Result<std::vector<Figure>> answer(const HandFigure& asked, const FigureArguments& arguments);

}  // namespace rootstead
