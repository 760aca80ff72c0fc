// What the parts of the advice share: one tree to be moved, where, and the advice so far.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "engine/base/amount_text.hpp"
#include "engine/transplant/transplant.hpp"

namespace rootstead {

struct MoveCase {
  const Tree& tree;
  const Site& site;
  const Tables& tables;
  RootSimulation how;
  AmountText amounts;

  double best(std::string_view id) const { return tables.parameter(id).best; }
  Prescription prescribe(std::string topic, std::string text, std::string reason, Citation from,
                         std::vector<Figure> figures = {}) const {
    return {std::move(topic),   tree.id,        {}, std::move(text), std::move(reason),
            std::move(figures), std::move(from)};
  }
  void note(TransplantAdvice& advice, NoteCode code, std::string text) const {
    advice.notes.push_back({code, tree.label(), std::move(text)});
  }
};

// "300 to 600 mm", or "300 mm" where both are alike.
std::string small_lengths(const AmountText& amounts, const Range& metres);
std::string lengths(const AmountText& amounts, const Range& metres);
std::string masses(const AmountText& amounts, const Range& kilograms);
std::string numbers(const Range& range, int decimals);  // "6 to 8"

// Adds reasons of condition and life stage, and those of the kind of tree.
void weigh_woody(const MoveCase& c, TransplantAdvice& advice, bool table_ended);
void weigh_palm(const MoveCase& c, TransplantAdvice& advice);
void weigh_monocot(const MoveCase& c, TransplantAdvice& advice);
// The worst that any reason weighs; two doubts together are one too many.
Feasibility feasibility_of(const std::vector<MovingReason>& reasons);

// Not raised in a nursery for lifting, or not known to be.
bool counts_as_collected(const Tree& tree);

Outcome advise_woody(const MoveCase& c, TransplantAdvice& advice);
Outcome advise_palm(const MoveCase& c, TransplantAdvice& advice);
void advise_monocot(const MoveCase& c, TransplantAdvice& advice);

// Lifting gear for the highest weight, of any tree.
Prescription gear(const MoveCase& c, TransplantAdvice& advice, Mass highest);

}  // namespace rootstead
