// Layout: a report as plain data, before any of it is ink. Pages hold elements with measured places
// in millimetres from the upper left corner of the sheet; every test of the report reads this, and
// the writers (paint.hpp) only carry it out.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace rootstead::layout {

inline constexpr double kPointsPerMillimetre = 72 / 25.4;

struct Place {
  double x = 0, y = 0;  // mm, y downward
};

struct Rect {
  double x = 0, y = 0, w = 0, h = 0;
  double right() const { return x + w; }
  double bottom() const { return y + h; }
  Place centre() const { return {x + w / 2, y + h / 2}; }
  Rect shrunk(double by) const { return {x + by, y + by, w - 2 * by, h - 2 * by}; }
  bool contains(const Rect& other, double slack = 0) const;
  // Boxes that only touch do not overlap; nor do those that share less than `slack`.
  bool overlaps(const Rect& other, double slack = 0) const;
};

struct Colour {
  double red = 0, green = 0, blue = 0;  // 0 to 1
  friend bool operator==(const Colour&, const Colour&) = default;
};

enum class Weight { light, regular, medium, bold };
enum class Align { left, centre, right };

struct TextStyle {
  double points = 9;
  Weight weight = Weight::regular;
  bool italic = false;
  bool tabular = false;  // figures of one width, for columns
  bool display = false;  // the drawing of the face made for large sizes
  Colour colour;
  Align align = Align::left;
  double leading = 1.0;  // of the face's own line height
};

// `box` is what the text measured; lines wrap at its width only where `wraps` is set. A quarter
// turned text reads upward, its box is that of the turned text.
struct Text {
  Rect box;
  std::string text;
  TextStyle style;
  bool wraps = false;
  bool turned = false;
  std::string link;  // name of a Target, empty for none
};

struct Stroke {
  double width = 0;  // mm; 0 draws nothing
  Colour colour;
  std::vector<double> dash = {};  // mm on, mm off, ...
  bool round = false;             // round ends and corners
};

// Patterns carry the meaning, so that a black-and-white copy loses nothing.
enum class Hatch {
  none,
  solid,
  rising,    // lines to the upper right
  falling,   // lines to the lower right
  crossed,   // both
  level,     // lines across
  upright,   // lines down
  squares,   // level and upright
  bricks,    // courses with joints
  dashes,    // broken lines across, staggered
  dots,      // staggered
  chevrons,  // zigzags across
};

struct Fill {
  Hatch hatch = Hatch::none;
  Colour colour;
  double spacing = 1.5;  // mm between lines
  double width = 0.13;   // mm of each line
};

// Rings of one shape, filled by the even-odd rule; open paths are only stroked.
struct Path {
  std::vector<std::vector<Place>> rings;
  bool closed = true;
  Stroke stroke;
  Fill fill;
};

struct Disc {
  Place centre;
  double radius = 0;
  Stroke stroke;
  Fill fill;
};

// Roles a screen reader is told; the names are those of PDF 1.7 (ISO 32000-1, 14.8.4).
enum class Role {
  document,
  section,
  heading1,
  heading2,
  heading3,
  paragraph,
  list,
  list_item,
  table,
  row,
  header_cell,
  cell,
  figure,
  caption,
};
std::string_view pdf_name(Role role);  // "H1", "TD" ...

struct Tag {
  Role role = Role::paragraph;
  bool opens = true;  // every opening tag is closed on the same page
};

struct Target {
  std::string name;
  Place at;
};

struct Bookmark {
  int level = 1;
  std::string title;
  std::string target;
};

struct Element {
  std::variant<Text, Path, Disc, Tag, Target, Bookmark> what;
  std::string name;          // what it shows, "stem:T12", "symbol:trench"; for tests and legends
  std::optional<Rect> clip;  // nothing is drawn outside
};

struct Page {
  double width = 210, height = 297;
  std::vector<Element> elements;
  Rect sheet() const { return {0, 0, width, height}; }
};

struct Document {
  std::string title, author, subject, keywords;
  std::string created;  // ISO 8601, "2026-11-25T00:00:00Z"
  std::vector<Page> pages;
};

// The lines and dots of a pattern over a rectangle. They hang on the page's own corner, so that
// neighbouring shapes of one kind run into each other.
struct HatchMarks {
  std::vector<std::vector<Place>> lines;
  std::vector<Place> dots;
};
HatchMarks marks_of(const Fill& fill, const Rect& over);

Rect bounds_of(const Path& path);

}  // namespace rootstead::layout
