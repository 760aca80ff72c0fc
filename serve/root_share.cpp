#include "serve/root_share.hpp"

#include <algorithm>
#include <cmath>

#include "engine/roots/root_model.hpp"
#include "serve/shape_json.hpp"

namespace rootstead::serve {
namespace {

using io::Json;

constexpr double kFinestCell = 0.2;  // m: the grid of the root model itself

Json profile_point(double metres, const Range& share) {
  return {{"m", metres}, {"share", io::to_json(share)}};
}

}  // namespace

Result<Json> root_tint(const Snapshot& snapshot, const std::string& id) {
  ROOTSTEAD_TRY(const Tree* tree, snapshot.tree(id));
  ROOTSTEAD_TRY(const auto model, root_model(*tree, snapshot.site, snapshot.tables));
  const double extent = model->likely_extent().metres();
  const double cell = std::max(kFinestCell, 2 * extent / kMostTintCells);
  const int side = std::clamp(int(std::ceil(2 * extent / cell - 1e-9)), 1, kMostTintCells);
  const Point stem = tree->position->at;
  const Point corner{stem.x - side * cell / 2, stem.y - side * cell / 2};
  Json shares = Json::array();
  for (int row = 0; row < side; ++row)
    for (int column = 0; column < side; ++column)
      shares.push_back(
          model->plan_density({corner.x + (column + 0.5) * cell, corner.y + (row + 0.5) * cell}));
  return Json{{"tree", tree->id},
              {"at", to_json(corner)},
              {"cell_m", cell},
              {"columns", side},
              {"rows", side},
              {"share_per_m2", std::move(shares)},
              {"status", to_text(Status::assumption)}};
}

Result<Json> root_profiles(const Snapshot& snapshot, const std::string& id) {
  ROOTSTEAD_TRY(const Tree* tree, snapshot.tree(id));
  ROOTSTEAD_TRY(const auto model, root_model(*tree, snapshot.site, snapshot.tables));
  const RootSimulation& how = snapshot.assessment.simulation;
  const double reach = model->estimate(how).extent_m.high;
  constexpr int kSteps = 20;
  constexpr double kDepthStep = 0.1, kDeepest = 2, kEverywhere = 1000;  // m
  Json by_depth = Json::array(), by_distance = Json::array();
  by_depth.push_back(profile_point(0, {}));
  for (int i = 1; i * kDepthStep <= kDeepest + 1e-9; ++i) {
    const Range share =
        model->share_in_cylinder(Length::metres(kEverywhere), Length::metres(i * kDepthStep), how);
    by_depth.push_back(profile_point(i * kDepthStep, share));
    if (share.low >= 1) break;
  }
  by_distance.push_back(profile_point(0, {}));
  for (int i = 1; i <= kSteps; ++i) {
    const double metres = reach * i / kSteps;
    by_distance.push_back(profile_point(
        metres,
        model->share_in_cylinder(Length::metres(metres), Length::metres(kEverywhere), how)));
  }
  return Json{
      {"tree", tree->id},
      {"by_depth", std::move(by_depth)},
      {"by_distance", std::move(by_distance)},
      {"note", "Shares of the absorbing roots, of " + std::to_string(how.draws) +
                   " root systems drawn from published averages: this tree's own roots differ. "
                   "Low, best and high are the 10th, 50th and 90th percentile (" +
                   std::string(to_text(Status::assumption)) + ")."}};
}

}  // namespace rootstead::serve
