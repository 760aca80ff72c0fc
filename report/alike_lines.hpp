// Instructions that are the same but for their figures, told once. Private to the report room.
#pragma once

#include <vector>

#include "report/method_lines.hpp"

namespace rootstead {

// The same source, and the same words where those that hold a digit do not count.
bool same_but_for_figures(const Prescription& a, const Prescription& b);

// Puts a line into the first one before it that has the same words, reason and source, where words
// that hold a digit ("F3", "16.75") may differ. Nothing is lost: what differs stands in `alike`.
void fold_alike(std::vector<MethodLine>& lines);

}  // namespace rootstead
