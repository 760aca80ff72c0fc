#include "engine/site/work.hpp"

namespace rootstead {
namespace {

constexpr EnteredLength metres(double value) {
  return {value, LengthUnit::metre};
}

}  // namespace

bool Work::digs() const {
  switch (kind) {
    case WorkKind::fill:
    case WorkKind::traffic:
      return false;
    case WorkKind::paving:
      return depth_of(*this) > Length();
    default:
      return true;
  }
}

EnteredLength default_width(WorkKind kind) {
  switch (kind) {
    case WorkKind::trench:
    case WorkKind::building:  // a strip foundation
      return metres(0.6);
    case WorkKind::pit:
    case WorkKind::cut:
    case WorkKind::fill:
      return metres(1.0);
    case WorkKind::paving:
      return metres(1.5);
    case WorkKind::traffic:
      return metres(3.0);
    case WorkKind::fence_posts:
    case WorkKind::bore:
      return metres(0.3);
    case WorkKind::root_cut:
      return {kRootCutWidth.millimetres(), LengthUnit::millimetre};
  }
  return metres(0.6);
}

EnteredLength default_depth(WorkKind kind) {
  switch (kind) {
    case WorkKind::trench:
      return metres(0.9);
    case WorkKind::pit:
      return metres(1.5);
    case WorkKind::cut:
    case WorkKind::bore:
      return metres(0.5);
    case WorkKind::fill:
    case WorkKind::paving:
      return metres(0.3);
    case WorkKind::traffic:
      return metres(0);
    case WorkKind::building:
      return metres(1.0);
    case WorkKind::fence_posts:
      return metres(0.8);
    case WorkKind::root_cut:
      return metres(0.6);
  }
  return metres(0.9);
}

EnteredLength default_depth(BarrierKind kind) {
  switch (kind) {
    case BarrierKind::kerb:
      return metres(0.3);
    case BarrierKind::wall:
      return metres(0.6);
    case BarrierKind::root_barrier:
      return metres(0.9);
    case BarrierKind::foundation:
    case BarrierKind::building:
      return metres(1.0);
    case BarrierKind::rock:
    case BarrierKind::water:
      return metres(3.0);  // deeper than roots go
  }
  return metres(0.6);
}

Length width_of(const Work& work) {
  if (work.kind == WorkKind::root_cut) return kRootCutWidth;
  if (work.kind == WorkKind::bore && work.bore_diameter) return work.bore_diameter->length();
  return work.width.value_or(default_width(work.kind)).length();
}

Length depth_of(const Work& work) {
  return work.depth.value_or(default_depth(work.kind)).length();
}

Length depth_of(const Barrier& barrier) {
  return barrier.depth.value_or(default_depth(barrier.kind)).length();
}

}  // namespace rootstead
