// What the sheets of one page share: their paper, their cautions, lists that say what they leave
// out, and the small plan's bar and arrow in large type. Private to the report room.
#pragma once

#include <string>
#include <vector>

#include "engine/base/result.hpp"
#include "report/pen.hpp"
#include "report/plan.hpp"
#include "report/view.hpp"

namespace rootstead {

inline constexpr double kLeastPoints = 9;  // no text of these sheets is smaller

struct OnePage {
  layout::Page page;
  layout::Rect body;  // within the margins
};
OnePage one_page(SheetSize size);

layout::Document document_of(const Plan& plan, layout::Page page, const std::string& title);
Error without_advice(const std::string& sheet);

// The cautions every output carries, in few words.
extern const char* const kShortCautions;

// "T1, T2 and 4 more", by label; ids of the plan's trees.
std::string trees_named(const Plan& plan, const std::vector<std::string>& ids, std::size_t most);
std::string work_named(const Plan& plan, const std::string& id);  // its name, or its id
const TreeAdvice* advice_of(const Plan& plan, const std::string& tree);

// "R. Alder, consulting arborist"; "the arborist" where the title block names none.
std::string arborist_named(const Plan& plan);
// The number the project gives, or a line to write it on.
std::string telephone_of(const Plan& plan);
// "For Quayside Trust · 14 Harbour Walk · 2026-11-25 · rev B", what there is of it.
std::string whereabouts(const Plan& plan);

// The whole of `ground` in the frame, at whatever scale that takes: drawings for reading only.
View fitted_view(const Box& ground, const layout::Rect& frame, double margin);

struct SmallPrint {
  layout::Colour colour;
  double points = kLeastPoints;
};
// A bar of two fields with its length beside it, and an arrow to grid north before it.
layout::Rect draw_bar_and_north(layout::Pen& pen, layout::Place at, double longest,
                                const View& view, UnitSystem units, const SmallPrint& look);

// One below the other, each behind a dash. Returns where the last ends.
double draw_bullets(layout::Pen& pen, layout::Place at, double width,
                    const std::vector<std::string>& items, const layout::TextStyle& style,
                    double gap = 0.8);
double height_of_bullets(const layout::Pen& pen, double width,
                         const std::vector<std::string>& items, const layout::TextStyle& style,
                         double gap = 0.8);

// A path of a picture: the points of a curve through the given ones, rounded at every corner.
std::vector<layout::Place> smooth(const std::vector<layout::Place>& corners);

}  // namespace rootstead
