// What the parts of a verdict share: the tree's case, and the thresholds. Private to this room.
#pragma once

#include <string>
#include <vector>

#include "engine/base/amount_text.hpp"
#include "engine/remedies/verdict.hpp"

namespace rootstead {

// Every number a verdict turns on, from the parameters `verdict.*`.
struct VerdictThresholds {
  double loss_noticed = 0;   // high end of the loss from which it is mentioned
  double loss_any_tree = 0;  // best estimate advised against for any tree
  Range loss_tolerated;      // of this tree: by tolerance, condition and stage
  double no_change = 1, small_change = 1, material_change = 1;  // anchorage kept, low end
  Length transplant_diameter;
  Citation any_tree_from, tolerated_from, anchorage_from;
};

struct VerdictCase {
  const VerdictInputs& in;
  const Tables& tables;
  VerdictThresholds thresholds;

  const Tree& tree() const { return *in.tree; }
  const Work* work(std::string_view id) const;
};

VerdictCase verdict_case(const VerdictInputs& inputs, const Tables& tables);

// The two answers. Each adds its reasons.
Concern vitality_concern(const VerdictCase& c, std::vector<Reason>& reasons);
Concern stability_concern(const VerdictCase& c, std::vector<Reason>& reasons);

// What a passed limit means for its answer, by the weight its rule gives it.
Concern concern_of(LimitDefinition::Weight weight);
Concern larger(Concern a, Concern b);  // `unknown` only where both are

bool is_about_stability(const LimitResult& result, const Tables& tables);
// Ground entered at all, where more than a share of the same zone is taken, is told with the share.
bool is_within_another(const LimitResult& result, const VerdictCase& c);
Reason reason_of(const LimitResult& result, const VerdictCase& c, Reason::About about);

// What to do, each a sentence, for works that reach the tree.
std::vector<std::string> measures_of(const VerdictCase& c, const Verdict& verdict);

// Words. Works are named "W1 (storm drain)".
std::string names_of(const std::vector<std::string>& works, const VerdictCase& c);
std::string length_text(Length length, UnitSystem units);  // "6.00 m", "19.7 ft"
std::string range_text(const Range& share);                // "31 % (12 % to 48 %)"

}  // namespace rootstead
