// Sheet and scale as they are named on the command line and by the page.
#pragma once

#include <string>
#include <vector>

#include "report/plan.hpp"

namespace rootstead::issue {

std::vector<std::string> sheet_names();  // "a4", "a3" ... "arch-d"

// Fails with wrong_use for a sheet not named above or a scale that is not like 1:200.
Result<ReportOptions> report_options(const std::string& sheet, const std::string& scale);

}  // namespace rootstead::issue
