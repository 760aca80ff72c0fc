#include "engine/rules/tree_size.hpp"

#include <cmath>
#include <numbers>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr Length kSameHeight = Length::millimetres(20);  // 4.5 ft and 1.37 m are the same height
constexpr int kComputedDecimals = 4;

std::vector<FigureInput> stem_inputs(const Tree& tree) {
  std::vector<FigureInput> inputs;
  for (std::size_t i = 0; i < tree.stems.size(); ++i) {
    const bool girth = tree.stems[i].read == Stem::Read::girth;
    const std::string number = tree.stems.size() == 1 ? "" : std::to_string(i + 1);
    inputs.push_back({(girth ? "u" : "d") + number, girth ? "stem girth" : "stem diameter",
                      to_text(tree.stems[i].size)});
  }
  return inputs;
}

void note_measuring_height(const Tree& tree, const ZoneRule& rule, std::vector<Note>& notes) {
  for (const Stem& stem : tree.stems) {
    if (!stem.measured_at || rule.measured_at.value <= 0) continue;
    const Length apart = stem.measured_at->length() - rule.measured_at.length();
    if (std::abs(apart.metres()) <= kSameHeight.metres()) continue;
    notes.push_back({NoteCode::measuring_height_differs, tree.label(),
                     "the stem was measured at " + to_text(*stem.measured_at) + ", the rule " +
                         rule.id + " measures at " + to_text(rule.measured_at)});
    return;
  }
}

}  // namespace

std::optional<Length> TreeSize::girth() const {
  if (!diameter) return std::nullopt;
  return *diameter * std::numbers::pi;
}

// The slack keeps 29.5 cm, which is 29.499999999999996 hundredths of a metre, a half.
Length rounded_to(Length length, const EnteredLength& step) {
  constexpr double kHalfUp = 0.5 + 1e-9;
  return step.length() * std::floor(length / step.length() + kHalfUp);
}

TreeSize size_of(const Tree& tree, Tolerance tolerance, const ZoneRule& rule) {
  TreeSize size;
  size.tree = &tree;
  size.tolerance = tolerance;
  size.stems = stem_inputs(tree);
  const auto diameter = combined_diameter(tree, rule.diameter);
  if (!diameter) {
    size.why_no_diameter = diameter.error().message;
    return size;
  }
  size.diameter = *diameter;
  if (rule.round_diameter_to) size.diameter = rounded_to(*diameter, *rule.round_diameter_to);
  if (tree.stems.size() > 1) {
    const StemConvention convention = convention_for(rule.diameter, tree.stems.size());
    size.diameter_formula = "D = " + std::string(formula_of(convention));
    const bool many = rule.diameter.many_above > 0 &&
                      tree.stems.size() > static_cast<std::size_t>(rule.diameter.many_above);
    size.convention_status = many ? rule.many_stems_status : rule.stems_status;
  } else if (tree.stems.front().read == Stem::Read::girth) {
    size.diameter_formula = "D = u / pi";
  }
  note_measuring_height(tree, rule, size.notes);
  return size;
}

std::string computed_text(Length length) {
  return fixed_number(length.metres(), kComputedDecimals) + " m";
}

}  // namespace rootstead
