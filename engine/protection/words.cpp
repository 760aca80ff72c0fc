#include "engine/base/words.hpp"
#include "engine/geom/measure.hpp"
#include "engine/protection/plan_parts.hpp"

namespace rootstead {
namespace {

constexpr Words<Footing, 2> kFootings = {
    {{Footing::driven, "driven"}, {Footing::ballasted, "ballasted"}}};
constexpr Words<GateUse, 2> kGateUses = {
    {{GateUse::people, "people"}, {GateUse::machines, "machines"}}};
constexpr Words<LoadClass, 3> kLoads = {{{LoadClass::foot, "foot"},
                                         {LoadClass::light_plant, "light plant"},
                                         {LoadClass::heavy, "heavy"}}};
constexpr Words<ClashKind, 11> kClashes = {
    {{ClashKind::fence_in_work, "fence in work"},
     {ClashKind::outside_boundary, "outside boundary"},
     {ClashKind::tree_unprotected, "tree unprotected"},
     {ClashKind::access_missing, "access missing"},
     {ClashKind::cover_on_excavation, "cover on excavation"},
     {ClashKind::fence_near_stem, "fence near stem"},
     {ClashKind::fences_cross, "fences cross"},
     {ClashKind::enclosure_without_gate, "enclosure without gate"},
     {ClashKind::fence_in_building, "fence in building"},
     {ClashKind::fence_gap, "fence gap"},
     {ClashKind::post_near_stem, "post near stem"}}};

}  // namespace

Length length_of(const Fence& fence) {
  return length_of(fence.line);
}

std::string_view to_text(Footing footing) {
  return word_for(kFootings, footing);
}
std::string_view to_text(GateUse use) {
  return word_for(kGateUses, use);
}
std::string_view to_text(LoadClass load) {
  return word_for(kLoads, load);
}
std::string_view to_text(ClashKind kind) {
  return word_for(kClashes, kind);
}

}  // namespace rootstead
