// How a palm replaces roots that were cut: some species branch again behind the cut, others only
// send new roots from the root initiation zone at the base of the trunk.
// Source: Broschat & Donselman 1984; Hodel et al. 2005. Rows: data/parameters/palm_regrowth.csv.
#pragma once

#include <optional>
#include <string>

#include "engine/tables/tables.hpp"

namespace rootstead {

struct PalmRegrowth {
  enum class Kind {
    unknown,      // no study of this palm was found
    base_only,    // cut roots hardly ever branch again
    any_length,   // a share of them does, however short what is left
    longer_more,  // the longer what is left, the more of them do
  };
  Kind kind = Kind::unknown;
  std::optional<Range> share_of_cut_roots;  // that branch again
  std::optional<bool> many_from_base;       // new roots from the base of the trunk
  std::optional<Citation> from;             // of the kind
};

// `species` may be null: unknown. The row of the species goes before that of its genus.
PalmRegrowth palm_regrowth(const Species* species, const Tables& tables);

// "Cut roots of this palm hardly ever branch again: ..." One or two sentences for the report.
std::string in_words(const PalmRegrowth& regrowth);

}  // namespace rootstead
