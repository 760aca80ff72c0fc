#include "engine/transplant/transplant.hpp"

#include <algorithm>
#include <iterator>

#include "engine/base/text.hpp"
#include "engine/roots/root_model.hpp"
#include "engine/tables/traits.hpp"
#include "engine/transplant/move_case.hpp"
#include "engine/transplant/trail.hpp"
#include "engine/transplant/weights.hpp"

namespace rootstead {
namespace {

template <class Text>
std::string from_to(const Range& range, Text text) {
  const std::string low = text(range.low), high = text(range.high);
  return low == high ? low : low + " to " + high;
}

MovingRules rules_for(const Tree& tree, const Tables& tables) {
  const Species* species = tables.species_of(tree.botanical_name);
  if (tree.form == GrowthForm::palm || (species && species->form == GrowthForm::palm))
    return MovingRules::palm;
  return is_monocot(tree, tables) ? MovingRules::other_monocot : MovingRules::woody;
}

}  // namespace

std::string small_lengths(const AmountText& amounts, const Range& metres) {
  return from_to(metres, [&](double v) { return amounts.small_length(Length::metres(v)); });
}
std::string lengths(const AmountText& amounts, const Range& metres) {
  return from_to(metres, [&](double v) { return amounts.length(Length::metres(v)); });
}
std::string masses(const AmountText& amounts, const Range& kilograms) {
  return from_to(kilograms, [&](double v) { return amounts.mass(Mass::kilograms(v)); });
}
std::string numbers(const Range& range, int decimals) {
  return from_to(range, [&](double v) { return fixed_number(v, decimals); });
}

Prescription gear(const MoveCase& c, TransplantAdvice& advice, Mass highest) {
  const Figure load = lifting_load(highest, c.tables);
  const Mass most = Mass::kilograms(load.range ? load.range->high : load.value);
  const Figure slings = sling_strength(most, c.tables);
  advice.figures.push_back(load);
  advice.figures.push_back(slings);
  return c.prescribe(
      "lifting gear",
      "Choose crane, slings and shackles for a load of " +
          masses(c.amounts, load.range.value_or(same(load.value))) +
          ", and slings that break at no less than " +
          c.amounts.mass(Mass::kilograms(slings.value)) +
          "; weigh the load at the first lift and stop where it is more.",
      "The load is the highest estimate with an allowance for jerk; breaking out of the ground "
      "adds more. The lifting supervisor on site decides.",
      load.from, {load, slings});
}

std::vector<Prescription> TransplantAdvice::prescriptions() const {
  std::vector<Prescription> all;
  for (const auto* part : {&before, &lifting_day, &planting, &after})
    all.insert(all.end(), part->begin(), part->end());
  return all;
}

void add_watering(TransplantAdvice& advice, std::vector<Prescription> watering) {
  const auto general =
      std::find_if(advice.after.begin(), advice.after.end(),
                   [](const Prescription& one) { return one.topic == "irrigation"; });
  const auto behind = general == advice.after.end() ? general : general + 1;
  advice.after.insert(behind, std::make_move_iterator(watering.begin()),
                      std::make_move_iterator(watering.end()));
}

namespace {

// Nobody is told how to move what must not be moved, without being told so again.
void hold_back(const MoveCase& c, TransplantAdvice& advice) {
  if (c.tree.condition == Condition::dead) {
    for (auto* part : {&advice.before, &advice.lifting_day, &advice.planting, &advice.after})
      part->clear();
  } else if (advice.feasibility == Feasibility::not_advised) {
    c.note(
        advice, NoteCode::moving_not_advised,
        "moving it is not advised: what is prescribed holds only where it is moved all the same");
  }
}

}  // namespace

Result<TransplantAdvice> transplant_advice(const Tree& tree, const Site& site, const Tables& tables,
                                           const RootSimulation& how) {
  const MoveCase c{tree, site, tables, how, AmountText{site.settings.units}};
  TransplantAdvice advice;
  advice.tree = tree.id;
  advice.rules = rules_for(tree, tables);
  if (advice.rules == MovingRules::palm) {
    ROOTSTEAD_CHECK(advise_palm(c, advice));
  } else if (advice.rules == MovingRules::other_monocot) {
    advise_monocot(c, advice);
  } else {
    ROOTSTEAD_CHECK(advise_woody(c, advice));
  }
  hold_back(c, advice);
  return advice;
}

}  // namespace rootstead
