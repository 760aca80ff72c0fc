// What is known of trees after such damage, as sentences with their sources. Two answers.
#include <algorithm>

#include "engine/aftercare/outlook_case.hpp"
#include "engine/base/text.hpp"
#include "engine/losses/losses.hpp"

namespace rootstead::aftercare {
namespace {

Citation published(std::string source, std::string place = {}) {
  return {std::move(source), std::move(place), Status::published};
}

void say(OutlookAnswer& answer, std::string text, Citation from) {
  answer.statements.push_back({std::move(text), std::move(from)});
}

// By the years since the latest work; where no date is known, all that may still come.
void add_time_statements(const OutlookCase& c, OutlookAnswer& answer) {
  const double since = c.latest ? c.latest->low : 0;
  const double longest = c.latest ? c.latest->high : 100;
  if (since < 1)
    say(answer,
        "Leaves may wilt or scorch within weeks of such damage, but signs are more likely to take "
        "years to appear.",
        published("minnesota-dnr"));
  if (since < 5)
    say(answer,
        "Decline and death after root loss come within months or only after three to five years; "
        "a green crown before then proves little.",
        kPractice);
  if (since < 10 && longest >= 3)
    say(answer,
        "Dieback, an open crown and fungi at the trunk are reported seven to ten years after "
        "building work, too.",
        published("rideout-2016"));
  if (since >= 10)
    say(answer,
        "More than ten years have passed: what the loss did to the crown will mostly have shown, "
        "and the crown of today tells more than the loss of then.",
        kOurs);
}

void add_loss_statements(const OutlookCase& c, OutlookAnswer& answer) {
  if (answer.concern == Concern::none) {
    say(answer, "The estimated loss of absorbing roots is too small to expect a change from it.",
        kOurs);
    return;
  }
  if (!at_least(answer.concern, Concern::material)) {
    say(answer, "Trees moderately affected by construction recover with proper care.",
        published("missouri-g6885"));
    return;
  }
  const Parameter& trouble = c.tables.parameter("aftercare.trouble_share");
  if (!c.damage.roots || c.damage.roots->all.high >= trouble.best)
    say(answer,
        "Trees get into trouble where more than " + percent(trouble.best, 0) +
            " of the root system is lost.",
        trouble.from);
  say(answer,
      "Recovery is possible: pin oaks trenched close by on one to three sides all lived, with "
      "marked dieback only after three; healthy trees of tolerant kinds may outlive the loss of "
      "half.",
      {"watson-1998", "abstract; and minnesota-stormwater", Status::published});
}

void add_regrowth(const OutlookCase& c, OutlookAnswer& answer) {
  if (c.monocot) {
    say(answer,
        "Palms replace lost roots by new ones from the trunk; how many cut roots branch again "
        "differs from kind to kind.",
        published("broschat-donselman-1984", "abstract"));
    return;
  }
  if (!c.latest || !c.severed()) return;
  const Range reach = root_regrowth_m(c.latest->best, c.site.climate, c.tables);
  say(answer,
      "New roots may by now have gone out " + c.text.length(Length::metres(reach.low)) + " to " +
          c.text.length(Length::metres(reach.high)) +
          " from the cut ends where the ground lets "
          "them.",
      c.tables.parameter("aftercare.root_growth_temperate").from);
}

}  // namespace

bool OutlookCase::severed() const {
  return std::any_of(works.begin(), works.end(), [](const Work* w) { return severs(*w); });
}

bool OutlookCase::pressed() const {
  return std::any_of(works.begin(), works.end(), [](const Work* w) {
    return w->kind == WorkKind::traffic || w->kind == WorkKind::fill ||
           w->kind == WorkKind::paving || w->working_room;
  });
}

bool OutlookCase::filled() const {
  return std::any_of(works.begin(), works.end(),
                     [](const Work* w) { return w->kind == WorkKind::fill; });
}

void add_vitality(const OutlookCase& c, DamageOutlook& outlook) {
  OutlookAnswer& answer = outlook.vitality;
  answer.concern = c.damage.verdict.vitality;
  add_loss_statements(c, answer);
  if (answer.concern != Concern::none) add_time_statements(c, answer);
  add_regrowth(c, answer);
  if (c.tree.condition == Condition::poor)
    say(answer, "The tree is recorded in poor condition: it has less to recover with.", kPractice);
}

void add_stability(const OutlookCase& c, DamageOutlook& outlook) {
  OutlookAnswer& answer = outlook.stability;
  answer.concern = c.damage.verdict.stability;
  say(answer,
      "How green the crown is says nothing of how firmly the tree stands: the two are judged "
      "apart.",
      kPractice);
  if (answer.concern == Concern::none || !c.severed()) return;
  outlook.notes.push_back({NoteCode::recovery_not_credited, c.tree.id,
                           "stability is that of the loss as it was: nothing that may have grown "
                           "back is credited"});
  if (!c.monocot) {
    say(answer,
        "Of 557 oak roots cut by trenches 93 % had grown again after five years, to 22 % of the "
        "cross-section that was cut.",
        published("koeser-2024"));
    say(answer,
        "Nothing is credited for at least " + fixed_number(c.best("aftercare.no_credit_years"), 0) +
            " years, nor after that without an inspection of the roots.",
        c.tables.parameter("aftercare.no_credit_years").from);
  }
  say(answer,
      "Decay may enter by cut and torn roots and weaken the base over years, so stability can "
      "still fall while the crown recovers.",
      {"trade-practice", "", Status::common_practice});
}

}  // namespace rootstead::aftercare
