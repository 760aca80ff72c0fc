#include "serve/plan_json.hpp"

#include <cmath>

#include "engine/geom/overlay.hpp"
#include "serve/shape_json.hpp"

namespace rootstead::serve {
namespace {

using io::Json;

constexpr int kCircleCorners = 96;  // for the eye: within 0.06 % of the radius

// Several stems are drawn as one of the same cross-section.
Json stem_diameter(const Tree& tree) {
  if (tree.stems.empty()) return nullptr;
  double squares = 0;
  for (const Stem& stem : tree.stems)
    squares += stem.diameter().metres() * stem.diameter().metres();
  return std::sqrt(squares);
}

Json crown_radii(const Tree& tree) {
  if (!tree.crown) return nullptr;
  Json radii = Json::array();
  for (const EnteredLength& radius : tree.crown->radius) radii.push_back(radius.length().metres());
  return radii;
}

}  // namespace

Json tree_on_plan(const Tree& tree) {
  Json at = nullptr;
  if (tree.position) at = to_json(tree.position->at);
  return {{"id", tree.id},
          {"label", tree.label()},
          {"species", tree.botanical_name},
          {"at", std::move(at)},
          {"stem_diameter_m", stem_diameter(tree)},
          {"palm", tree.is_monocot()},
          {"crown", crown_radii(tree)}};
}

Json zone_on_plan(const std::string& tree, const Zone& zone) {
  const MultiPolygon areas =
      zone.outline ? *zone.outline
                   : MultiPolygon{polygon_of({zone.centre, zone.radius}, kCircleCorners)};
  return {{"tree", tree}, {"rule", zone.rule}, {"zone", zone.zone}, {"areas", to_json(areas)}};
}

Json work_on_plan(const Work& work, bool movable) {
  return {{"id", work.id},
          {"name", work.name},
          {"kind", to_text(work.kind)},
          {"state", to_text(work.state)},
          {"method", to_text(work.method)},
          {"movable", movable},
          {"shape", to_json(work.shape)},
          {"footprint", to_json(footprint(work))},
          {"working_room", to_json(footprint(work, true))},
          {"width_m", width_of(work).metres()},
          {"depth_m", depth_of(work).metres()}};
}

Json barrier_on_plan(const Barrier& barrier) {
  return {{"id", barrier.id},
          {"name", barrier.name},
          {"kind", to_text(barrier.kind)},
          {"shape", to_json(barrier.shape)}};
}

Json opening_on_plan(const Evidence& evidence) {
  Json roots = Json::array();
  for (const FoundRoot& root : evidence.roots)
    roots.push_back({{"at", root.at ? Json::array({root.at->x, root.at->y}) : Json(nullptr)},
                     {"depth_m", root.depth ? Json(root.depth->length().metres()) : Json(nullptr)},
                     {"diameter_m", root.diameter.length().metres()},
                     {"alive", root.alive}});
  return {{"id", evidence.id},
          {"tree", evidence.tree.empty() ? Json(nullptr) : Json(evidence.tree)},
          {"kind", to_text(evidence.kind)},
          {"shape", to_json(evidence.shape)},
          {"depth_m", evidence.depth ? Json(evidence.depth->length().metres()) : Json(nullptr)},
          {"roots", std::move(roots)}};
}

}  // namespace rootstead::serve
