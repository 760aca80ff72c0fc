#include "engine/protection/protection_plan.hpp"

#include "engine/geom/overlay.hpp"
#include "engine/protection/access.hpp"
#include "engine/protection/digging.hpp"
#include "engine/protection/enclosing.hpp"
#include "engine/protection/fencing.hpp"
#include "engine/protection/ground_cover.hpp"
#include "engine/protection/steps.hpp"

namespace rootstead {
namespace {

void add_notes(const PlanGround& ground, ProtectionPlan& plan) {
  plan.notes = ground.notes;
  if (ground.boundary.empty())
    plan.notes.push_back({NoteCode::boundary_unknown, "site",
                          "The boundary is not known: fences may stand on ground that is not the "
                          "client's."});
  for (const CoveredGround& cover : plan.covers) {
    if (cover.load_assumed)
      plan.notes.push_back({NoteCode::load_assumed, cover.id,
                            "No vehicle is on record for it: the heaviest class was taken."});
  }
  for (const Fence& fence : plan.fences) {
    if (fence.stretches.size() == 1 && fence.stretches[0].footing == Footing::driven) continue;
    plan.notes.push_back({NoteCode::line_left_to_the_site, fence.id,
                          "Part of it stands over root plates: feet are placed by eye on site, on "
                          "the ground and off the roots."});
  }
}

}  // namespace

Result<ProtectionPlan> protection_plan(const Site& site, const Tables& tables,
                                       const Assessment& assessment,
                                       const ProtectionOptions& options) {
  if (site.trees.empty())
    return Error{Code::empty_geometry, "project", "it has no trees to protect",
                 "add a tree survey first"};
  const PlanGround ground = plan_ground(site, tables, assessment, options);
  Enclosing enclosing = enclosing_of(site, ground);
  ProtectionPlan plan;
  plan.not_kept = ground.not_kept;
  plan.fences = fences_of(enclosing.enclosures, ground);
  const Access access = access_of(site, ground, areas_of(enclosing.enclosures), {});
  plan.gates = gates_of(enclosing.enclosures, plan.fences, site, ground, access.reached);
  set_posts(plan.fences, plan.gates, ground);
  plan.signs = signs_of(plan.fences, ground.figures.sign_spacing);
  plan.covers = covers_of(enclosing, ground);
  plan.no_dig = no_dig_areas(ground);
  if (options.mulch) plan.mulch = mulch_of(enclosing.enclosures, ground);
  plan.trees = protected_trees(enclosing.enclosures, plan.covers, ground);
  plan.guards = guards_of(enclosing.enclosures, ground);
  plan.root_cuts = root_cut_lines(ground);
  plan.digs = dig_stretches(ground);
  plan.bores = bore_passages(ground);
  plan.enclosures = std::move(enclosing.enclosures);
  plan.ways = std::move(enclosing.ways);
  plan.steps = steps_of(plan);
  plan.inspections = inspections_of(plan, tables, options.months);
  plan.bill = bill_of(plan, tables);
  plan.clashes = find_clashes(plan, site, tables, assessment, options);
  add_notes(ground, plan);
  plan.prescriptions = prescriptions_of(plan, site, tables, options.units);
  return plan;
}

}  // namespace rootstead
