// Everything an assessment says as one text, numbers to the last bit: two assessments are the same
// where their texts are.
#pragma once

#include <string>

#include "engine/assess/assess.hpp"
#include "engine/base/text.hpp"

namespace rootstead::test {

inline std::string bits(double value) {
  return shortest_number(value) + " ";
}
inline std::string bits(const Range& range) {
  return bits(range.low) + bits(range.best) + bits(range.high);
}

inline std::string bits(const Figure& figure) {
  std::string text = figure.name + "=" + bits(figure.value) + figure.unit + figure.formula;
  if (figure.range) text += bits(*figure.range);
  for (const FigureInput& input : figure.inputs) text += input.symbol + input.meaning + input.value;
  return text + figure.from.source + figure.from.place + "\n";
}

inline std::string bits(const TreeAssessment& tree) {
  std::string text = tree.tree + "\n";
  for (const Figure& figure : figures_of(tree)) text += bits(figure);
  if (tree.roots) text += bits(tree.roots->all);
  if (tree.anchorage) {
    for (const double kept : tree.anchorage->by_direction) text += bits(kept);
  }
  text += std::string(to_text(tree.verdict.action)) + std::string(to_text(tree.verdict.vitality)) +
          std::string(to_text(tree.verdict.stability));
  for (const Reason& reason : tree.verdict.reasons) text += reason.text + "\n";
  for (const std::string& measure : tree.verdict.measures) text += measure + "\n";
  for (const Note& note : tree.notes) text += note.subject + note.text + "\n";
  return text;
}

inline std::string bits(const Assessment& assessment) {
  std::string text;
  for (const TreeAssessment& tree : assessment.trees) text += bits(tree);
  return text;
}

}  // namespace rootstead::test
