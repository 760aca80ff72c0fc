// The bill of quantities: every number measured on the plan's own geometry, nothing typed in.
#include <algorithm>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/protection/fencing.hpp"
#include "engine/protection/protection_plan.hpp"

namespace rootstead {
namespace {

class Bill {
 public:
  // An item is written once, however many parts are measured for it.
  void measure(std::string_view name, std::string_view text, std::string_view unit, double quantity,
               const std::string& part, const Citation& from) {
    const auto at = std::find_if(items_.begin(), items_.end(),
                                 [&](const BillItem& item) { return item.name == name; });
    if (at == items_.end()) {
      items_.push_back(
          {std::string(name), std::string(text), std::string(unit), quantity, {part}, from});
      return;
    }
    at->quantity += quantity;
    if (at->parts.empty() || at->parts.back() != part) at->parts.push_back(part);
    at->from.status = weaker(at->from.status, from.status);
  }
  std::vector<BillItem> take() && { return std::move(items_); }

 private:
  std::vector<BillItem> items_;
};

const Citation kGeometry{"plane-geometry", "lengths and areas of the plan", Status::published};
const Citation kOurs{"rootstead", "docs/methods/protection.md", Status::assumption};

// Of a stretch, what no gate takes.
double fenced_metres(const FenceStretch& stretch, const Fence& fence, const ProtectionPlan& plan) {
  double metres = (stretch.to - stretch.from).metres();
  for (const auto& [from, to] : openings_in(fence, plan.gates)) {
    const double shared = std::min(to, stretch.to.metres()) - std::max(from, stretch.from.metres());
    metres -= std::max(0.0, shared);
  }
  return metres;
}

void measure_fences(const ProtectionPlan& plan, const Tables& tables, Bill& bill) {
  const Citation& height = tables.parameter("protection.fence_height").from;
  for (const Fence& fence : plan.fences) {
    for (const FenceStretch& stretch : fence.stretches) {
      const bool driven = stretch.footing == Footing::driven;
      bill.measure(driven ? "fence-driven" : "fence-ballasted",
                   driven ? "Fence on driven posts, gates not counted"
                          : "Fence on ballasted feet, nothing driven, gates not counted",
                   "m", fenced_metres(stretch, fence, plan), fence.id, height);
    }
  }
  const Citation& spacing = tables.parameter("protection.post_spacing").from;
  for (const Fence& fence : plan.fences) {
    for (const FencePost& post : fence.posts) {
      const bool driven = post.footing == Footing::driven;
      bill.measure(driven ? "posts-driven" : "posts-ballasted",
                   driven ? "Posts, driven" : "Posts on ballasted feet", "no", 1, fence.id,
                   spacing);
    }
  }
  for (const FenceGate& gate : plan.gates) {
    const bool people = gate.use == GateUse::people;
    bill.measure(people ? "gates-people" : "gates-machines",
                 people ? "Gates for people" : "Gates for machines", "no", 1, gate.id, kOurs);
  }
  const Citation& signs = tables.parameter("protection.sign_spacing").from;
  for (const Sign& sign : plan.signs)
    bill.measure("signs", "Signs on the fences", "no", 1, sign.fence, signs);
}

std::string cover_name(LoadClass load) {
  std::string name = "cover-" + std::string(to_text(load));
  std::replace(name.begin(), name.end(), ' ', '-');
  return name;
}

std::string cover_text(LoadClass load) {
  switch (load) {
    case LoadClass::foot:
      return "Ground protection for people on foot";
    case LoadClass::light_plant:
      return "Ground protection for light plant";
    case LoadClass::heavy:
      return "Ground protection for heavier plant, as designed";
  }
  return {};
}

void measure_ground(const ProtectionPlan& plan, const Tables& tables, Bill& bill) {
  const Citation& classes = tables.parameter("protection.light_plant_mass").from;
  for (const CoveredGround& cover : plan.covers)
    bill.measure(cover_name(cover.load), cover_text(cover.load), "m2",
                 area_of(cover.area).square_metres(), cover.id, classes);
  for (const NoDigArea& area : plan.no_dig)
    bill.measure("no-dig", "Paving built on the ground as it lies", "m2",
                 area_of(area.area).square_metres(), area.work, kGeometry);
  const Parameter& depth = tables.parameter("protection.mulch_depth");
  const double mulch = area_of(plan.mulch).square_metres();
  if (mulch <= 0) return;
  bill.measure("mulch-area", "Mulch on bare ground inside the fences", "m2", mulch, "site",
               kGeometry);
  bill.measure("mulch-volume", "Mulch, loose", "m3", mulch * depth.best, "site", depth.from);
}

void measure_digging(const ProtectionPlan& plan, Bill& bill) {
  for (const RootCutLine& cut : plan.root_cuts)
    bill.measure("root-cut", "Root-cut lines opened by hand or air", "m",
                 length_of(cut.line).metres(), cut.id, kGeometry);
  for (const DigStretch& dig : plan.digs) {
    const bool air = dig.method == DigMethod::air;
    bill.measure(air ? "dig-air" : "dig-hand", air ? "Digging with air" : "Digging by hand", "m",
                 (dig.to - dig.from).metres(), dig.id, kGeometry);
  }
  for (const BorePassage& bore : plan.bores)
    bill.measure("bore", "Boring beneath the ground of kept trees", "m",
                 (bore.to - bore.from).metres(), bore.work, kGeometry);
}

}  // namespace

std::vector<BillItem> bill_of(const ProtectionPlan& plan, const Tables& tables) {
  Bill bill;
  measure_fences(plan, tables, bill);
  measure_ground(plan, tables, bill);
  measure_digging(plan, bill);
  const Citation& guard = tables.parameter("protection.guard_height").from;
  for (const StemGuard& one : plan.guards)
    bill.measure("guards", "Trunk guards", "no", 1, one.tree, guard);
  for (const Inspection& visit : plan.inspections)
    bill.measure("inspections", "Inspections by the arborist, several in one visit", "no",
                 visit.visits, visit.trigger, visit.from);
  return std::move(bill).take();
}

std::vector<Figure> figures_of(const ProtectionPlan& plan) {
  std::vector<Figure> figures;
  for (const BillItem& item : plan.bill) {
    Figure figure;
    figure.name = "protection." + item.name;
    figure.value = item.quantity;
    figure.unit = item.unit == "no" ? "" : item.unit;
    figure.inputs = {{"parts", item.text, joined(item.parts, ", ")}};
    figure.formula = item.unit == "no"   ? "counted on the plan"
                     : item.unit == "m"  ? "sum of the lengths of the parts"
                     : item.unit == "m3" ? "area times depth"
                                         : "sum of the areas of the parts";
    figure.from = item.from;
    figures.push_back(std::move(figure));
  }
  return figures;
}

}  // namespace rootstead
