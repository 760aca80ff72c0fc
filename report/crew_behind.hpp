// The pages behind the crew's sheet where one page has no room: the plan in parts, then every
// stretch work by work. Private to the report room.
#pragma once

#include <vector>

#include "report/crew_words.hpp"
#include "report/layout.hpp"
#include "report/plan.hpp"
#include "report/text_meter.hpp"

namespace rootstead {

// What stands at the foot of the sheet's pages.
std::string crew_cautions(const CrewWords& words);

std::vector<layout::Page> pages_behind(const Plan& plan, const CrewWords& words, SheetSize size,
                                       const layout::TextMeter& meter);

}  // namespace rootstead
