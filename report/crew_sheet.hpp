// The crew's sheet: one page for those who dig, in black on white, to hang up on site. Three rules
// in large type with a picture each, a plan of this site's fences and stretches, the list of the
// stretches, when to stop and whom to call. Where a site has more stretches than one page shows
// legibly, the plan in parts and the whole list stand on pages behind it. Every number on it is the
// advice's own.
#pragma once

#include <filesystem>
#include <string_view>

#include "engine/base/result.hpp"
#include "report/layout.hpp"
#include "report/plan.hpp"
#include "report/text_meter.hpp"

namespace rootstead {

struct CrewSheetOptions {
  SheetSize sheet = SheetSize::a4;  // a US size asks for letter, any other for A4
};

// Key of ProjectSettings::other: the number under which the arborist is called. Where it is
// missing the sheets leave a line to write it on.
inline constexpr std::string_view kTelephoneKey = "telephone";

// Fails with wrong_use where the plan has no advice, with unknown_name where the project names a
// cut standard that is not known.
Result<layout::Document> make_crew_sheet(const Plan& plan, const CrewSheetOptions& options,
                                         const layout::TextMeter& meter);

// The same, as a tagged PDF. Fails with file_unwritable, or as make_crew_sheet does.
Outcome write_crew_sheet(const Plan& plan, const CrewSheetOptions& options,
                         const std::filesystem::path& pdf);

}  // namespace rootstead
