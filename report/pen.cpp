#include "report/pen.hpp"

namespace rootstead::layout {
namespace {

double left_of(double x, double width, Align align) {
  if (align == Align::left) return x;
  return align == Align::centre ? x - width / 2 : x - width;
}

// Steps back over the bytes of one UTF-8 character.
void drop_last_character(std::string& text) {
  while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xC0) == 0x80) text.pop_back();
  if (!text.empty()) text.pop_back();
}

}  // namespace

void Pen::add(std::variant<Text, Path, Disc, Tag, Target, Bookmark> what, const std::string& name) {
  page_->elements.push_back({std::move(what), name, clip_});
}

Rect Pen::text(Place at, const std::string& text, const TextStyle& style, const std::string& name,
               const std::string& link) {
  const Size size = measure(text, style);
  const Rect box{left_of(at.x, size.w, style.align), at.y, size.w, size.h};
  TextStyle plain = style;
  plain.align = Align::left;  // the box already stands where it should
  if (!text.empty()) add(Text{box, text, plain, false, false, link}, name);
  return box;
}

Rect Pen::block(Place at, double width, const std::string& text, const TextStyle& style,
                const std::string& name, const std::string& link) {
  const Size size = measure(text, style, width);
  const Rect box{at.x, at.y, width, size.h};
  if (!text.empty()) add(Text{box, text, style, true, false, link}, name);
  return box;
}

Rect Pen::turned_text(Place at, const std::string& text, const TextStyle& style,
                      const std::string& name) {
  const Size size = measure(text, style);
  const Rect box{at.x, at.y - size.w, size.h, size.w};
  add(Text{box, text, style, false, true, {}}, name);
  return box;
}

std::string Pen::shortened(const std::string& text, const TextStyle& style, double width) const {
  if (measure(text, style).w <= width) return text;
  std::string cut = text;
  while (!cut.empty() && measure(cut + "…", style).w > width) drop_last_character(cut);
  return cut + "…";
}

void Pen::line(Place from, Place to, const Stroke& stroke, const std::string& name) {
  polyline({from, to}, stroke, name);
}

void Pen::polyline(std::vector<Place> places, const Stroke& stroke, const std::string& name) {
  add(Path{{std::move(places)}, false, stroke, {}}, name);
}

void Pen::rect(const Rect& r, const Stroke& stroke, const Fill& fill, const std::string& name) {
  shape({{{r.x, r.y}, {r.right(), r.y}, {r.right(), r.bottom()}, {r.x, r.bottom()}}}, stroke, fill,
        name);
}

void Pen::shape(std::vector<std::vector<Place>> rings, const Stroke& stroke, const Fill& fill,
                const std::string& name) {
  add(Path{std::move(rings), true, stroke, fill}, name);
}

void Pen::disc(Place centre, double radius, const Stroke& stroke, const Fill& fill,
               const std::string& name) {
  add(Disc{centre, radius, stroke, fill}, name);
}

void Pen::target(const std::string& name, Place at) {
  add(Target{name, at});
}

void Pen::bookmark(int level, const std::string& title, const std::string& target) {
  add(Bookmark{level, title, target});
}

}  // namespace rootstead::layout
