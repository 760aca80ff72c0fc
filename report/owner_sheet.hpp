// The owner's sheet: one page in plain words. Where the roots reach and which works touch them,
// what becomes of each tree with its two answers, what happens when, what the owner does, how to
// see that something is wrong and whom to call.
#pragma once

#include <filesystem>

#include "engine/base/result.hpp"
#include "report/layout.hpp"
#include "report/plan.hpp"
#include "report/text_meter.hpp"

namespace rootstead {

struct OwnerSheetOptions {
  SheetSize sheet = SheetSize::a4;  // a US size asks for letter, any other for A4
};

// Fails with wrong_use where the plan has no advice.
Result<layout::Document> make_owner_sheet(const Plan& plan, const OwnerSheetOptions& options,
                                          const layout::TextMeter& meter);

// The same, as a tagged PDF. Fails with file_unwritable, or as make_owner_sheet does.
Outcome write_owner_sheet(const Plan& plan, const OwnerSheetOptions& options,
                          const std::filesystem::path& pdf);

}  // namespace rootstead
