#include "report/layout.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace rootstead::layout {
namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();

}  // namespace

bool Rect::contains(const Rect& other, double slack) const {
  return other.x >= x - slack && other.y >= y - slack && other.right() <= right() + slack &&
         other.bottom() <= bottom() + slack;
}

bool Rect::overlaps(const Rect& other, double slack) const {
  return x + slack < other.right() && other.x + slack < right() && y + slack < other.bottom() &&
         other.y + slack < bottom();
}

std::string_view pdf_name(Role role) {
  switch (role) {
    case Role::document:
      return "Document";
    case Role::section:
      return "Sect";
    case Role::heading1:
      return "H1";
    case Role::heading2:
      return "H2";
    case Role::heading3:
      return "H3";
    case Role::paragraph:
      return "P";
    case Role::list:
      return "L";
    case Role::list_item:
      return "LI";
    case Role::table:
      return "Table";
    case Role::row:
      return "TR";
    case Role::header_cell:
      return "TH";
    case Role::cell:
      return "TD";
    case Role::figure:
      return "Figure";
    case Role::caption:
      return "Caption";
  }
  return "P";
}

Rect bounds_of(const Path& path) {
  double min_x = kFar, min_y = kFar, max_x = -kFar, max_y = -kFar;
  for (const auto& ring : path.rings) {
    for (const Place& p : ring) {
      min_x = std::min(min_x, p.x), max_x = std::max(max_x, p.x);
      min_y = std::min(min_y, p.y), max_y = std::max(max_y, p.y);
    }
  }
  return max_x < min_x ? Rect{} : Rect{min_x, min_y, max_x - min_x, max_y - min_y};
}

}  // namespace rootstead::layout
