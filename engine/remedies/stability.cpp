// The second answer: what the works mean for the tree's hold in the ground.
#include "engine/base/text.hpp"
#include "engine/remedies/verdict_case.hpp"

namespace rootstead {
namespace {

Concern by_stability_limits(const VerdictCase& c, std::vector<Reason>& reasons) {
  Concern concern = Concern::unknown;
  for (const LimitResult& result : c.in.limits) {
    if (!is_about_stability(result, c.tables)) continue;
    concern = larger(concern, Concern::none);
    if (!result.passed_over) continue;
    concern = larger(concern, concern_of(result.weight));
    if (!is_within_another(result, c))
      reasons.push_back(reason_of(result, c, Reason::About::stability));
  }
  return concern;
}

Concern by_anchorage_kept(const VerdictCase& c) {
  if (!c.in.anchorage) return Concern::unknown;
  const double kept = c.in.anchorage->kept.low;  // the careful end
  const VerdictThresholds& t = c.thresholds;
  if (kept < t.material_change) return Concern::large;
  if (kept < t.small_change) return Concern::material;
  return kept < t.no_change ? Concern::small : Concern::none;
}

std::string_view words(Concern concern) {
  switch (concern) {
    case Concern::small:
      return "a small reduction";
    case Concern::material:
      return "a material reduction: a qualified person must assess it, and another line or a pull "
             "test be considered";
    case Concern::large:
      return "a large reduction: do not proceed on this screening";
    case Concern::none:
    case Concern::unknown:
      break;
  }
  return "no change this method can resolve";
}

std::string first_work(const AnchorageKept& anchorage) {
  return anchorage.works.empty() ? "" : anchorage.works.front();
}

Reason anchorage_reason(const VerdictCase& c, Concern concern) {
  const AnchorageKept& anchorage = *c.in.anchorage;
  return {Reason::About::stability,
          "Anchorage kept in the weakest direction (wind from " +
              fixed_number(anchorage.worst_from.degrees(), 0) + "°) is " +
              range_text(anchorage.kept) + " of today's after " + names_of(anchorage.works, c) +
              ": " + std::string(words(concern)) + " (" + cited(c.thresholds.anchorage_from) + ").",
          {},
          {},
          first_work(anchorage)};
}

}  // namespace

Concern stability_concern(const VerdictCase& c, std::vector<Reason>& reasons) {
  Concern concern = by_stability_limits(c, reasons);
  const Concern kept = by_anchorage_kept(c);
  if (kept > Concern::none && kept != Concern::unknown)
    reasons.push_back(anchorage_reason(c, kept));
  concern = larger(concern, kept);
  if (!c.in.anchorage) return concern;
  for (const std::string& why : c.in.anchorage->reasons_to_inspect) {
    concern = larger(concern, Concern::material);
    reasons.push_back({Reason::About::stability,
                       "To be inspected whatever the figure: " + why + ".",
                       {},
                       {},
                       first_work(*c.in.anchorage)});
  }
  return concern;
}

}  // namespace rootstead
