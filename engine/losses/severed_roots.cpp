#include "engine/losses/severed_roots.hpp"

#include <algorithm>
#include <cmath>

#include "engine/geom/measure.hpp"
#include "engine/geom/ray.hpp"
#include "engine/losses/losses.hpp"

namespace rootstead {
namespace {

constexpr double kUpright = 1e-6;  // m: a piece of no greater extent in plan stands upright

struct Cut {
  MultiPolygon ground;
  Box box;
  double bottom = 0;
};

std::vector<Cut> cuts_of(const Site& site) {
  std::vector<Cut> cuts;
  for (const Work& work : site.works) {
    if (work.shape.empty() || !is_new(work) || !severs(work)) continue;
    MultiPolygon ground = footprint(work);
    if (ground.empty()) continue;
    const Box box = box_of(ground);
    cuts.push_back({std::move(ground), box, severed_depth(work).metres()});
  }
  return cuts;
}

bool apart(const RootPiece& piece, const Box& box) {
  return std::max(piece.from.x, piece.to.x) < box.min_x ||
         std::min(piece.from.x, piece.to.x) > box.max_x ||
         std::max(piece.from.y, piece.to.y) < box.min_y ||
         std::min(piece.from.y, piece.to.y) > box.max_y;
}

bool passes(const RootPiece& piece, const Cut& cut) {
  if (apart(piece, cut.box)) return false;
  const Point from{piece.from.x, piece.from.y}, to{piece.to.x, piece.to.y};
  const double run = distance(from, to).metres();
  const auto in_depth = [&](double a, double b) {  // shares of the way along the piece
    const double za = std::lerp(piece.from.z, piece.to.z, a);
    const double zb = std::lerp(piece.from.z, piece.to.z, b);
    return std::max(za, zb) >= 0 && std::min(za, zb) < cut.bottom;
  };
  if (run <= kUpright) return contains(cut.ground, from) && in_depth(0, 1);
  const auto inside = ray_crossings(from, azimuth(from, to), run, cut.ground);
  return std::any_of(inside.begin(), inside.end(), [&](const auto& part) {
    return in_depth(part.first / run, part.second / run);
  });
}

}  // namespace

std::vector<bool> severed_pieces(const RootSystem& roots, const Site& site) {
  const std::vector<Cut> cuts = cuts_of(site);
  std::vector<bool> severed;
  severed.reserve(roots.pieces.size());
  for (const RootPiece& piece : roots.pieces) {
    const bool parent = piece.parent >= 0 && severed[static_cast<std::size_t>(piece.parent)];
    severed.push_back(parent || std::any_of(cuts.begin(), cuts.end(),
                                            [&](const Cut& cut) { return passes(piece, cut); }));
  }
  return severed;
}

}  // namespace rootstead
