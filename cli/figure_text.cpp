#include "cli/figure_text.hpp"

#include <cmath>

#include "cli/job.hpp"
#include "engine/base/text.hpp"

namespace rootstead::cli {
namespace {

constexpr double kFewHundredths = 0.1;  // below this, two decimals would hide the figure
constexpr int kUsualDecimals = 2, kFineDecimals = 4;

std::string number_text(double value, const std::string& unit) {
  if (unit.empty()) return shortest_number(std::round(value * 1e4) / 1e4);
  const bool fine = value != 0 && std::abs(value) < kFewHundredths;
  return fixed_number(value, fine ? kFineDecimals : kUsualDecimals);
}

}  // namespace

std::string value_text(const Figure& figure) {
  if (!figure.word.empty()) return figure.word;
  const std::string unit = figure.unit.empty() ? "" : " " + figure.unit;
  std::string text = number_text(figure.value, figure.unit) + unit;
  if (figure.range) {
    text += "  (" + number_text(figure.range->low, figure.unit) + " to " +
            number_text(figure.range->high, figure.unit) + unit + ")";
  }
  return text;
}

std::string trail_text(const Figure& figure, const Tables& tables, const std::string& about) {
  std::string text = figure.name + " = " + value_text(figure) + '\n';
  if (!about.empty()) text += "  of      " + about + '\n';
  if (!figure.formula.empty()) text += "  by      " + figure.formula + '\n';
  std::vector<TableRow> inputs;
  for (const FigureInput& input : figure.inputs) {
    const std::string meaning = input.meaning.empty() ? "" : "  (" + input.meaning + ")";
    inputs.push_back(
        {inputs.empty() ? "  from  " : "", input.symbol, "= " + input.value + meaning});
  }
  text += text_table(inputs);
  return text + "  source  " + source_text(figure.from, tables) + " [" +
         std::string(to_text(figure.from.status)) + "]\n";
}

}  // namespace rootstead::cli
