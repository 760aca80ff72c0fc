// What tests ask of pages.
#pragma once

#include <string>
#include <vector>

#include "report/layout.hpp"

namespace rootstead::test {

template <class What>
std::vector<const What*> all_of(const layout::Page& page, const std::string& name_begins = {}) {
  std::vector<const What*> found;
  for (const layout::Element& e : page.elements) {
    const auto* what = std::get_if<What>(&e.what);
    if (what != nullptr && e.name.starts_with(name_begins)) found.push_back(what);
  }
  return found;
}

inline std::string text_of(const layout::Page& page) {
  std::string all;
  for (const auto* text : all_of<layout::Text>(page)) all += text->text + "\n";
  return all;
}

inline std::string text_of(const layout::Document& document) {
  std::string all;
  for (const layout::Page& page : document.pages) all += text_of(page);
  return all;
}

// Every pair of text boxes that overlap by more than the space around letters.
std::vector<std::string> overlapping_texts(const layout::Page& page);
// Every text that leaves the sheet.
std::vector<std::string> texts_off_sheet(const layout::Page& page);

}  // namespace rootstead::test
