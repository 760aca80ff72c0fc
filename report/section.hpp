// A section through the ground from a stem along the shortest way to the nearest cut: what is dug,
// how deep, against the zones and where absorbing roots are likely.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/pen.hpp"
#include "report/plan.hpp"
#include "report/wording.hpp"

namespace rootstead {

// Plain data, metres; distances along the section from the stem centre, depths downward.
struct Section {
  Point stem;
  Angle towards;
  double back = 0, ahead = 0;  // how far it goes behind and before the stem
  double deepest = 0;          // how far down it shows
  std::string nearest;         // id of the work it was laid through; empty where none is near

  struct Piece {  // a work or a barrier the section meets
    const Work* work = nullptr;
    const Barrier* barrier = nullptr;
    double from = 0, to = 0;
    double top = 0, bottom = 0;  // depths; a fill has a negative top
  };
  std::vector<Piece> pieces;
};

// Nothing where the tree has no position or no work reaches it.
std::optional<Section> make_section(const Plan& plan, const TreeAssessment& tree);

// Dots of equal shares of the absorbing roots predicted in the plane of the section, placed by the
// assessment's seed; empty where no estimate can be made.
struct RootDot {
  double along = 0, depth = 0;  // m
};
std::vector<RootDot> root_dots(const Plan& plan, const Tree& tree, const Section& section,
                               int count);

// A piece of a root of one likely root system (engine/roots/architecture.hpp), laid into the plane.
struct SectionRoot {
  RootDot from, to;
  double thickness = 0;  // m
  bool severed = false;  // a new cut lies between it and the stem
};
inline constexpr double kSlab = 0.75;  // m: how far from the plane a root may lie
std::vector<SectionRoot> section_roots(const Plan& plan, const Tree& tree, const Section& section);

// A root that was found in an opening near the plane, with its depth; those whose depth was not
// written down cannot be drawn.
struct FoundInSection {
  RootDot middle;
  double thickness = 0;  // m
  bool alive = true;
};
std::vector<FoundInSection> found_roots(const Plan& plan, const Tree& tree, const Section& section);

// Height a drawing needs at `width` mm; the scale is the largest usual one that fits.
int section_scale(const Section& section, double width, UnitSystem units);
double section_height(const Section& section, double width, const TreeAssessment& tree,
                      UnitSystem units);
void draw_section(layout::Pen& pen, const layout::Rect& box, const Plan& plan,
                  const TreeAssessment& tree, const Section& section);

}  // namespace rootstead
