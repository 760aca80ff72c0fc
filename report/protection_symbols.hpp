// Symbols of the protection plan: each drawn by one function, on the plan and in its legend alike.
// All are told apart by line, pattern and form; the one colour only helps. Private to the report
// room.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "report/symbols.hpp"

namespace rootstead {

// A row of a legend that is drawn by a function of its own. Rows stand in the order of `rank`.
struct LegendRow {
  int rank = 0;
  std::string key, meaning;
  std::function<void(layout::Pen&, const layout::Rect&)> sample;
};

// Which way something runs on the page; a unit vector.
struct Heading {
  double x = 1, y = 0;
};

// Marks of `places`, a line on the page.
void draw_fence_line(layout::Pen& pen, std::vector<layout::Place> places, Footing footing,
                     const std::string& name);
void draw_post(layout::Pen& pen, layout::Place at, Heading along, Footing footing,
               const std::string& name);
// Opens the fence for `width` mm about `at`: one leaf for people, two for machines.
void draw_gate(layout::Pen& pen, layout::Place at, Heading along, double width, GateUse use,
               const std::string& name);
void draw_dig(layout::Pen& pen, const std::vector<layout::Place>& places, DigMethod method,
              const std::string& name);
void draw_root_cut(layout::Pen& pen, const std::vector<layout::Place>& places,
                   const std::string& name);
void draw_bore(layout::Pen& pen, std::vector<layout::Place> places, const std::string& name);
// An arrow along the middle of a way.
void draw_way_arrow(layout::Pen& pen, const std::vector<layout::Place>& places,
                    const std::string& name);
void draw_guard(layout::Pen& pen, layout::Place at, double reach, const std::string& name);
void draw_sign(layout::Pen& pen, layout::Place at, const std::string& name);
void draw_clash(layout::Pen& pen, layout::Place at, const std::string& name);

struct AreaLook {
  layout::Stroke stroke;
  layout::Fill fill;
};
AreaLook look_of_cover(LoadClass load);
AreaLook look_of_enclosure();
AreaLook look_of_no_dig();
AreaLook look_of_way();
AreaLook look_of_pit();
AreaLook look_of_tree_ground();
AreaLook look_of_work(WorkState state);
AreaLook look_of_boundary();

inline constexpr double kGateReach = 1.8;   // mm kept free of labels round a gate
inline constexpr double kClashReach = 2.0;  // and round the mark of a clash
inline constexpr double kSignReach = 1.1;

// Length on the page, and the part of a line between two lengths along it.
double length_on_page(const std::vector<layout::Place>& places);
std::vector<layout::Place> part_on_page(const std::vector<layout::Place>& places, double from,
                                        double to);
// Which way the line runs where it comes nearest to `at`.
Heading heading_at(const std::vector<layout::Place>& places, layout::Place at);

}  // namespace rootstead
