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

std::vector<Figure> chosen_by(const std::vector<Figure>& figures, std::string_view name,
                              bool exactly) {
  std::vector<Figure> chosen;
  for (const Figure& figure : figures) {
    const bool is = figure.name == name;
    const bool holds = figure.name.find(name) != std::string::npos;
    if (exactly ? is : holds) chosen.push_back(figure);
  }
  return chosen;
}

}  // namespace

std::string value_text(const Figure& figure) {
  const std::string unit = figure.unit.empty() ? "" : " " + figure.unit;
  std::string text = number_text(figure.value, figure.unit) + unit;
  if (figure.range) {
    text += "  (" + number_text(figure.range->low, figure.unit) + " to " +
            number_text(figure.range->high, figure.unit) + unit + ")";
  }
  return text;
}

std::string trail_text(const Figure& figure, const Tables& tables) {
  std::string text = figure.name + " = " + value_text(figure) + '\n';
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

Result<std::vector<Figure>> figures_named(const std::vector<Figure>& figures, std::string_view name,
                                          const std::string& tree) {
  std::vector<Figure> chosen = chosen_by(figures, name, true);
  if (chosen.empty()) chosen = chosen_by(figures, name, false);
  if (!chosen.empty()) return chosen;
  std::vector<std::string> names;
  for (const Figure& figure : figures) names.push_back(figure.name);
  return Error{Code::unknown_name, "tree " + tree, "there is no figure named " + std::string(name),
               "choose from " + joined(names, ", ")};
}

}  // namespace rootstead::cli
