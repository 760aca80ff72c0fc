#include "tests/report/pages.hpp"

#include <algorithm>

namespace rootstead::test {
namespace {

constexpr double kSlack = 0.3;  // mm: line boxes are taller than their letters

// A wrapped text's box is as wide as its column; its letters seldom are. Rows and columns are
// tested by the full box, which is the stricter way.
std::string said(const layout::Text& text) {
  return "\"" + text.text.substr(0, 40) + "\" at " + std::to_string(text.box.x) + ", " +
         std::to_string(text.box.y);
}

}  // namespace

std::vector<std::string> overlapping_texts(const layout::Page& page) {
  auto texts = all_of<layout::Text>(page);
  std::sort(texts.begin(), texts.end(),
            [](const auto* a, const auto* b) { return a->box.y < b->box.y; });
  std::vector<std::string> found;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    for (std::size_t j = i + 1; j < texts.size(); ++j) {
      if (texts[j]->box.y > texts[i]->box.bottom()) break;
      if (texts[i]->box.overlaps(texts[j]->box, kSlack))
        found.push_back(said(*texts[i]) + " over " + said(*texts[j]));
    }
  }
  return found;
}

std::vector<std::string> texts_off_sheet(const layout::Page& page) {
  constexpr double kLeastMargin = 3;  // mm: less is cut by most printers
  std::vector<std::string> found;
  for (const auto* text : all_of<layout::Text>(page)) {
    if (!page.sheet().shrunk(kLeastMargin).contains(text->box)) found.push_back(said(*text));
  }
  return found;
}

}  // namespace rootstead::test
