// The report: Plan in, PDF out, through a layout that is plain data (report/layout.hpp).
#pragma once

#include <filesystem>

#include "engine/base/result.hpp"
#include "report/plan.hpp"

namespace rootstead {

// Writes the whole report: summary, method and limits, cautions, schedule, losses, scale plan, one
// page per affected tree, sources. Written beside its name and moved into place when complete.
// Fails with file_unwritable, or wrong_use where the asked scale does not fit the sheet.
Outcome write_report(const Plan& plan, const ReportOptions& options,
                     const std::filesystem::path& pdf);

}  // namespace rootstead
