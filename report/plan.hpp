// Plan: what a report is made from. One model, so that no page can disagree with another.
#pragma once

#include <string>

#include "engine/rootstead.hpp"

namespace rootstead {

struct Plan {
  const Site* site = nullptr;
  const Tables* tables = nullptr;
  const Assessment* assessment = nullptr;
  const Advice* advice = nullptr;  // null: the report says nothing of what is to be done
};

enum class SheetSize { a4, a3, a2, a1, letter, tabloid, arch_d };

struct ReportOptions {
  SheetSize sheet = SheetSize::a3;  // of the plan drawing; text pages are A4 or letter
  int scale = 0;                    // 200 for 1:200; 0: the largest usual scale that fits
};

}  // namespace rootstead
