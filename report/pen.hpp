// Pen: puts elements on one page, measuring texts as it goes.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "report/layout.hpp"
#include "report/style.hpp"
#include "report/text_meter.hpp"

namespace rootstead::layout {

class Pen {
 public:
  Pen(Page& page, const TextMeter& meter) : page_(&page), meter_(&meter) {}

  const TextMeter& meter() const { return *meter_; }
  Page& page() { return *page_; }
  Size measure(std::string_view text, const TextStyle& style,
               std::optional<double> width = {}) const {
    return meter_->measure(text, style, width);
  }

  // One line whose left, middle or right end (by style.align) stands at x. Returns its box.
  Rect text(Place at, const std::string& text, const TextStyle& style, const std::string& name = {},
            const std::string& link = {});
  // Wrapped to `width`. Returns the box: as wide as asked, as high as needed.
  Rect block(Place at, double width, const std::string& text, const TextStyle& style,
             const std::string& name = {}, const std::string& link = {});
  // Reading upward, its lower end at `at`.
  Rect turned_text(Place at, const std::string& text, const TextStyle& style,
                   const std::string& name = {});
  // The longest beginning of `text` that fits `width` on one line, with an ellipsis if cut.
  std::string shortened(const std::string& text, const TextStyle& style, double width) const;

  void line(Place from, Place to, const Stroke& stroke, const std::string& name = {});
  void polyline(std::vector<Place> places, const Stroke& stroke, const std::string& name = {});
  void rect(const Rect& rect, const Stroke& stroke, const Fill& fill = {},
            const std::string& name = {});
  void shape(std::vector<std::vector<Place>> rings, const Stroke& stroke, const Fill& fill,
             const std::string& name = {});
  void disc(Place centre, double radius, const Stroke& stroke, const Fill& fill = {},
            const std::string& name = {});

  void target(const std::string& name, Place at);
  void bookmark(int level, const std::string& title, const std::string& target);

  // Everything `draw` puts down is told to screen readers under `role`.
  template <class Draw>
  void tagged(Role role, Draw draw) {
    add(Tag{role, true});
    draw();
    add(Tag{role, false});
  }
  // Everything `draw` puts down is cut off at the window.
  template <class Draw>
  void clipped(const Rect& window, Draw draw) {
    const auto before = std::exchange(clip_, window);
    draw();
    clip_ = before;
  }

  void add(std::variant<Text, Path, Disc, Tag, Target, Bookmark> what,
           const std::string& name = {});

 private:
  Page* page_;
  const TextMeter* meter_;
  std::optional<Rect> clip_;
};

}  // namespace rootstead::layout
