#include "report/painter.hpp"

#include <cairo-pdf.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>

namespace rootstead::layout {
namespace {

constexpr double kDotRadius = 1.6;  // of the pattern's line width

// Attribute strings of Cairo quote with '; our own names hold no quote, but titles may.
std::string in_quotes(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\'' || c == '\\') out += '\\';
    out += c;
  }
  return out;
}

std::string number(double value) {
  return std::to_string(std::lround(value));
}

}  // namespace

Painter::Painter(cairo_t* cairo, cairo_surface_t* pdf)
    : cairo_(cairo), pdf_(pdf), context_(make_context()) {}

void Painter::paint(const Page& page) {
  cairo_save(cairo_);
  cairo_scale(cairo_, kPointsPerMillimetre, kPointsPerMillimetre);
  for (const Element& element : page.elements) {
    cairo_save(cairo_);
    cairo_new_path(cairo_);
    if (element.clip) {
      cairo_rectangle(cairo_, element.clip->x, element.clip->y, element.clip->w, element.clip->h);
      cairo_clip(cairo_);
    }
    std::visit([this](const auto& what) { draw(what); }, element.what);
    cairo_restore(cairo_);
  }
  cairo_restore(cairo_);
}

void Painter::set(const Colour& colour) {
  cairo_set_source_rgb(cairo_, colour.red, colour.green, colour.blue);
}

void Painter::draw(const Text& text) {
  const Rect& box = text.box;
  const double length = text.turned ? box.h : box.w;
  const bool bounded = text.wraps || text.style.align != Align::left;
  const auto layout = make_layout(context_.get(), text.text, text.style,
                                  bounded ? std::optional(length) : std::nullopt);
  const bool links = pdf_ != nullptr && !text.link.empty();
  if (links) {
    cairo_tag_begin(cairo_, CAIRO_TAG_LINK, ("dest='" + in_quotes(text.link) + "'").c_str());
  }
  cairo_move_to(cairo_, box.x, text.turned ? box.bottom() : box.y);
  cairo_scale(cairo_, 1 / kPointsPerMillimetre, 1 / kPointsPerMillimetre);
  if (text.turned) cairo_rotate(cairo_, -std::numbers::pi / 2);
  set(text.style.colour);
  pango_cairo_show_layout(cairo_, layout.get());
  if (links) cairo_tag_end(cairo_, CAIRO_TAG_LINK);
}

void Painter::draw(const Path& path) {
  for (const auto& ring : path.rings) {
    cairo_new_sub_path(cairo_);
    for (const Place& p : ring) cairo_line_to(cairo_, p.x, p.y);
    if (path.closed) cairo_close_path(cairo_);
  }
  fill_and_stroke(path.fill, path.stroke, bounds_of(path));
}

void Painter::draw(const Disc& disc) {
  cairo_new_path(cairo_);
  cairo_arc(cairo_, disc.centre.x, disc.centre.y, disc.radius, 0, 2 * std::numbers::pi);
  cairo_close_path(cairo_);
  const double r = disc.radius;
  fill_and_stroke(disc.fill, disc.stroke, {disc.centre.x - r, disc.centre.y - r, 2 * r, 2 * r});
}

void Painter::fill_and_stroke(const Fill& fill, const Stroke& stroke, const Rect& bounds) {
  cairo_set_fill_rule(cairo_, CAIRO_FILL_RULE_EVEN_ODD);
  if (fill.hatch == Hatch::solid) {
    set(fill.colour);
    cairo_fill_preserve(cairo_);
  } else if (fill.hatch != Hatch::none) {
    fill_pattern(fill, bounds);
  }
  if (stroke.width <= 0) return;
  set(stroke.colour);
  cairo_set_line_width(cairo_, stroke.width);
  cairo_set_dash(cairo_, stroke.dash.data(), int(stroke.dash.size()), 0);
  cairo_set_line_cap(cairo_, stroke.round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(cairo_, stroke.round ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
  cairo_stroke(cairo_);
}

// The pattern is drawn through the shape as a window; the shape stays the current path.
void Painter::fill_pattern(const Fill& fill, const Rect& bounds) {
  cairo_path_t* shape = cairo_copy_path(cairo_);
  double x1 = 0, y1 = 0, x2 = 0, y2 = 0;
  cairo_clip_extents(cairo_, &x1, &y1, &x2, &y2);
  const double left = std::max(bounds.x, x1), top = std::max(bounds.y, y1);
  const Rect seen{left, top, std::min(bounds.right(), x2) - left,
                  std::min(bounds.bottom(), y2) - top};
  cairo_save(cairo_);
  cairo_clip(cairo_);
  if (seen.w > 0 && seen.h > 0) {
    const HatchMarks marks = marks_of(fill, seen);
    set(fill.colour);
    cairo_set_line_width(cairo_, fill.width);
    for (const auto& line : marks.lines) {
      cairo_new_sub_path(cairo_);
      for (const Place& p : line) cairo_line_to(cairo_, p.x, p.y);
    }
    cairo_stroke(cairo_);
    for (const Place& p : marks.dots) {
      cairo_new_sub_path(cairo_);
      cairo_arc(cairo_, p.x, p.y, kDotRadius * fill.width, 0, 2 * std::numbers::pi);
    }
    cairo_set_fill_rule(cairo_, CAIRO_FILL_RULE_WINDING);
    cairo_fill(cairo_);
  }
  cairo_restore(cairo_);
  cairo_new_path(cairo_);
  cairo_append_path(cairo_, shape);
  cairo_path_destroy(shape);
}

void Painter::draw(const Tag& tag) {
  if (pdf_ == nullptr) return;
  const std::string name(pdf_name(tag.role));
  if (tag.opens)
    cairo_tag_begin(cairo_, name.c_str(), "");
  else
    cairo_tag_end(cairo_, name.c_str());
}

// Cairo 1.16 lists a destination only where its place is given, in points.
void Painter::draw(const Target& target) {
  if (pdf_ == nullptr) return;
  const std::string attributes = "name='" + in_quotes(target.name) +
                                 "' x=" + number(target.at.x * kPointsPerMillimetre) +
                                 " y=" + number(target.at.y * kPointsPerMillimetre);
  cairo_tag_begin(cairo_, CAIRO_TAG_DEST, attributes.c_str());
  cairo_tag_end(cairo_, CAIRO_TAG_DEST);
}

// Bookmarks need their parents' numbers, which only the whole document knows: see pdf.cpp.
void Painter::draw(const Bookmark&) {}

}  // namespace rootstead::layout
