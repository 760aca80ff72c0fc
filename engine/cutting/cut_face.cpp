#include "engine/cutting/cut_face.hpp"

#include <array>
#include <cmath>
#include <optional>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/geom/ray.hpp"

namespace rootstead {
namespace {

constexpr int kRays = 720;
constexpr double kStraight = 0.01;   // m: points this near to a line lie on it
constexpr double kLeap = 0.5;        // m, and
constexpr double kLeapShare = 0.25;  // of the distance: neighbours further apart are two lines

Angle azimuth_of(int ray) {
  return Angle::degrees(ray * 360.0 / kRays);
}

struct Hit {
  double distance = 0;
  Point at;
};
using Hits = std::vector<std::optional<Hit>>;  // one a ray

Hits hits_of(const Point& stem, const MultiPolygon& ground, double reach) {
  Hits hits(kRays);
  for (int ray = 0; ray < kRays; ++ray) {
    const auto crossings = ray_crossings(stem, azimuth_of(ray), reach, ground);
    if (crossings.empty()) continue;
    const double out = crossings.front().first;
    hits[static_cast<std::size_t>(ray)] =
        Hit{out, offset(stem, azimuth_of(ray), Length::metres(out))};
  }
  return hits;
}

bool joins(const Hit& a, const Hit& b) {
  return std::abs(a.distance - b.distance) <=
         std::max(kLeap, kLeapShare * std::min(a.distance, b.distance));
}

// Does the ray begin a line: nothing hit before it, or something much nearer or further?
bool begins(const Hits& hits, int ray) {
  const auto& here = hits[static_cast<std::size_t>(ray)];
  const auto& before = hits[static_cast<std::size_t>((ray + kRays - 1) % kRays)];
  return here && !(before && joins(*before, *here));
}

double off_the_line(const Point& from, const Point& to, const Point& at) {
  const double dx = to.x - from.x, dy = to.y - from.y, length = std::hypot(dx, dy);
  if (length <= 0) return std::hypot(at.x - from.x, at.y - from.y);
  return std::abs((at.x - from.x) * dy - (at.y - from.y) * dx) / length;
}

// The same line with the points that lie on it left out.
void straighten(const Line& line, std::size_t from, std::size_t to, Line& kept) {
  std::size_t furthest = from;
  double most = kStraight;
  for (std::size_t i = from + 1; i < to; ++i) {
    const double off = off_the_line(line[from], line[to], line[i]);
    if (off > most) most = off, furthest = i;
  }
  if (furthest != from) {
    straighten(line, from, furthest, kept);
    straighten(line, furthest, to, kept);
  } else {
    kept.push_back(line[to]);
  }
}

Line straightened(const Line& line) {
  Line kept = {line.front()};
  if (line.size() > 1) straighten(line, 0, line.size() - 1, kept);
  return kept;
}

// The run of joined hits that begins at a ray.
Line run_from(const Hits& hits, int first) {
  Line line;
  for (int i = 0; i < kRays; ++i) {
    const auto ray = static_cast<std::size_t>((first + i) % kRays);
    if (!hits[ray] || (i > 0 && begins(hits, static_cast<int>(ray)))) break;
    line.push_back(hits[ray]->at);
  }
  return line;
}

std::vector<Line> lines_of(const Hits& hits) {
  std::vector<Line> lines;
  bool any = false;
  for (int ray = 0; ray < kRays; ++ray) {
    any = any || hits[static_cast<std::size_t>(ray)];
    if (begins(hits, ray)) lines.push_back(run_from(hits, ray));
  }
  if (any && lines.empty()) {  // all round, with nothing between
    lines.push_back(run_from(hits, 0));
    lines.back().push_back(lines.back().front());
  }
  for (Line& line : lines) line = straightened(line);
  std::erase_if(lines, [](const Line& line) { return line.size() < 2; });
  return lines;
}

// Is the hit of this ray no further than those beside it? A straight side has one such ray.
bool comes_nearest(const Hits& hits, int ray) {
  const auto& here = hits[static_cast<std::size_t>(ray)];
  if (!here) return false;
  for (const int beside : {(ray + 1) % kRays, (ray + kRays - 1) % kRays}) {
    const auto& other = hits[static_cast<std::size_t>(beside)];
    if (other && other->distance < here->distance) return false;
  }
  return true;
}

// Of four quarters, the first about the nearest point's direction.
int sides_of(const Hits& hits, int nearest_ray) {
  std::array<bool, 4> met{};
  constexpr int kQuarter = kRays / 4;
  for (int ray = 0; ray < kRays; ++ray) {
    if (!comes_nearest(hits, ray)) continue;
    const int turned = (ray - nearest_ray + kRays + kQuarter / 2) % kRays;
    met[static_cast<std::size_t>(turned / kQuarter)] = true;
  }
  int sides = 0;
  for (const bool one : met) sides += one ? 1 : 0;
  return sides;
}

}  // namespace

CutFace cut_face(const Point& stem, const MultiPolygon& ground, Length reach) {
  CutFace face;
  face.nearest = distance_between(stem, ground).metres();
  if (!(face.nearest <= reach.metres())) return face;
  if (face.nearest <= 0) {
    face.round_the_stem = true;
    face.nearest_at = stem;
    face.sides = 4;
    return face;
  }
  const Hits hits = hits_of(stem, ground, reach.metres());
  int nearest_ray = -1;
  for (int ray = 0; ray < kRays; ++ray) {
    const auto& hit = hits[static_cast<std::size_t>(ray)];
    if (!hit) continue;
    if (nearest_ray < 0 || hit->distance < hits[static_cast<std::size_t>(nearest_ray)]->distance)
      nearest_ray = ray;
  }
  if (nearest_ray < 0) return face;
  face.lines = lines_of(hits);
  for (const Line& line : face.lines) face.length += length_of(line).metres();
  face.towards = azimuth_of(nearest_ray);
  face.nearest_at = hits[static_cast<std::size_t>(nearest_ray)]->at;
  face.sides = sides_of(hits, nearest_ray);
  return face;
}

}  // namespace rootstead
