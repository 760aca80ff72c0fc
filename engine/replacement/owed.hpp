// What one rule asks for one tree, and for all removed trees together. Private to the room.
#pragma once

#include <string>
#include <vector>

#include "engine/replacement/replacement.hpp"

namespace rootstead {

// Does any part of the rule take a stem diameter?
bool takes_diameter(const ReplacementRule& rule);

// The first term that is for the tree; null where none is. A palm needs a term that names palms.
const ReplacementTerm* term_for(const std::vector<ReplacementTerm>& terms, const Tree& tree);

// Before any allowance.
TreeOwed owed_for(const ReplacementRule& rule, const Tree& tree, RemovedBecause why);

// The row of a fee table for a stem of this diameter: the nearest within half an inch, else null.
const ReplacementFee::Row* fee_row_for(const ReplacementFee& fee, Length diameter);

// Rows of classes: the first whose upper bound is not passed; null above the last.
const ReplacementTerm::Row* class_row_for(const ReplacementTerm& term, Length diameter);

// What the allowance of the rule lets go free on this site; nothing where it has none. Trees that
// are not the client's, that the rule is not for, or that have no diameter do not count; `notes`
// says how many.
std::optional<Length> allowance_of(const ReplacementRule& rule, const Site& site,
                                   std::vector<Note>& notes);

// All of `owed` together; `tree_of` finds the tree of a line. The order of the lines does not
// matter, and another line never lowers a sum.
OwedTotal total_of(const ReplacementRule& rule, const std::vector<const TreeOwed*>& owed,
                   const Site& site, std::optional<Length> allowed, std::vector<Note>& notes);

// The weakest status of what the rule's answer for planting and fees rests on.
Citation citation_of(const ReplacementRule& rule);

GuaranteeAdvice guarantee_of(const ReplacementRule& rule, const ReplacementCosts& costs);

}  // namespace rootstead
