// One work by every method, on one page: a picture of each at one scale, and beside it what it
// takes of each tree (health and stability apart), its length and its money.
#pragma once

#include <filesystem>

#include "engine/routes/methods.hpp"
#include "report/layout.hpp"
#include "report/plan.hpp"
#include "report/text_meter.hpp"

namespace rootstead {

// Fails with unknown_name where the plan has no such work.
Result<layout::Document> make_methods_page(const Plan& plan, const MethodsAnswer& answer,
                                           SheetSize size, const layout::TextMeter& meter);

// The same, as a tagged PDF. Fails with file_unwritable, or as make_methods_page does.
Outcome write_methods_page(const Plan& plan, const MethodsAnswer& answer, SheetSize size,
                           const std::filesystem::path& pdf);

}  // namespace rootstead
