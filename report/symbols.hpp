// Symbols: what each kind of thing looks like, on the plan, in its legend and in sections alike.
// Patterns and line types carry the meaning; the one colour only helps.
#pragma once

#include <string>

#include "engine/rootstead.hpp"
#include "report/pen.hpp"

namespace rootstead {

struct Symbol {
  enum class Form { area, line, stem };
  std::string key;  // "work:trench", also the name of elements drawn with it: "symbol:work:trench"
  std::string meaning;
  Form form = Form::area;
  layout::Stroke stroke = {};
  layout::Fill fill = {};
  int rank = 0;  // place in a legend
};

Symbol symbol_of(const Work& work);
Symbol symbol_of(const Barrier& barrier);
Symbol symbol_of(const Surface& surface);
Symbol symbol_of(ZonePurpose purpose);
Symbol crown_symbol();
Symbol symbol_of(Action action);  // of the stem

// The stem, `radius` mm at the sheet's scale, with the mark of its action round it.
void draw_stem(layout::Pen& pen, layout::Place at, double radius, Action action,
               const std::string& name);
// How far the mark reaches from the stem centre, mm.
double stem_reach(double radius, Action action);

inline constexpr double kSmallestStemRadius = 0.5;  // mm: a stem is drawn at least this large

}  // namespace rootstead
