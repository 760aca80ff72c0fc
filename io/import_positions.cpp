// Where the trees of a source stand.
#include <ogr_geometry.h>

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "io/import_shapes.hpp"
#include "io/import_trees.hpp"

namespace rootstead::io {

void TreeReader::read_position(const Record& record, Tree& tree) {
  if (drawn_) {
    if (const auto at = drawn_position(record, tree)) {
      if (!tree.position) tree.position = Position{};
      tree.position->at = *at;
      if (!georeference_.in_area(*at))
        log_.add(NoteCode::outside_site, label_,
                 "the position lies outside the area of the project's coordinate system",
                 "check the coordinates and their system");
      return;
    }
  } else {
    bool bad = false;
    if (const auto at = written_position(record, bad)) {
      tree.position = Position{};
      placed_.push_back(trees_.size());
      raw_.push_back(*at);
      return;
    }
    if (bad) return;
  }
  log_.add_blocking(NoteCode::position_missing, label_, "the tree has no position",
                    "give its coordinates, or place it on the plan");
}

std::optional<Point> TreeReader::written_position(const Record& record, bool& bad) {
  const auto pair_of = [&](Field first, Field second) -> std::optional<Point> {
    const std::string_view a = table_.text(record, first), b = table_.text(record, second);
    if (a.empty() && b.empty()) return std::nullopt;
    const auto x = coordinate_from(a), y = coordinate_from(b);
    if (x && y) return Point{*x, *y};
    bad = true;
    unreadable(record, x ? second : first, "coordinate", "write a plain number such as 430035.12");
    return std::nullopt;
  };
  std::optional<Point> at;
  if (table_.has(Field::easting)) at = pair_of(Field::easting, Field::northing);
  if (!at && table_.has(Field::longitude)) at = pair_of(Field::longitude, Field::latitude);
  for (const Field field : {Field::lat_lon, Field::lon_lat, Field::wkt}) {
    const std::string_view text = table_.text(record, field);
    if (at || text.empty()) continue;
    at = field == Field::wkt ? point_of_wkt(text)
                             : latitude_longitude_from(text, field == Field::lon_lat);
    if (at) continue;
    bad = true;
    unreadable(record, field, "position",
               field == Field::wkt ? "write POINT (x y)" : "write \"49.2595, -123.2488\"");
  }
  if (at && at->x == 0 && at->y == 0) {
    bad = true;
    log_.add_blocking(NoteCode::position_missing, label_, "the coordinates are 0, 0",
                      "give its coordinates, or leave the cells empty");
    return std::nullopt;
  }
  return at;
}

// A point as it is; the centre of a circle or outline drawn for the tree.
std::optional<Point> TreeReader::drawn_position(const Record& record, Tree& tree) {
  if (!record.shape || record.shape->empty()) return std::nullopt;
  const Shape& shape = *record.shape;
  if (!shape.points.empty()) {
    if (shape.points.size() > 1)
      log_.add(
          NoteCode::shape_doubtful, label_,
          "the tree has " + std::to_string(shape.points.size()) + " points; the first is taken",
          "draw one point a tree");
    return shape.points.front();
  }
  tree.position = Position{};
  const Ring& outline = !shape.areas.empty() ? shape.areas.front().outer : shape.lines.front();
  if (const auto circle = circle_through(outline)) {
    tree.position->source =
        "centre of a circle of radius " + fixed_number(circle->radius.metres(), 2) + " m";
    return circle->centre;
  }
  tree.position->source = "centre of an outline";
  if (!shape.areas.empty()) return centroid_of(shape.areas.front());
  const Box box = box_of(outline);
  return Point{(box.min_x + box.max_x) / 2, (box.min_y + box.max_y) / 2};
}

void TreeReader::place_trees() {
  std::vector<Point> points = raw_;
  georeference_.to_project(points);
  for (std::size_t i = 0; i < placed_.size(); ++i) {
    Tree& tree = trees_[placed_[i]];
    const std::string place = subject(Record{{}, tree.origin.place, {}, {}}, tree);
    if (!std::isfinite(points[i].x) || !std::isfinite(points[i].y)) {
      tree.position.reset();
      log_.add_blocking(NoteCode::position_missing, place,
                        "the coordinates cannot be brought to the project's system",
                        "check the coordinates and their system");
      continue;
    }
    tree.position->at = points[i];
    if (!georeference_.in_area(points[i]))
      log_.add(NoteCode::outside_site, place,
               "the position lies outside the area of the project's coordinate system",
               "check the coordinates and their system");
  }
  if (!raw_.empty()) georeference_.report(log_);
  georeference_.report_exchanged(raw_, log_);
}

std::vector<Tree> TreeReader::finish() {
  place_trees();
  report_girth_under_diameter_header();
  UniqueIds ids;
  for (std::size_t i = 0; i < trees_.size(); ++i) {
    Tree& tree = trees_[i];
    const bool named = !tree.id.empty() || !tree.tag.empty();
    if (!named && (table_.has(Field::id) || table_.has(Field::tag)))
      log_.add(NoteCode::tag_missing, tree.origin.place, "the tree has no id and no tag",
               "give it the tag that is on its label");
    const std::string& own = tree.id.empty() ? tree.tag : tree.id;
    tree.id = ids.give(own.empty() ? spare_ids_[i] : own, tree.origin.place, log_);
  }
  return std::move(trees_);
}

std::optional<Circle> circle_through(const Ring& points) {
  constexpr std::size_t kFewest = 8;
  constexpr double kResidual = 0.01;  // of the radius
  if (points.size() < kFewest) return std::nullopt;
  // Algebraic least squares about the mean point: x^2 + y^2 = 2 a x + 2 b y + c.
  Point mean;
  for (const Point& p : points) mean = {mean.x + p.x, mean.y + p.y};
  const auto n = static_cast<double>(points.size());
  mean = {mean.x / n, mean.y / n};
  double xx = 0, xy = 0, yy = 0, xz = 0, yz = 0, z = 0;
  for (const Point& p : points) {
    const double x = p.x - mean.x, y = p.y - mean.y, s = x * x + y * y;
    xx += x * x, xy += x * y, yy += y * y, xz += x * s, yz += y * s, z += s;
  }
  const double determinant = xx * yy - xy * xy;
  if (!(determinant > 1e-12 * xx * yy)) return std::nullopt;
  const double a = (xz * yy - yz * xy) / determinant / 2, b = (yz * xx - xz * xy) / determinant / 2;
  const double radius = std::sqrt(z / n + a * a + b * b);
  const Circle circle{{mean.x + a, mean.y + b}, Length::metres(radius)};
  std::array<bool, 4> quadrants{};
  for (const Point& p : points) {
    const double x = p.x - circle.centre.x, y = p.y - circle.centre.y;
    if (std::abs(std::hypot(x, y) - radius) > kResidual * radius) return std::nullopt;
    quadrants[(x < 0 ? 1u : 0u) + (y < 0 ? 2u : 0u)] = true;
  }
  const bool all_round =
      std::all_of(quadrants.begin(), quadrants.end(), [](bool seen) { return seen; });
  return all_round ? std::optional(circle) : std::nullopt;
}

}  // namespace rootstead::io
