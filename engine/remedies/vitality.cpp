// The first answer: what the works mean for the tree's health.
#include "engine/base/text.hpp"
#include "engine/remedies/verdict_case.hpp"

namespace rootstead {
namespace {

Concern by_vitality_limits(const VerdictCase& c, std::vector<Reason>& reasons) {
  Concern concern = c.in.limits.empty() ? Concern::unknown : Concern::none;
  for (const LimitResult& result : c.in.limits) {
    if (!result.passed_over || is_about_stability(result, c.tables)) continue;
    concern = larger(concern, concern_of(result.weight));
    if (!is_within_another(result, c))
      reasons.push_back(reason_of(result, c, Reason::About::vitality));
  }
  return concern;
}

Concern by_root_loss(const VerdictCase& c) {
  if (!c.in.roots) return Concern::unknown;
  const Range& loss = c.in.roots->all;
  const VerdictThresholds& t = c.thresholds;
  if (loss.best >= t.loss_tolerated.best) return Concern::large;
  if (loss.best >= t.loss_any_tree || loss.high >= t.loss_tolerated.low) return Concern::material;
  return loss.high >= t.loss_noticed ? Concern::small : Concern::none;
}

std::string largest_work(const RootLoss& loss) {
  const RootLoss::ByWork* largest = nullptr;
  for (const RootLoss::ByWork& by : loss.by_work) {
    if (largest == nullptr || by.alone.best > largest->alone.best) largest = &by;
  }
  return largest ? largest->work : "";
}

Reason root_loss_reason(const VerdictCase& c, Concern concern) {
  const Range& loss = c.in.roots->all;
  Reason reason{Reason::About::vitality, {}, {}, {}, largest_work(*c.in.roots)};
  reason.text = "An estimated " + range_text(loss) +
                " of the absorbing roots would be lost, most to " + names_of({reason.work}, c);
  const VerdictThresholds& t = c.thresholds;
  if (concern == Concern::large) {
    reason.text += "; more than such a tree is thought to stand, about " +
                   percent(t.loss_tolerated.best, 0) + " (" + cited(t.tolerated_from) + ")";
  } else if (loss.best >= t.loss_any_tree) {
    reason.text += "; more than " + percent(t.loss_any_tree, 0) +
                   " is advised against for any tree (" + cited(t.any_tree_from) + ")";
  } else if (concern == Concern::material) {
    reason.text += "; the high end reaches what a sensitive tree may not stand, " +
                   percent(t.loss_tolerated.low, 0) + " (" + cited(t.tolerated_from) + ")";
  }
  reason.text += ".";
  return reason;
}

}  // namespace

Concern vitality_concern(const VerdictCase& c, std::vector<Reason>& reasons) {
  Concern concern = by_vitality_limits(c, reasons);
  const Concern of_roots = by_root_loss(c);
  if (of_roots > Concern::none && of_roots != Concern::unknown)
    reasons.push_back(root_loss_reason(c, of_roots));
  concern = larger(concern, of_roots);
  if (c.in.works_in_zones.empty()) return concern;
  if (concern == Concern::none) {
    reasons.push_back({Reason::About::vitality,
                       names_of(c.in.works_in_zones, c) +
                           (c.in.works_in_zones.size() > 1 ? " reach" : " reaches") +
                           " into its zones without passing a limit set for its health.",
                       {},
                       {},
                       c.in.works_in_zones.front()});
  }
  return larger(concern, Concern::small);
}

}  // namespace rootstead
