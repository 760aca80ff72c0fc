#include "serve/section_roots.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/geom/measure.hpp"

namespace rootstead::serve {
namespace {

// One run of a line, with the chainage at which it begins.
struct Run {
  Point from;
  double ux = 1, uy = 0, length = 0, begins = 0;
  double along(const Place3& p) const { return (p.x - from.x) * ux + (p.y - from.y) * uy; }
  double aside(const Place3& p) const { return (p.x - from.x) * uy - (p.y - from.y) * ux; }
};

// Narrows the part [first, second] of a way to where it lies between two bounds; false where
// nothing is left. `a` and `b` are the values at its ends.
bool narrow(double a, double b, double low, double high, std::pair<double, double>& part) {
  if (a == b) return a >= low && a <= high;
  double in = (low - a) / (b - a), out = (high - a) / (b - a);
  if (in > out) std::swap(in, out);
  part = {std::max(part.first, in), std::min(part.second, out)};
  return part.first < part.second;
}

std::optional<LaidRoot> laid(const Run& run, double half, const RootPiece& piece) {
  std::pair<double, double> part{0, 1};
  const double a = run.along(piece.from), b = run.along(piece.to);
  if (!narrow(a, b, 0, run.length, part)) return std::nullopt;
  if (!narrow(run.aside(piece.from), run.aside(piece.to), -half, half, part)) return std::nullopt;
  const auto [first, last] = part;
  const double middle = (first + last) / 2;
  return LaidRoot{run.begins + std::lerp(a, b, first),
                  run.begins + std::lerp(a, b, last),
                  std::lerp(piece.from.z, piece.to.z, first),
                  std::lerp(piece.from.z, piece.to.z, last),
                  std::lerp(piece.thickness_from, piece.thickness_to, middle),
                  0};
}

}  // namespace

std::vector<LaidRoot> laid_into(const Line& line, Length half_width, const RootSystem& roots) {
  std::vector<LaidRoot> all;
  double begins = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double length = distance(line[i - 1], line[i]).metres();
    if (!(length > 0)) continue;
    const Run run{line[i - 1], (line[i].x - line[i - 1].x) / length,
                  (line[i].y - line[i - 1].y) / length, length, begins};
    begins += length;
    for (std::size_t k = 0; k < roots.pieces.size(); ++k) {
      auto root = laid(run, half_width.metres(), roots.pieces[k]);
      if (!root) continue;
      root->piece = k;
      all.push_back(*root);
    }
  }
  return all;
}

}  // namespace rootstead::serve
