#include "report/crew_pictures.hpp"

#include <cmath>

#include "report/one_page.hpp"

namespace rootstead {

using layout::Fill;
using layout::Hatch;
using layout::Pen;
using layout::Place;
using layout::Rect;
using layout::Stroke;

namespace {

const Fill kEarth{.hatch = Hatch::dots, .colour = kBlack, .spacing = 1.5, .width = 0.3};
const Fill kCloth{.hatch = Hatch::crossed, .colour = kBlack, .spacing = 1.0, .width = 0.22};
const Fill kLeafage{.hatch = Hatch::rising, .colour = kBlack, .spacing = 1.4, .width = 0.18};
const Stroke kOutline{.width = 0.5, .colour = kBlack, .round = true};
const Stroke kFine{.width = 0.35, .colour = kBlack, .round = true};
const Stroke kThick{.width = 1.1, .colour = kBlack, .round = true};

// Draws in units of the picture: 100 across, 60 high, from the frame's upper left corner.
class Sketch {
 public:
  Sketch(Pen& pen, const Rect& frame)
      : pen_(pen), frame_(frame), unit_(std::min(frame.w / 100, frame.h / 60)) {}

  Place at(double x, double y) const { return {frame_.x + x * unit_, frame_.y + y * unit_}; }
  double size(double length) const { return length * unit_; }
  void shape(const std::vector<Place>& corners, const Stroke& stroke, const Fill& fill) {
    pen_.shape({places(corners)}, stroke, fill, "picture");
  }
  void line(const std::vector<Place>& corners, const Stroke& stroke) {
    pen_.polyline(places(corners), stroke, "picture");
  }
  void curve(const std::vector<Place>& corners, const Stroke& stroke) {
    line(smooth(corners), stroke);
  }
  void blob(const std::vector<Place>& corners, const Stroke& stroke, const Fill& fill) {
    shape(smooth(corners), stroke, fill);
  }
  void disc(double x, double y, double radius, const Stroke& stroke, const Fill& fill) {
    pen_.disc(at(x, y), size(radius), stroke, fill, "picture");
  }

 private:
  std::vector<Place> places(const std::vector<Place>& corners) const {
    std::vector<Place> all;
    for (const Place& corner : corners) all.push_back(at(corner.x, corner.y));
    return all;
  }

