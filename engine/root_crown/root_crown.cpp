#include "engine/root_crown/root_crown.hpp"

#include <algorithm>

#include "engine/base/amount_text.hpp"
#include "engine/base/words.hpp"
#include "engine/root_crown/crown_words.hpp"
#include "engine/root_crown/flare_signs.hpp"
#include "engine/site/diameter.hpp"

namespace rootstead {
namespace {

constexpr auto kAnswers = std::to_array<Word<FlareAnswer>>({
    {FlareAnswer::flare_seen, "flare seen"},
    {FlareAnswer::burial_likely, "burial likely"},
    {FlareAnswer::dig_to_see, "dig a small hole to see"},
    {FlareAnswer::cannot_tell, "cannot tell"},
    {FlareAnswer::found, "found"},
    {FlareAnswer::refused, "not asked"},
});

Length length_of(const Parameter& row) {
  const auto unit = length_unit_from(row.unit).value_or(LengthUnit::metre);
  return EnteredLength{row.best, unit}.length();
}

Range range_of(const Parameter& row) {
  const double per = metres_per(length_unit_from(row.unit).value_or(LengthUnit::metre));
  return {row.low * per, row.best * per, row.high * per};
}

Figure length_figure(std::string name, const Range& metres, const Parameter& row,
                     std::string formula) {
  Figure figure;
  figure.name = std::move(name);
  figure.value = metres.best;
  figure.unit = "m";
  if (metres.low != metres.high) figure.range = metres;
  figure.inputs = {input_from(row, "a")};
  figure.formula = std::move(formula);
  figure.from = row.from;
  return figure;
}

bool is_monocot(const Tree& tree, const Tables& tables) {
  const Species* species = tables.species_of(tree.botanical_name);
  const bool by_name = species != nullptr && (species->form == GrowthForm::palm ||
                                              species->form == GrowthForm::other_monocot);
  return tree.is_monocot() || by_name;
}

std::optional<Length> found_depth(const Flare& flare) {
  if (!flare.found) return std::nullopt;
  if (flare.found->first_main_root) return flare.found->first_main_root->length();
  if (flare.found->flare_depth) return flare.found->flare_depth->length();
  return std::nullopt;
}

// Metres below the ground, where somebody measured or stated it.
std::optional<Range> depth_of_roots(const Flare& flare) {
  std::optional<Length> depth = found_depth(flare);
  if (!depth && flare.buried_by) depth = flare.buried_by->length();
  if (!depth) return std::nullopt;
  const double metres = std::max(0.0, depth->metres());
  return Range{metres, metres, metres};
}

// Works out one advice, part by part.
class Adviser {
 public:
  Adviser(const Tree& tree, const Site& site, const Tables& tables)
      : tree_(tree), units_(site.settings.units), tables_(tables) {
    advice_.tree = tree.id;
  }

  RootCrownAdvice advise() {
    if (is_monocot(tree_, tables_)) return refuse();
    screen();
    criterion();
    depth();
    compare();
    if (asks_to_dig()) excavation();
    advice_.prescriptions = prescriptions_of({tree_, units_, tables_, advice_, prone()});
    return std::move(advice_);
  }

 private:
  void note(NoteCode code, std::string text) {
    advice_.notes.push_back({code, tree_.label(), std::move(text)});
  }
  bool prone() const { return prone_to_girdling(tree_.botanical_name); }
  const Parameter& criterion_row() const {
    return tables_.parameter(prone() ? "root_crown.criterion.depth_prone"
                                     : "root_crown.criterion.depth");
  }
  Length criterion_depth() const { return Length::metres(range_of(criterion_row()).high); }

  RootCrownAdvice refuse() {
    advice_.answer = FlareAnswer::refused;
    advice_.refused =
        Error{Code::outside_rule_domain, "tree " + tree_.label(),
              "it is a palm or other monocot: a swollen base or a mat of roots above the ground is "
              "normal and no buried collar",
              "do not dig its base out, and do not bury it"};
    advice_.reasons = {advice_.refused->sentence()};
    return std::move(advice_);
  }

  void screen() {
    advice_.taper = fit_taper(tree_.flare.taper, tables_);
    const TaperFit* taper = advice_.taper ? &*advice_.taper : nullptr;
    if (taper) {
      advice_.figures.push_back(taper->figure);
      note(NoteCode::taper_is_assumed,
           "how a sound flare widens is our assumption: no published profile is known to us");
    }
    const SignsSay says = signs_say(tree_.flare, taper, units_);
    expected_ = advice_.answer = says.answer;
    advice_.reasons = says.reasons;
    if (says.disagree)
      note(NoteCode::flare_signs_disagree,
           "the record calls the flare seen, and a sign or the taper speaks of burial: look again");
    if (says.answer == FlareAnswer::cannot_tell)
      advice_.reasons = {
          "Nothing was written down of the base of this tree: no state, no sign and "
          "no two diameters near the ground."};
  }

