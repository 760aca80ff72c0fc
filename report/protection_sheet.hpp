// The sheets of the protection plan, at the size and scale of the plan sheet: one, or where that
// is too much for one, the fences and covered ground on the first and the digging on the second.
#pragma once

#include <vector>

#include "report/plan.hpp"
#include "report/sheet.hpp"

namespace rootstead {

// Requires: plan.advice->protection. The scale asked for is taken even where parts lie beyond the
// sheet at it; they are named on the sheet.
std::vector<Sheet> make_protection_sheets(const Plan& plan, const ReportOptions& options,
                                          const layout::TextMeter& meter,
                                          const RevisionHistory* history = nullptr);

}  // namespace rootstead