  Pen& pen_;
  Rect frame_;
  double unit_;
};

// A tapering root from one point to another, as a filled shape.
void root(Sketch& sketch, const std::vector<Place>& way, double from, double to) {
  const std::vector<Place> middle = smooth(way);
  std::vector<Place> one, other;
  for (std::size_t i = 0; i < middle.size(); ++i) {
    const Place a = middle[i == 0 ? 0 : i - 1];
    const Place b = middle[i + 1 == middle.size() ? i : i + 1];
    const double length = std::max(1e-6, std::hypot(b.x - a.x, b.y - a.y));
    const double half = (from + (to - from) * double(i) / double(middle.size() - 1)) / 2;
    const double nx = -(b.y - a.y) / length * half, ny = (b.x - a.x) / length * half;
    one.push_back({middle[i].x + nx, middle[i].y + ny});
    other.push_back({middle[i].x - nx, middle[i].y - ny});
  }
  one.insert(one.end(), other.rbegin(), other.rend());
  sketch.shape(one, {}, kSolid);
}

void tree_with_roots(Sketch& sketch, double x, double ground) {
  sketch.blob({{x - 2, 23},
               {x - 18, 24},
               {x - 17, 9},
               {x - 8, 1},
               {x + 8, 1},
               {x + 17, 9},
               {x + 18, 24},
               {x + 2, 23},
               {x - 2, 23}},
              kOutline, kLeafage);
  sketch.shape({{x - 2, 22},
                {x + 2, 22},
                {x + 2.6, ground - 2},
                {x + 5, ground + 1},
                {x - 5, ground + 1},
                {x - 2.6, ground - 2}},
               {}, kSolid);
  root(sketch, {{x - 3, ground + 1}, {x - 10, ground + 5}, {x - 22, ground + 6}}, 2.4, 0.5);
  root(sketch, {{x + 3, ground + 1}, {x + 10, ground + 5}, {x + 23, ground + 7}}, 2.4, 0.5);
  root(sketch, {{x - 1, ground}, {x - 5, ground + 8}, {x - 13, ground + 13}}, 2, 0.5);
  root(sketch, {{x + 1, ground}, {x + 5, ground + 8}, {x + 14, ground + 13}}, 2, 0.5);
}

void fence(Sketch& sketch, double x, double ground) {
  sketch.shape({{x - 1, 17}, {x + 1, 17}, {x + 1, ground + 4}, {x - 1, ground + 4}}, kFine, kBlank);
  sketch.shape({{x - 1, 17}, {x + 1, 17}, {x + 1, ground + 4}, {x - 1, ground + 4}}, {}, kSolid);
  // The stay of the post, on the tree's side.
  sketch.line({{x, 26}, {x - 7, ground}}, kThick);
}

void excavator(Sketch& sketch, double x, double ground) {
  sketch.blob({{x, ground},
               {x - 1, ground - 3},
               {x, ground - 6},
               {x + 12, ground - 6},
               {x + 24, ground - 6},
               {x + 25, ground - 3},
               {x + 24, ground},
               {x + 12, ground},
               {x, ground}},
              kOutline, kBlank);
  for (const double wheel : {4.0, 12.0, 20.0}) sketch.disc(x + wheel, ground - 3, 1.7, {}, kSolid);
  sketch.shape({{x + 6, ground - 17},
                {x + 26, ground - 17},
                {x + 26, ground - 7},
                {x + 2, ground - 7},
                {x + 2, ground - 10},
                {x + 6, ground - 10}},
               {}, kSolid);
  sketch.shape(
      {{x + 6, ground - 17}, {x + 8, ground - 25}, {x + 16, ground - 25}, {x + 16, ground - 17}},
      kOutline, kBlank);
  // The arm reaches away from the fence, the bucket in the ground beyond.
  sketch.line(
      {{x + 20, ground - 16}, {x + 25, ground - 33}, {x + 36, ground - 26}, {x + 37, ground - 6}},
      {.width = 1.7, .colour = kBlack, .round = true});
  sketch.shape({{x + 34, ground - 7},
                {x + 39, ground - 7},
                {x + 38, ground + 1},
                {x + 34, ground + 2},
                {x + 31, ground - 1}},
               {}, kSolid);
}

void drop(Sketch& sketch, double x, double y) {
  sketch.blob({{x, y},
               {x + 0.4, y + 1.2},
               {x + 2.2, y + 4.4},
               {x, y + 6},
               {x - 2.2, y + 4.4},
               {x - 0.4, y + 1.2},
               {x, y}},
              {}, kSolid);
}

void handset(Sketch& sketch, double x, double y) {
  sketch.shape({{x, y}, {x + 13, y}, {x + 13, y + 24}, {x, y + 24}}, kThick, kBlank);
  sketch.shape({{x + 2, y + 4}, {x + 11, y + 4}, {x + 11, y + 18}, {x + 2, y + 18}}, {}, kSolid);
  sketch.disc(x + 6.5, y + 21, 1.3, kFine, kBlank);
  for (const double r : {4.0, 7.0, 10.0}) {
    std::vector<Place> arc;
    for (int step = -4; step <= 4; ++step)
      arc.push_back({x - 1 - r * std::cos(step * 0.18), y + 8 + r * std::sin(step * 0.18)});
    sketch.line(arc, kOutline);
  }
}

}  // namespace

void draw_machine_outside(Pen& pen, const Rect& frame) {
  pen.clipped(frame, [&] {
    Sketch sketch(pen, frame);
    constexpr double kGround = 42;
    sketch.shape({{0, kGround}, {100, kGround}, {100, 60}, {0, 60}}, {}, kEarth);
    sketch.line({{0, kGround}, {100, kGround}}, kThick);
    tree_with_roots(sketch, 23, kGround);
    fence(sketch, 52, kGround);
    excavator(sketch, 58, kGround);
  });
  pen.rect(frame, kOutline, {}, "picture-frame");
}

void draw_hand_digging(Pen& pen, const Rect& frame) {
  pen.clipped(frame, [&] {
    Sketch sketch(pen, frame);
    constexpr double kGround = 22;
    sketch.shape({{0, kGround},
                  {33, kGround},
                  {35, 53},
                  {78, 53},
                  {80, kGround},
                  {100, kGround},
                  {100, 60},
                  {0, 60}},
                 {}, kEarth);
    sketch.line({{0, kGround}, {33, kGround}, {35, 53}, {78, 53}, {80, kGround}, {100, kGround}},
                kThick);
    // Roots bridge the open trench, whole.
    root(sketch, {{0, 26}, {25, 29}, {50, 33}, {75, 32}, {100, 37}}, 6.5, 3.5);
    root(sketch, {{0, 38}, {25, 41}, {50, 45}, {75, 44}, {100, 48}}, 4.2, 2.2);
    root(sketch, {{52, 33}, {58, 38}, {66, 39}, {80, 42}}, 2.2, 0.8);
    // A spade, held upright in the trench's far corner.
    sketch.line({{89, 1}, {70, 26}}, {.width = 1.3, .colour = kBlack, .round = true});
    sketch.line({{85.5, 0.8}, {92, 5.2}}, {.width = 1.6, .colour = kBlack, .round = true});
    sketch.shape({{73.5, 25}, {68.4, 21.4}, {62, 29}, {61.5, 33.5}, {66, 33}}, kFine, kBlank);
    // A brush lies at the edge: roots are cleaned, not scraped.
    sketch.shape({{8, 17}, {23, 17}, {23, 20}, {8, 20}}, {}, kSolid);
    for (double x = 11; x < 23; x += 2) sketch.line({{x, 20}, {x - 0.3, kGround}}, kFine);
  });
  pen.rect(frame, kOutline, {}, "picture-frame");
}

void draw_wet_cover_call(Pen& pen, const Rect& frame) {
  pen.clipped(frame, [&] {
    Sketch sketch(pen, frame);
    constexpr double kGround = 20;
    sketch.shape({{0, kGround}, {26, kGround}, {28, 60}, {0, 60}}, {}, kEarth);
    sketch.line({{0, kGround}, {26, kGround}, {28, 60}}, kThick);
    root(sketch, {{0, 30}, {14, 33}, {30, 36}, {60, 38}}, 8, 7);
    // Wet cloth hangs over the root.
    sketch.blob({{34, 31},
                 {36, 29},
                 {52, 30},
                 {56, 31},
                 {58, 52},
                 {52, 49},
                 {46, 54},
                 {40, 49},
                 {33, 53},
                 {34, 31}},
                kOutline, kBlank);
    sketch.blob({{34, 31},
                 {36, 29},
                 {52, 30},
                 {56, 31},
                 {58, 52},
                 {52, 49},
                 {46, 54},
                 {40, 49},
                 {33, 53},
                 {34, 31}},
                kOutline, kCloth);
    for (const auto& [x, y] :
         {std::pair{38.0, 18.0}, {46.0, 20.0}, {54.0, 17.0}, {42.0, 9.0}, {50.0, 8.0}})
      drop(sketch, x, y);
    handset(sketch, 80, 18);
  });
  pen.rect(frame, kOutline, {}, "picture-frame");
}

void draw_stop_plate(Pen& pen, Place centre, double radius) {
  std::vector<Place> corners;
  for (int i = 0; i < 8; ++i) {
    const double turn = (i + 0.5) * M_PI / 4;
    corners.push_back({centre.x + radius * std::cos(turn), centre.y + radius * std::sin(turn)});
  }
  pen.shape({corners}, {}, kSolid, "stop-plate");
  const layout::TextStyle word{.points = radius * 1.55,
                               .weight = layout::Weight::bold,
                               .colour = kPaper,
                               .align = layout::Align::centre};
  const double high = pen.measure("STOP", word).h;
  pen.text({centre.x, centre.y - high / 2}, "STOP", word, "stop");
}

}  // namespace rootstead
