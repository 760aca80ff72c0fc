#include "report/flow.hpp"

#include <algorithm>
#include <utility>

namespace rootstead::layout {
namespace {

constexpr double kAfterParagraph = 2.2;
constexpr double kBulletIndent = 4;

struct HeadingLook {
  const TextStyle& style;
  double before, after, keep;  // mm; `keep`: text that must follow on the same page
};

HeadingLook look_of(int level) {
  if (level <= 1) return {kHeading1, 0, 5, 30};
  if (level == 2) return {kHeading2, 5, 2, 16};
  return {kHeading3, 3.5, 1.2, 12};
}

}  // namespace

PageFormat PageFormat::turned() const {
  PageFormat page = *this;
  std::swap(page.width, page.height);
  page.left = page.right = 18;
  page.top = 22;
  page.bottom = 17;
  return page;
}

Flow::Flow(std::vector<Page>& pages, const TextMeter& meter, const PageFormat& format)
    : pages_(pages), meter_(meter), format_(format) {
  new_page();
}

void Flow::new_page() {
  pages_.push_back({format_.width, format_.height, {}});
  y_ = format_.top;
}

void Flow::need(double height) {
  set_headings(height);
  if (height > room() && y_ > format_.top) new_page();
}

Rect Flow::take(double height) {
  need(height);
  const Rect box{format_.left, y_, format_.text_width(), height};
  y_ += height;
  return box;
}

void Flow::heading(int level, const std::string& text, const std::string& target) {
  waiting_.push_back({level, text, target});
}

void Flow::set_headings(double follows) {
  if (waiting_.empty()) return;
  const std::vector<Heading> headings = std::exchange(waiting_, {});
  double height = std::max(follows, look_of(headings.back().level).keep);
  for (const Heading& heading : headings) height += height_of(heading);
  if (height > room() && y_ > format_.top) new_page();
  for (const Heading& heading : headings) set_heading(heading);
}

double Flow::height_of(const Heading& heading) const {
  const HeadingLook look = look_of(heading.level);
  return look.before + meter_.measure(heading.text, look.style, format_.text_width()).h +
         look.after;
}

void Flow::set_heading(const Heading& heading) {
  const HeadingLook look = look_of(heading.level);
  const double width = format_.text_width();
  if (y_ > format_.top) y_ += look.before;
  Pen p = pen();
  if (!heading.target.empty()) {
    p.target(heading.target, {format_.left, std::max(0.0, y_ - 6)});
    p.bookmark(heading.level, heading.text, heading.target);
  }
  const Role role = heading.level <= 1   ? Role::heading1
                    : heading.level == 2 ? Role::heading2
                                         : Role::heading3;
  p.tagged(role, [&] { p.block(cursor(), width, heading.text, look.style); });
  y_ += meter_.measure(heading.text, look.style, width).h + look.after;
}

void Flow::paragraph(const std::string& text, const TextStyle& style) {
  const Size size = meter_.measure(text, style, format_.text_width());
  need(size.h);
  Pen p = pen();
  p.tagged(Role::paragraph, [&] { p.block(cursor(), format_.text_width(), text, style); });
  y_ += size.h + kAfterParagraph;
}

void Flow::bullets(const std::vector<std::string>& items, const TextStyle& style) {
  const double width = format_.text_width() - kBulletIndent;
  for (const std::string& item : items) {
    const Size size = meter_.measure(item, style, width);
    need(size.h);
    Pen p = pen();
    p.tagged(Role::list, [&] {
      p.tagged(Role::list_item, [&] {
        p.text({format_.left, y_}, "–", coloured(style, kAccent));
        p.block({format_.left + kBulletIndent, y_}, width, item, style);
      });
    });
    y_ += size.h + kAfterParagraph * 0.6;
  }
  y_ += kAfterParagraph * 0.4;
}

}  // namespace rootstead::layout
