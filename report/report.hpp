// The report: Plan in, PDF out, through a layout that is plain data (report/layout.hpp).
#pragma once

#include <filesystem>
#include <set>
#include <string>

#include "engine/base/result.hpp"
#include "report/layout.hpp"
#include "report/plan.hpp"
#include "report/revision_history.hpp"
#include "report/steps.hpp"
#include "report/text_meter.hpp"

namespace rootstead {

// The whole report as pages: summary, method and limits, cautions, schedule, losses, scale plan,
// the pages of every affected tree, sources. Fails with wrong_use where the asked scale does not
// fit the sheet. A text page is A4, or letter where the sheet asked for is a US size. With a
// history: what changed since the last issue, plans reviewed, issues made, comments answered.
Result<layout::Document> make_report(const Plan& plan, const ReportOptions& options,
                                     const layout::TextMeter& meter, const Steps& steps = {},
                                     const RevisionHistory* history = nullptr);

// The same, as a tagged PDF. Written beside its name and moved into place when complete.
// `steps` is told each chapter and each page. Fails with file_unwritable, or as make_report does.
Outcome write_report(const Plan& plan, const ReportOptions& options,
                     const std::filesystem::path& pdf, const Steps& steps = {},
                     const RevisionHistory* history = nullptr);

// What the report of this plan holds, by the names of submittal_outputs(): only outputs whose
// pages make_report() really makes.
std::set<std::string> outputs_in_report(const Plan& plan);

// The plan with its legend as a picture, .svg or .png by the ending of `file`.
// Fails with file_unwritable, or format_unknown for another ending.
Outcome write_plan_picture(const Plan& plan, const std::filesystem::path& file);

}  // namespace rootstead