  void criterion() {
    advice_.figures.push_back(length_figure("root-crown.criterion.depth", range_of(criterion_row()),
                                            criterion_row(),
                                            "two main roots or more lie no deeper than this"));
  }

  void depth() {
    advice_.depth_m = depth_of_roots(tree_.flare);
    if (!advice_.depth_m || advice_.depth_m->best <= 0) return;
    advice_.risk = girdling_risk(*advice_.depth_m, tree_.botanical_name, tables_);
    for (const Figure& figure : advice_.risk->figures) advice_.figures.push_back(figure);
    const Parameter& high = tables_.parameter("root_crown.high_risk_depth");
    if (advice_.depth_m->best > length_of(high).metres())
      advice_.reasons.push_back(
          "More than " + AmountText{units_}.small_length(length_of(high)) +
          " of soil lies over the main roots: a high risk of girdling roots (" + cited(high.from) +
          ").");
    if (advice_.risk->beyond_trees)
      note(
          NoteCode::girdling_outside_study,
          "the risk of girdling roots was measured on maples, hackberries, ashes and lindens 10 to "
          "20 years after planting; this tree is of another kind, or its kind is not known");
    if (advice_.risk->beyond_depth)
      note(
          NoteCode::flare_depth_capped,
          "at this depth the line of the study would pass the whole circumference: it stops there");
  }

  void compare() {
    const auto found = found_depth(tree_.flare);
    if (!found) return;
    FlareCompared compared;
    compared.found = *found;
    compared.expected = expected_;
    compared.deep = *found > criterion_depth();
    if (expected_ == FlareAnswer::burial_likely) compared.as_expected = compared.deep;
    if (expected_ == FlareAnswer::flare_seen) compared.as_expected = !compared.deep;
    compared.words = words_of(compared);
    advice_.answer = FlareAnswer::found;
    advice_.reasons.insert(advice_.reasons.begin(), compared.words);
    advice_.compared = std::move(compared);
  }

  std::string words_of(const FlareCompared& compared) const {
    const AmountText text{units_};
    std::string words = "Uncovered, the main roots lie " + text.small_length(compared.found) +
                        " below the ground: " + (compared.deep ? "too deep" : "as they should") +
                        ", the criterion being " + text.small_length(criterion_depth());
    if (compared.as_expected)
      words += *compared.as_expected ? "; as the signs said" : "; the signs said otherwise";
    return words + ".";
  }

  bool asks_to_dig() const {
    if (advice_.compared) return advice_.compared->deep;
    return advice_.answer == FlareAnswer::burial_likely;
  }

  void excavation() {
    CrownExcavation plan;
    const Parameter& usual = tables_.parameter("root_crown.excavation.radius");
    const Parameter& per = tables_.parameter("root_crown.excavation.radius_per_diameter");
    const Length large = length_of(tables_.parameter("root_crown.excavation.large_from"));
    plan.radius_m = range_of(usual);
    const auto diameter = combined_diameter(tree_, {StemConvention::largest});
    const bool by_stem = diameter && *diameter > large;
    if (by_stem) {
      const double by_diameter = per.best * diameter->metres();
      plan.radius_m = {by_diameter, by_diameter, by_diameter};
    }
    advice_.figures.push_back(
        length_figure("root-crown.excavation.radius", plan.radius_m, by_stem ? per : usual,
                      by_stem ? "r = a D for D above 12 in, from the bark" : "from the bark"));
    plan.depth_m = range_of(tables_.parameter("root_crown.excavation.usual_depth"));
    plan.depth_known = advice_.depth_m.has_value();
    const Parameter& below = tables_.parameter("root_crown.excavation.below_first");
    if (plan.depth_known) {
      const double more = length_of(below).metres();
      plan.depth_m = {advice_.depth_m->low + more, advice_.depth_m->best + more,
                      advice_.depth_m->high + more};
    }
    advice_.figures.push_back(length_figure(
        "root-crown.excavation.depth", plan.depth_m,
        plan.depth_known ? below : tables_.parameter("root_crown.excavation.usual_depth"),
        plan.depth_known ? "to the first main roots, and a below them" : "what is often dug"));
    advice_.excavation = plan;
  }

  const Tree& tree_;
  UnitSystem units_;
  const Tables& tables_;
  RootCrownAdvice advice_;
  FlareAnswer expected_ = FlareAnswer::cannot_tell;
};

}  // namespace

RootCrownAdvice root_crown_advice(const Tree& tree, const Site& site, const Tables& tables) {
  return Adviser(tree, site, tables).advise();
}

std::string_view to_text(FlareAnswer answer) {
  return word_for(kAnswers, answer);
}

}  // namespace rootstead
