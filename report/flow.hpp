// Flow: pages filled from top to bottom: headings, paragraphs, lists, tables that go on over pages
// with their head repeated. Running heads and "page x of y" come last, when all pages are known.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "report/pen.hpp"

namespace rootstead::layout {

struct PageFormat {
  double width = 210, height = 297;
  double left = 22, right = 18, top = 24, bottom = 20;
  double text_width() const { return width - left - right; }
  double text_bottom() const { return height - bottom; }
  PageFormat turned() const;  // landscape
};
inline constexpr PageFormat kA4{};
inline constexpr PageFormat kLetter{.width = 215.9, .height = 279.4};

class Flow {
 public:
  // Starts a new page in `pages`.
  Flow(std::vector<Page>& pages, const TextMeter& meter, const PageFormat& format);
  Flow(Flow&&) noexcept = default;
  Flow& operator=(Flow&&) = delete;
  ~Flow() { set_headings(0); }  // also a heading that nothing follows

  Pen pen() { return set_headings(0), Pen(pages_.back(), meter_); }
  const TextMeter& meter() const { return meter_; }
  const PageFormat& format() const { return format_; }
  Place cursor() { return set_headings(0), Place{format_.left, y_}; }
  double room() { return set_headings(0), format_.text_bottom() - y_; }

  void new_page();
  // A new page unless `height` still fits on this one, with the headings above it.
  void need(double height);
  void space(double height) { set_headings(0), y_ += height; }
  // A box of the full text width, on this page or the next.
  Rect take(double height);

  // With a target it can be linked to and stands in the bookmarks. It is set with what follows it,
  // so that it never stands alone at the foot of a page.
  void heading(int level, const std::string& text, const std::string& target = {});
  void paragraph(const std::string& text, const TextStyle& style = kBody);
  void bullets(const std::vector<std::string>& items, const TextStyle& style = kBody);

 private:
  struct Heading {
    int level;
    std::string text, target;
  };
  // Those that wait, on a page on which `follows` mm find room below them.
  void set_headings(double follows);
  void set_heading(const Heading& heading);
  double height_of(const Heading& heading) const;

  std::vector<Page>& pages_;
  const TextMeter& meter_;
  PageFormat format_;
  double y_ = 0;
  std::vector<Heading> waiting_;
};

struct Column {
  std::string title;
  double width = 1;  // relative to the others
  Align align = Align::left;
  std::size_t span = 1;  // columns its title covers; the titles of those are not set
};

struct Cell {
  std::string text;
  TextStyle style = kTableText;
  std::string link = {};
  std::size_t span = 1;  // columns it covers
  // Draws instead of, or beneath, the text, in a box at least `height` high.
  std::function<void(Pen&, const Rect&)> draw = {};
  double height = 0;
};

struct Row {
  std::vector<Cell> cells;
  bool opens_group = false;  // a rule above
  bool keeps_with_next = false;
  std::string name = {};
  double pad = 0.85;         // mm above and below the text
  bool heads_group = false;  // comes again where a page parts what follows, until the next of them
};

void table(Flow& flow, const std::vector<Column>& columns, const std::vector<Row>& rows);

}  // namespace rootstead::layout
