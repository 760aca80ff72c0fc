#include "engine/base/hand_figure.hpp"

#include <algorithm>
#include <array>
#include <cassert>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

struct Unit {
  std::string_view name;
  std::string_view dimension;
  double si = 1;      // of one of it
  double offset = 0;  // value in si = (value + offset) * si
};

constexpr double kInch = 0.0254, kFoot = 0.3048, kPound = 0.45359237, kGallon = 3.785411784e-3;
constexpr double kGravity = 9.80665, kDay = 86400;

// Factors: exact by definition (international pound and foot 1959, US gallon of 231 cubic inches).
constexpr std::array kUnits = {
    Unit{"", "number"},
    Unit{"%", "number", 0.01},
    Unit{"m", "length"},
    Unit{"cm", "length", 0.01},
    Unit{"mm", "length", 0.001},
    Unit{"in", "length", kInch},
    Unit{"ft", "length", kFoot},
    Unit{"m2", "area"},
    Unit{"ft2", "area", kFoot* kFoot},
    Unit{"m3", "volume"},
    Unit{"L", "volume", 0.001},
    Unit{"l", "volume", 0.001},
    Unit{"gal", "volume", kGallon},
    Unit{"ft3", "volume", kFoot* kFoot* kFoot},
    Unit{"kg", "mass"},
    Unit{"t", "mass", 1000},
    Unit{"lb", "mass", kPound},
    Unit{"N", "force"},
    Unit{"kN", "force", 1000},
    Unit{"lbf", "force", kPound* kGravity},
    Unit{"Pa", "pressure"},
    Unit{"hPa", "pressure", 100},
    Unit{"kPa", "pressure", 1000},
    Unit{"MPa", "pressure", 1e6},
    Unit{"psi", "pressure", kPound* kGravity / (kInch * kInch)},
    Unit{"kg/m3", "density"},
    Unit{"g/cm3", "density", 1000},
    Unit{"t/m3", "density", 1000},
    Unit{"lb/ft3", "density", kPound / (kFoot * kFoot * kFoot)},
    Unit{"m/s", "speed"},
    Unit{"km/h", "speed", 1 / 3.6},
    Unit{"mph", "speed", 0.44704},
    Unit{"mm/day", "water depth in time", 0.001 / kDay},
    Unit{"in/day", "water depth in time", kInch / kDay},
    Unit{"mm/m", "water in soil", 0.001},
    Unit{"in/ft", "water in soil", 1.0 / 12},
    Unit{"degC", "temperature"},
    Unit{"degF", "temperature", 5.0 / 9, -32},
    Unit{"MJ/m2/day", "radiation", 1e6 / kDay},
    Unit{"W/m2", "radiation"},
    Unit{"g/m2/day", "oxygen demand", 1e-3 / kDay},
    Unit{"g/m3/day", "oxygen demand of a volume", 1e-3 / kDay},
    Unit{"deg", "angle"},
    Unit{"h", "time", 3600},
    Unit{"day", "time", kDay},
    Unit{"days", "time", kDay},
};

const Unit* unit_of(std::string_view name) {
  const auto found = std::find_if(kUnits.begin(), kUnits.end(),
                                  [&](const Unit& unit) { return unit.name == name; });
  return found == kUnits.end() ? nullptr : &*found;
}

double si_of(double value, const Unit& unit) {
  return (value + unit.offset) * unit.si;
}

const FigureInput* input_of(const FigureKind& kind, const std::string& key) {
  const auto found = std::find_if(kind.inputs.begin(), kind.inputs.end(),
                                  [&](const FigureInput& input) { return input.symbol == key; });
  return found == kind.inputs.end() ? nullptr : &*found;
}

std::string example_of(const FigureInput& input) {
  return "write e.g. " + input.symbol + "=" + input.value;
}

std::vector<std::string> keys_of(const FigureKind& kind) {
  std::vector<std::string> keys;
  for (const FigureInput& input : kind.inputs) keys.push_back(input.symbol);
  return keys;
}

// Requires: the example is a measure.
Result<double> read_measure(const FigureKind& kind, const FigureInput& input,
                            const std::string& text) {
  const std::string said = input.symbol + "=" + text;
  const auto wanted = measure_from(input.value);
  const auto measure = measure_from(text);
  if (measure && measure->dimension == wanted->dimension) return measure->si;
  if (measure && measure->dimension == "number")
    return Error{Code::unit_missing, kind.name, said + " has no unit", example_of(input)};
  const bool other_unit = measure || leading_number(text);
  return Error{other_unit ? Code::unit_unknown : Code::wrong_use, kind.name,
               said + (other_unit ? " is in no unit of " + wanted->dimension + " that is known here"
                                  : " is not understood"),
               example_of(input)};
}

}  // namespace

std::optional<GivenValue> measure_from(std::string_view text) {
  const auto number = leading_number(text);
  if (!number) return std::nullopt;
  const Unit* unit = unit_of(trimmed(number->rest));
  if (unit == nullptr) return std::nullopt;
  return GivenValue{si_of(number->value, *unit), std::string(unit->dimension)};
}

double in_unit(double si, std::string_view unit) {
  const Unit* known = unit_of(unit);
  assert(known != nullptr);
  return si / known->si - known->offset;
}

double HandValues::in(const std::string& key, std::string_view unit) const {
  const auto found = values_.find(key);
  assert(found != values_.end());
  return in_unit(found->second, unit);
}

double HandValues::in(const std::string& key, std::string_view unit, double otherwise) const {
  return has(key) ? in(key, unit) : otherwise;
}

const std::string& HandValues::word(const std::string& key) const {
  const auto found = words_.find(key);
  assert(found != words_.end());
  return found->second;
}

std::string HandValues::word(const std::string& key, const std::string& otherwise) const {
  return has(key) ? word(key) : otherwise;
}

Result<HandValues> read_values(const FigureKind& kind, const std::vector<std::string>& may_miss,
                               const FigureArguments& arguments) {
  HandValues values;
  for (const auto& [key, text] : arguments) {
    const FigureInput* input = input_of(kind, key);
    if (input == nullptr)
      return Error{Code::wrong_use, kind.name, "it has no input \"" + key + "\"",
                   "its inputs are " + joined(keys_of(kind), ", ")};
    if (values.has(key))
      return Error{Code::wrong_use, kind.name, key + " is given twice", "give it once"};
    if (measure_from(input->value)) {
      ROOTSTEAD_TRY(values.values_[key], read_measure(kind, *input, text));
    } else {
      values.words_[key] = text;
    }
    values.given_.push_back({key, input->meaning, text});
  }
  for (const FigureInput& input : kind.inputs) {
    const bool needed = std::find(may_miss.begin(), may_miss.end(), input.symbol) == may_miss.end();
    if (needed && !values.has(input.symbol))
      return Error{Code::wrong_use, kind.name, input.symbol + " is missing (" + input.meaning + ")",
                   example_of(input)};
  }
  return values;
}

Result<std::vector<Figure>> answer(const HandFigure& asked, const FigureArguments& arguments) {
  ROOTSTEAD_TRY(const HandValues values, read_values(asked.kind, asked.may_miss, arguments));
  ROOTSTEAD_TRY(std::vector<Figure> figures, asked.compute(values));
  for (Figure& figure : figures) {
    if (figure.name.empty()) figure.name = asked.kind.name;
    if (figure.inputs.empty()) figure.inputs = values.given();
  }
  return figures;
}

}  // namespace rootstead
