// Carries out the elements of a page on a Cairo context. Private to the report room.
#pragma once

#include "report/layout.hpp"
#include "report/pango_text.hpp"

namespace rootstead::layout {

class Painter {
 public:
  // `cairo` counts in points. Tags, targets, links and bookmarks go to the PDF only.
  Painter(cairo_t* cairo, cairo_surface_t* pdf);
  void paint(const Page& page);

 private:
  void draw(const Text& text);
  void draw(const Path& path);
  void draw(const Disc& disc);
  void draw(const Tag& tag);
  void draw(const Target& target);
  void draw(const Bookmark& bookmark);
  void fill_and_stroke(const Fill& fill, const Stroke& stroke, const Rect& bounds);
  void fill_pattern(const Fill& fill, const Rect& bounds);
  void set(const Colour& colour);

  cairo_t* cairo_;
  cairo_surface_t* pdf_;  // null for pictures
  PangoContextPtr context_;
};

}  // namespace rootstead::layout
