// The look of every page in one place: a calm black and grey on white with one accent, the red
// brown of dug earth. Colour only helps; weight, line and pattern carry the meaning.
#pragma once

#include "report/layout.hpp"

namespace rootstead::layout {

inline constexpr Colour kInk{0.10, 0.10, 0.11};
inline constexpr Colour kGrey{0.38, 0.38, 0.40};   // secondary text: contrast 6 to 1 on white
inline constexpr Colour kQuiet{0.62, 0.62, 0.63};  // lines that stand back
inline constexpr Colour kHair{0.80, 0.80, 0.80};
inline constexpr Colour kPale{0.95, 0.945, 0.935};
inline constexpr Colour kWhite{1, 1, 1};
inline constexpr Colour kAccent{0.62, 0.24, 0.11};

inline constexpr double kSmallestType = 7;  // points, of anything printed on a report's pages

inline const TextStyle kBody{.points = 9.2, .colour = kInk, .leading = 1.12};
inline const TextStyle kSmall{.points = 7.6, .colour = kInk, .leading = 1.05};
inline const TextStyle kSmallGrey{.points = 7.6, .colour = kGrey, .leading = 1.05};
inline const TextStyle kTableText{.points = 7.4, .tabular = true, .colour = kInk};
inline const TextStyle kTableBold{
    .points = 7.4, .weight = Weight::bold, .tabular = true, .colour = kInk};
inline const TextStyle kTableHead{
    .points = kSmallestType, .weight = Weight::medium, .colour = kGrey};
inline const TextStyle kCaption{.points = 7.2, .colour = kGrey};
inline const TextStyle kOverline{.points = 7.6, .weight = Weight::medium, .colour = kAccent};

inline const TextStyle kTitle{
    .points = 27, .weight = Weight::medium, .display = true, .colour = kInk};
inline const TextStyle kHeading1{
    .points = 17, .weight = Weight::medium, .display = true, .colour = kInk};
inline const TextStyle kHeading2{.points = 11, .weight = Weight::bold, .colour = kInk};
inline const TextStyle kHeading3{.points = 9.2, .weight = Weight::bold, .colour = kInk};

inline const Stroke kHairline{.width = 0.12, .colour = kHair};
inline const Stroke kThin{.width = 0.18, .colour = kInk};
inline const Stroke kRule{.width = 0.3, .colour = kInk};
inline const Stroke kNoStroke{};
inline const Fill kNoFill{};
inline const Fill kInkFill{.hatch = Hatch::solid, .colour = kInk};
inline const Fill kWhiteFill{.hatch = Hatch::solid, .colour = kWhite};
inline const Fill kPaleFill{.hatch = Hatch::solid, .colour = kPale};
inline const Fill kAccentFill{.hatch = Hatch::solid, .colour = kAccent};

inline TextStyle aligned(TextStyle style, Align align) {
  style.align = align;
  return style;
}
inline TextStyle coloured(TextStyle style, const Colour& colour) {
  style.colour = colour;
  return style;
}
inline TextStyle weighted(TextStyle style, Weight weight) {
  style.weight = weight;
  return style;
}
inline TextStyle sized(TextStyle style, double points) {
  style.points = points;
  return style;
}

}  // namespace rootstead::layout
