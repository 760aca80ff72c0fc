// Labels on a plan: each beside what it names, none over another, a fine line to it where it had to
// step aside.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "report/layout.hpp"
#include "report/pen.hpp"
#include "report/text_meter.hpp"

namespace rootstead::layout {

struct LabelWish {
  std::string text;
  TextStyle style;
  Place anchor;
  double clearance = 0.5;  // mm kept free round the anchor
  bool may_cover = false;  // may stand on the anchor itself: names of areas
  std::string name;
};

struct PlacedLabel {
  std::size_t wish = 0;  // index
  Rect box;
  std::optional<std::pair<Place, Place>> leader;  // from the symbol's rim to the label
};

// Places what it can, the most crowded first; a wish that finds no free place within reach is left
// out (see the result's indices). Results never overlap each other, the `taken` boxes or the
// window's edge; leaders cross no label and no other leader.
std::vector<PlacedLabel> place_labels(const std::vector<LabelWish>& wishes,
                                      const std::vector<Rect>& taken, const Rect& window,
                                      const TextMeter& meter);

// Its line to the symbol, white ground under it, and its text. `rim` is how far the white stands
// back from the label's box, in mm; below 0: how far beyond it.
void draw_label(Pen& pen, const PlacedLabel& label, const LabelWish& wish, const Stroke& leader,
                double rim);

}  // namespace rootstead::layout
