#include "engine/levels/triangles_in_use.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "engine/geom/measure.hpp"

namespace rootstead {
namespace {

using TriangleCorners = std::array<std::uint32_t, 3>;

// Points at one place are one point: the first of them.
std::vector<std::uint32_t> first_at_place(const std::vector<LevelPoint>& points) {
  std::vector<std::uint32_t> order(points.size());
  std::iota(order.begin(), order.end(), 0U);
  const auto key = [&](std::uint32_t i) { return std::pair(points[i].at.x, points[i].at.y); };
  // Points that no triangle uses may be without a place, and cannot be put in order.
  std::erase_if(order, [&](std::uint32_t i) { return !is_finite(points[i].at); });
  std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
    return key(a) != key(b) ? key(a) < key(b) : a < b;
  });
  std::vector<std::uint32_t> first(points.size());
  std::iota(first.begin(), first.end(), 0U);
  for (std::size_t i = 1; i < order.size(); ++i) {
    if (points[order[i]].at == points[order[i - 1]].at) first[order[i]] = first[order[i - 1]];
  }
  return first;
}

double twice_area(const TriangleMesh& mesh, const TriangleCorners& corners) {
  const Point& a = mesh.points[corners[0]].at;
  const Point& b = mesh.points[corners[1]].at;
  const Point& c = mesh.points[corners[2]].at;
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

// The corners with the smallest first, the turn kept, so that repeats are equal.
TriangleCorners canonical(const TriangleCorners& corners, const std::vector<std::uint32_t>& first) {
  TriangleCorners places{first[corners[0]], first[corners[1]], first[corners[2]]};
  std::rotate(places.begin(), std::min_element(places.begin(), places.end()), places.end());
  return places;
}

}  // namespace

std::optional<MeshFault> fault_of(const TriangleMesh& mesh) {
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    for (const std::uint32_t corner : mesh.triangles[i]) {
      const std::string which = "triangle " + std::to_string(i + 1);
      if (corner >= mesh.points.size()) {
        return MeshFault{which + " names point " + std::to_string(corner + std::size_t{1}) +
                             " and there are " + std::to_string(mesh.points.size()),
                         "ask for the surface again, whole"};
      }
      const LevelPoint& point = mesh.points[corner];
      if (!is_finite(point.at) || !std::isfinite(point.height)) {
        return MeshFault{"point " + std::to_string(corner + std::size_t{1}) + " of " + which +
                             " has no finite place and height",
                         "leave out points that were not measured"};
      }
    }
  }
  return std::nullopt;
}

TrianglesInUse triangles_in_use(const TriangleMesh& mesh) {
  constexpr double kNoArea = 1e-12;  // m2, twice
  const auto first = first_at_place(mesh.points);
  std::vector<std::pair<TriangleCorners, TriangleCorners>> found;  // by places, as they are
  for (TriangleCorners corners : mesh.triangles) {
    const double area = twice_area(mesh, corners);
    if (!(std::abs(area) > kNoArea)) continue;
    if (area < 0) std::swap(corners[1], corners[2]);
    found.emplace_back(canonical(corners, first), corners);
  }
  std::sort(found.begin(), found.end());
  const auto same = [](const auto& a, const auto& b) { return a.first == b.first; };
  found.erase(std::unique(found.begin(), found.end(), same), found.end());

  TrianglesInUse in_use;
  std::vector<std::pair<std::uint32_t, std::uint32_t>> edges;
  for (const auto& [places, corners] : found) {
    in_use.kept.push_back(corners);
    for (std::size_t i = 0; i < 3; ++i) edges.emplace_back(places[i], places[(i + 1) % 3]);
  }
  std::sort(edges.begin(), edges.end());
  for (std::size_t i = 1; i < edges.size(); ++i) in_use.overlapping += edges[i] == edges[i - 1];
  return in_use;
}

}  // namespace rootstead
