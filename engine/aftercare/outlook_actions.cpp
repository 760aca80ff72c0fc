// What to do now about damage that is there, in the order in which it is done.
#include <algorithm>

#include "engine/aftercare/outlook_case.hpp"
#include "engine/base/text.hpp"
#include "engine/water/watering.hpp"

namespace rootstead::aftercare {
namespace {

void prescribe(const OutlookCase& c, DamageOutlook& outlook, std::string topic, std::string text,
               std::string reason, Citation from) {
  Prescription one;
  one.topic = std::move(topic);
  one.tree = c.tree.id;
  one.text = std::move(text);
  one.reason = std::move(reason);
  one.from = std::move(from);
  outlook.now.push_back(std::move(one));
}

bool within(const OutlookCase& c, double years) {
  return !c.latest || c.latest->low < years;
}

void add_inspection(const OutlookCase& c, DamageOutlook& outlook) {
  if (!at_least(outlook.stability.concern, Concern::material)) return;
  prescribe(c, outlook, "inspection",
            "Keep people and things of value from under " + c.tree.label() +
                " until a person qualified in tree stability has looked at its base and roots; ask "
                "for a pull test where looking does not settle it.",
            "Roots that hold it were lost, and nothing that grew back is counted.", kPractice);
}

void add_torn_ends(const OutlookCase& c, DamageOutlook& outlook) {
  if (!c.severed() || !within(c, c.best("aftercare.torn_ends_fresh"))) return;
  prescribe(c, outlook, "root cut",
            "Where the ground can still be opened by hand, cut torn and crushed root ends back to "
            "sound wood with a sharp tool, and cover them with moist soil the same day.",
            "New roots come from clean cut ends, and decay from torn ones.", kPractice);
}

void add_ground_relief(const OutlookCase& c, DamageOutlook& outlook) {
  if (c.filled())
    prescribe(c, outlook, "soil",
              "Take the fill off by hand or with air as far as the root flare and the old ground, "
              "and let no one scrape it with a machine.",
              "Roots beneath fill run short of air; the flare rots where it is buried.", kPractice);
  if (c.pressed())
    prescribe(c, outlook, "soil",
              "Loosen pressed ground over the roots with air, never by digging or tilling, and "
              "mulch it.",
              "Dense ground keeps air, water and new roots out.",
              {"redwood-city-conditions", "soil relief after works", Status::published});
}

// The roots as they were spread before: the estimate of the assessment.
std::optional<Length> root_radius(const OutlookCase& c) {
  if (!c.damage.estimate || !(c.damage.estimate->extent_m.best > 0)) return std::nullopt;
  return Length::metres(c.damage.estimate->extent_m.best);
}

void add_water(const OutlookCase& c, DamageOutlook& outlook) {
  const auto radius = root_radius(c);
  if (!c.damage.roots || !radius || !within(c, c.best("aftercare.water_years"))) return;
  WaterAfterLoss loss;
  loss.share_lost = c.damage.roots->all;
  loss.root_radius = *radius;
  WaterAdvice advice = watering_after_loss(c.tree, loss, c.site, c.tables);
  const auto append = [](auto& all, auto& more) {
    all.insert(all.end(), std::make_move_iterator(more.begin()),
               std::make_move_iterator(more.end()));
  };
  outlook.water = advice;
  append(outlook.now, advice.prescriptions);
  append(outlook.figures, advice.figures);
  append(outlook.notes, advice.notes);
}

void add_restraint(const OutlookCase& c, DamageOutlook& outlook) {
  if (c.monocot)
    prescribe(c, outlook, "pruning", "Cut no green leaf of " + c.tree.label() + ".",
              "A palm's leaves feed the roots that are to come.", kPractice);
  else
    prescribe(c, outlook, "pruning",
              "Take out dead and broken branches only; do not thin or top the crown to make up for "
              "lost roots.",
              "Leaves feed the roots that are to come.",
              {"alabama-chenault", "outworn practices", Status::published});
  if (within(c, c.best("aftercare.no_fertiliser")))
    prescribe(c, outlook, "fertiliser",
              "Give no fertiliser until the tree has recovered, a year or two from the damage, and "
              "then only what a soil test asks for.",
              "Severely stressed trees should not be fertilised.",
              {"missouri-g6885", "tree care after construction", Status::published});
}

void add_watch(const OutlookCase& c, DamageOutlook& outlook) {
  prescribe(c, outlook, "monitoring",
            "Photograph crown and base of " + c.tree.label() +
                " from fixed points now and at every visit, for up to five years.",
            "Without a record of today no one can tell later what changed.",
            {"houston-after-construction", "monitor for up to five years", Status::published});
}

}  // namespace

void add_actions(const OutlookCase& c, DamageOutlook& outlook) {
  add_inspection(c, outlook);
  add_torn_ends(c, outlook);
  if (outlook.vitality.concern != Concern::none) {
    add_ground_relief(c, outlook);
    add_water(c, outlook);
    add_restraint(c, outlook);
  }
  add_watch(c, outlook);
}

}  // namespace rootstead::aftercare
