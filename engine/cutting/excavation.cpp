#include "engine/cutting/excavation.hpp"

#include "engine/base/amount_text.hpp"
#include "engine/base/words.hpp"

namespace rootstead {
namespace {

constexpr auto kSoils = std::to_array<Word<SlopeSoil>>({
    {SlopeSoil::rock, "stable rock"},
    {SlopeSoil::a, "type A"},
    {SlopeSoil::b, "type B"},
    {SlopeSoil::c, "type C"},
});
constexpr auto kShort = std::to_array<Word<SlopeSoil>>({
    {SlopeSoil::rock, "rock"},
    {SlopeSoil::a, "a"},
    {SlopeSoil::b, "b"},
    {SlopeSoil::c, "c"},
});

const Parameter& slope_row(SlopeSoil soil, const Tables& tables) {
  return tables.parameter("cutting.osha.slope_" + std::string(word_for(kShort, soil)));
}

Length length_of(const Tables& tables, std::string_view id) {
  const Parameter& row = tables.parameter(id);
  return Length::metres(row.best * metres_per(length_unit_from(row.unit).value()));
}

std::string metres_text(Length length) {
  return fixed_number(length.metres(), 3) + " m";
}

std::optional<Error> outside(Length depth, const Tables& tables) {
  if (depth <= Length())
    return Error{Code::value_invalid, "excavation", "the depth is not above zero",
                 "give the depth of the excavation"};
  if (depth > length_of(tables, "cutting.osha.engineer_from"))
    return Error{Code::outside_rule_domain, "excavation", "it is deeper than 20 ft",
                 "have an engineer design how its sides are held"};
  return std::nullopt;
}

class Writer {
 public:
  Writer(ExcavationSafety& safety, std::string work, UnitSystem units, const Tables& tables)
      : safety_(safety), work_(std::move(work)), text_{units}, tables_(tables) {}

  void write() {
    always();
    if (safety_.ladder) ladder();
    if (safety_.protect) protect();
    if (safety_.engineer) engineer();
    if (safety_.past_british_depth) british();
  }

 private:
  void say(std::string text, std::string reason, const Citation& from) {
    Prescription one;
    one.topic = "excavation safety";
    one.work = work_;
    one.text = std::move(text);
    one.reason = std::move(reason);
    one.from = from;
    safety_.prescriptions.push_back(std::move(one));
  }
  const Citation& from(std::string_view id) const { return tables_.parameter(id).from; }
  std::string length(std::string_view id) const { return text_.length(length_of(tables_, id)); }

  void always() {
    say("Have a competent person look at the excavation every day before anyone enters it, and "
        "keep "
        "spoil and plant " +
            length("cutting.osha.spoil_back") + " or more from its edge.",
        "The weight of spoil at the edge brings the side down; on the tree's side it also presses "
        "roots.",
        from("cutting.osha.spoil_back"));
  }
  void ladder() {
    say("Put a ladder or ramp within " + length("cutting.osha.ladder_travel") +
            " of everyone in the excavation.",
        "It is " + length("cutting.osha.ladder_from") + " deep or more.",
        from("cutting.osha.ladder_from"));
  }
  void protect() {
    say("Hold the sides with a box or shores before anyone enters; on the tree's side do not slope "
        "or bench them instead.",
        "At " + length("cutting.osha.protect_from") +
            " and deeper a protective system is asked for, and from less where the ground may cave "
            "in; a slope would take more of the roots.",
        from("cutting.osha.protect_from"));
    safety_.prescriptions.back().figures = safety_.set_backs;
  }
  void engineer() {
    say("Have an engineer design how the sides are held.",
        "Beyond " + length("cutting.osha.engineer_from") + " no table holds.",
        from("cutting.osha.engineer_from"));
  }
  void british() {
    say("In Britain, have the sides assessed whatever the depth; many guides ask for support "
        "from " +
            length("cutting.uk.depth") + " on.",
        "Sources disagree: some call that depth law, others a rule of thumb.",
        from("cutting.uk.depth"));
  }

  ExcavationSafety& safety_;
  std::string work_;
  AmountText text_;
  const Tables& tables_;
};

}  // namespace

SlopeRatio slope_ratio(SlopeSoil soil, const Tables& tables) {
  const Parameter& row = slope_row(soil, tables);
  return {soil, row.best, row.from};
}

Result<Figure> slope_set_back(Length depth, SlopeSoil soil, const Tables& tables) {
  if (auto error = outside(depth, tables)) return *error;
  const Parameter& row = slope_row(soil, tables);
  Figure figure;
  figure.name = "cutting.trench-slope.set-back";
  figure.value = row.best * depth.metres();
  figure.unit = "m";
  figure.inputs = {{"h", "depth", metres_text(depth)},
                   {"soil", "soil as a competent person classes it", std::string(to_text(soil))},
                   input_from(row, "n")};
  figure.formula = "n h, each side";
  figure.from = row.from;
  return figure;
}

Result<Figure> slope_top_width(Length depth, SlopeSoil soil, Length floor, const Tables& tables) {
  if (floor < Length())
    return Error{Code::value_invalid, "excavation", "the floor's width is negative",
                 "give the width of the floor"};
  ROOTSTEAD_TRY(Figure figure, slope_set_back(depth, soil, tables));
  figure.name = "cutting.trench-slope.top-width";
  figure.value = floor.metres() + 2 * figure.value;
  figure.inputs.push_back({"w", "width of the floor", metres_text(floor)});
  figure.formula = "w + 2 n h";
  return figure;
}

ExcavationSafety excavation_safety(Length depth, const std::string& work, UnitSystem units,
                                   const Tables& tables) {
  ExcavationSafety safety;
  safety.depth = depth;
  if (depth <= Length()) return safety;
  const auto reaches = [&](std::string_view id) { return depth >= length_of(tables, id); };
  safety.protect = reaches("cutting.osha.protect_from");
  safety.ladder = reaches("cutting.osha.ladder_from");
  safety.engineer = depth > length_of(tables, "cutting.osha.engineer_from");
  safety.past_british_depth = reaches("cutting.uk.depth");
  for (const SlopeSoil soil : {SlopeSoil::a, SlopeSoil::b, SlopeSoil::c}) {
    auto figure = slope_set_back(depth, soil, tables);
    if (figure) safety.set_backs.push_back(std::move(*figure));
  }
  safety.figures = safety.set_backs;
  Writer(safety, work, units, tables).write();
  return safety;
}

std::string_view to_text(SlopeSoil soil) {
  return word_for(kSoils, soil);
}

std::optional<SlopeSoil> slope_soil_from(std::string_view text) {
  const auto whole = value_for(kSoils, text);
  return whole ? whole : value_for(kShort, text);
}

}  // namespace rootstead
