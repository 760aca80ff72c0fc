#include "engine/rules/term.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

Error no_stem(const TreeSize& size) {
  return {Code::missing_measurement, "tree " + size.tree->label(),
          size.why_no_diameter.empty() ? "the stem diameter is missing" : size.why_no_diameter,
          "measure the stem as the rule asks"};
}

Error missing(const TreeSize& size, const std::string& what, const std::string& remedy) {
  return {Code::missing_measurement, "tree " + size.tree->label(), "the " + what + " is missing",
          remedy};
}

std::string times(double factor, const std::string& symbol) {
  return factor == 1 ? symbol : shortest_number(factor) + " " + symbol;
}

std::string plus(const std::string& text, const EnteredLength& offset) {
  return offset.value == 0 ? text : text + " + " + to_text(offset);
}

Result<TermValue> of_stem(const ZoneTerm& term, const TreeSize& size,
                          const std::optional<Length>& stem) {
  if (!stem) return no_stem(size);
  TermValue value;
  if (term.kind == ZoneTerm::Kind::stem_multiple) {
    value.radius = *stem * term.factor;
    value.formula = times(term.factor, "D");
  } else if (term.kind == ZoneTerm::Kind::girth_multiple) {
    value.radius = *stem * std::numbers::pi * term.factor;
    value.formula = times(term.factor, "U");
    value.inputs.push_back({"U", "stem girth", computed_text(*stem * std::numbers::pi)});
  } else {
    const double power = std::pow(term.base * stem->metres(), term.exponent);
    value.radius = Length::metres(term.factor * power);
    value.formula =
        times(term.factor, "(" + times(term.base, "D") + ")^") + shortest_number(term.exponent);
  }
  return value;
}

Result<TermValue> of_crown(const ZoneTerm& term, const TreeSize& size) {
  if (!size.tree->crown) return missing(size, "crown spread", "measure the crown radii");
  constexpr std::array<const char*, 4> kNames{"N", "E", "S", "W"};
  TermValue value;
  GrownCrown crown;
  crown.growth = term.offset.length().metres();
  for (std::size_t side = 0; side < crown.radii.size(); ++side) {
    const EnteredLength& radius = size.tree->crown->radius[side];
    crown.radii[side] = radius.length().metres() * term.factor;
    value.inputs.push_back({std::string("crown ") + kNames[side], "crown radius", to_text(radius)});
  }
  if (term.kind == ZoneTerm::Kind::crown_circle) {
    crown.radii.fill(*std::max_element(crown.radii.begin(), crown.radii.end()));
  }
  value.crown = crown;
  const bool circle = term.kind == ZoneTerm::Kind::crown_circle;
  value.formula =
      plus(times(term.factor, circle ? "largest crown radius" : "crown outline"), term.offset);
  return value;
}

Result<TermValue> of_height(const ZoneTerm& term, const TreeSize& size) {
  if (!size.tree->height) return missing(size, "tree height", "measure the height");
  TermValue value;
  value.radius = size.tree->height->length() * term.factor;
  value.formula = times(term.factor, "H");
  value.inputs.push_back({"H", "tree height", to_text(*size.tree->height)});
  return value;
}

Result<TermValue> of_table(const ZoneTerm& term, const TreeSize& size,
                           const std::optional<Length>& stem) {
  if (!stem) return no_stem(size);
  Length diameter = *stem;
  if (term.round_class_to) diameter = rounded_to(diameter, *term.round_class_to);
  // Rounding in the last place must not push a stem of exactly 30 cm into the next class.
  constexpr double kSlack = 1 + 1e-12;
  TermValue value;
  for (const ZoneTerm::Row& row : term.rows) {
    if (diameter > row.up_to.length() * kSlack) continue;
    value.radius = row.radius.length();
    value.status = row.status;
    const bool between = diameter * kSlack < row.up_to.length();
    if (between && term.between_status) value.status = term.between_status;
    value.formula = "table: D up to " + to_text(row.up_to) + " gives " + to_text(row.radius);
    return value;
  }
  value.radius = term.rows.back().radius.length();
  value.status = term.beyond_status;
  value.formula = "table: the last row, " + to_text(term.rows.back().radius);
  if (term.beyond_factor > 0) {
    value.radius = *stem * term.beyond_factor;
    value.formula = "beyond the table: " + times(term.beyond_factor, "D");
  }
  return value;
}

std::size_t tolerance_row(Tolerance tolerance) {
  switch (tolerance) {
    case Tolerance::good:
      return 0;
    case Tolerance::moderate:
      return 1;
    case Tolerance::poor:
    case Tolerance::unknown:
      return 2;
  }
  return 2;
}

std::size_t stage_column(LifeStage stage) {
  switch (stage) {
    case LifeStage::young:
      return 0;
    case LifeStage::semi_mature:
    case LifeStage::mature:
      return 1;
    case LifeStage::over_mature:
    case LifeStage::veteran:
    case LifeStage::unknown:
      return 2;
  }
  return 2;
}

// What is not known is taken as the case that asks for the larger zone, and said.
void note_unknowns(const TreeSize& size, TermValue& value) {
  const std::string label = size.tree->label();
  if (size.tolerance == Tolerance::unknown) {
    value.notes.push_back({NoteCode::tolerance_assumed, label,
                           "the tolerance of the species is not known: taken as poor"});
    value.status = Status::assumption;
  }
  if (size.tree->stage == LifeStage::unknown) {
    value.notes.push_back(
        {NoteCode::tolerance_assumed, label, "the life stage is not known: taken as over-mature"});
    value.status = Status::assumption;
  }
}

Result<TermValue> of_vigour(const ZoneTerm& term, const TreeSize& size,
                            const std::optional<Length>& stem) {
  if (!stem) return no_stem(size);
  constexpr std::array<const char*, 3> kRows{"good", "moderate", "poor"};
  constexpr std::array<const char*, 3> kColumns{"young", "mature", "over-mature"};
  const std::size_t row = tolerance_row(size.tolerance), column = stage_column(size.tree->stage);
  const double factor = term.matrix[row][column];
  TermValue value;
  value.radius = *stem * factor;
  value.formula = times(factor, "D");
  const auto as_known = [](bool known, const char* word) {
    return std::string(word) + (known ? "" : " (not known: taken as such)");
  };
  value.inputs.push_back({"tolerance", "tolerance of the species",
                          as_known(size.tolerance != Tolerance::unknown, kRows[row])});
  value.inputs.push_back(
      {"stage", "life stage", as_known(size.tree->stage != LifeStage::unknown, kColumns[column])});
  note_unknowns(size, value);
  return value;
}

}  // namespace

Result<TermValue> term_value(const ZoneTerm& term, const TreeSize& size,
                             const std::optional<Length>& stem) {
  switch (term.kind) {
    case ZoneTerm::Kind::stem_multiple:
    case ZoneTerm::Kind::girth_multiple:
    case ZoneTerm::Kind::power:
      return of_stem(term, size, stem);
    case ZoneTerm::Kind::crown_outline:
    case ZoneTerm::Kind::crown_circle:
      return of_crown(term, size);
    case ZoneTerm::Kind::height_multiple:
      return of_height(term, size);
    case ZoneTerm::Kind::fixed: {
      TermValue value;
      value.radius = term.offset.length();
      value.formula = to_text(term.offset);
      return value;
    }
    case ZoneTerm::Kind::class_table:
      return of_table(term, size, stem);
    case ZoneTerm::Kind::vigour_table:
      return of_vigour(term, size, stem);
  }
  return TermValue{};
}

}  // namespace rootstead
