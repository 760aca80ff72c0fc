// CutStandard: what one standard, handbook or town says of cutting roots. Rows are data: the
// parameters `cutting.standard.<id>.<what>` of data/parameters/cutting.csv, so that a town is added
// without C++. Sources disagree: several are shown side by side, one is chosen, none are averaged.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/quantity.hpp"
#include "engine/base/result.hpp"
#include "engine/base/units.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// What a row may say. Words in data: free-below, hand-saw-from, ask-from, approval-from,
// approval-within, keep-from, clean-from, treat-from, nothing-within, by-hand-girths, depth,
// notice-days, licence, arborist-present.
enum class CutRule {
  free_below,        // roots thinner may be cut, cleanly
  hand_saw_from,     // roots so thick are cut by hand saw only
  ask_from,          // ... only after the arborist was asked
  approval_from,     // ... only with written approval
  approval_within,   // that holds within this distance of the trunk
  keep_from,         // ... are not cut
  clean_from,        // ... are cut cleanly
  treat_from,        // cut ends so thick are treated
  nothing_within,    // no digging at all nearer to the bark
  by_hand_girths,    // no machine nearer to the bark than so many girths
  depth,             // of the root cut, unless told otherwise
  notice_days,       // before cutting starts
  licence,           // 1: a licensed person cuts or supervises
  arborist_present,  // 1: while roots are cut
};

struct CutRow {
  CutRule rule = CutRule::ask_from;
  double value = 0;  // thickness and distance in m; days, girths and diameters as they are
  std::string meaning;
  Figure figure;  // "cutting.standard.bs5837-2012.ask-from", in the unit of the row
};

struct CutStandard {
  std::string id;    // "bs5837-2012"
  std::string name;  // the title of its source
  std::vector<CutRow> rows;

  const CutRow* row(CutRule rule) const;  // null where it says nothing
  // Rows about a root's thickness that speak of one so thick (m); the strictest first.
  std::vector<const CutRow*> about(double thickness) const;
};

std::vector<CutStandard> cut_standards(const Tables& tables);  // in the order of the rows
// Fails with unknown_name, naming the nearest.
Result<CutStandard> cut_standard(const Tables& tables, std::string_view id);
// Where nobody has chosen: "bs5837-2012" in metric, "us-practice" in US customary units.
// Requires: shipped rows.
CutStandard default_cut_standard(const Tables& tables, UnitSystem units);

std::string_view to_text(CutRule rule);
std::optional<CutRule> cut_rule_from(std::string_view text);

}  // namespace rootstead
