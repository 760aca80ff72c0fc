// What to do so that the tree may stay: one sentence for each kind of work, in the order of the
// works. Sentences of practice without a figure are common practice; a figure carries its source.
#include <algorithm>

#include "engine/base/text.hpp"
#include "engine/remedies/verdict_case.hpp"

namespace rootstead {
namespace {

using Sentences = std::vector<std::string>;

void add(Sentences& sentences, std::string sentence) {
  if (std::find(sentences.begin(), sentences.end(), sentence) == sentences.end())
    sentences.push_back(std::move(sentence));
}

// Where care is due: the widest zone about the tree's health, else the widest of any kind.
const Zone* zone_of_care(const VerdictCase& c) {
  const Zone* widest = nullptr;
  const auto better = [&](const Zone& zone) {
    if (widest == nullptr) return true;
    const bool health = zone.purpose == ZonePurpose::vitality;
    if (health != (widest->purpose == ZonePurpose::vitality)) return health;
    return zone.radius > widest->radius;
  };
  for (const Zone* zone : c.in.zones) {
    if (better(*zone)) widest = zone;
  }
  return widest;
}

// "Within 6.00 m of the stem centre (bs5837-2012)"
std::string within_words(const VerdictCase& c) {
  const Zone* zone = zone_of_care(c);
  if (zone == nullptr) return "Near the tree";
  return "Within " + length_text(zone->radius, c.in.units) + " of the stem centre (" + zone->rule +
         ", " + zone->name + ")";
}

std::string root_size_words(const VerdictCase& c) {
  const Parameter& size = c.tables.parameter("verdict.root_to_ask_about");
  const double millimetres = size.best;
  const std::string text =
      c.in.units == UnitSystem::metric
          ? fixed_number(millimetres, 0) + " mm"
          : fixed_number(in_unit(Length::millimetres(millimetres), LengthUnit::inch), 0) + " in";
  return text + " and thicker (" + cited(size.from) + ")";
}

void for_work(const VerdictCase& c, const Work& work, Sentences& sentences) {
  const std::string name = names_of({work.id}, c);
  const std::string within = within_words(c);
  switch (work.kind) {
    case WorkKind::trench:
      add(sentences, "Look first for a line for " + name +
                         " that stays outside the zone, or bore it beneath the roots.");
      add(sentences,
          within + " dig " + name +
              " by hand or with compressed air, and lead it under or between the roots.");
      break;
    case WorkKind::pit:
    case WorkKind::cut:
      add(sentences,
          "Draw the edge of " + name + " back from the tree as far as its purpose allows.");
      add(sentences,
          within + " open the edge of " + name +
              " by hand or with compressed air before any machine comes near, and hold it "
              "with a steep face rather than a slope towards the tree.");
      break;
    case WorkKind::building:
      add(sentences, within + " carry " + name +
                         " on piles, pads or beams set between the roots above ground level; an "
                         "engineer designs them, hand-dug trial holes place them.");
      break;
    case WorkKind::paving:
      add(sentences, within + " build " + name +
                         " on top of the ground as it lies: no digging, no rolling, open-graded "
                         "stone and a surface that lets air and water through.");
      break;
    case WorkKind::fill:
      add(sentences,
          within + " leave out " + name +
              " or keep it thin, coarse and loose, and clear of the bark and the root flare.");
      break;
    case WorkKind::traffic:
      add(sentences, "Before " + name + " begins, " +
                         (within.front() == 'W' ? "w" + within.substr(1) : within) +
                         " lay ground protection that carries the heaviest load expected, and take "
                         "it up as soon as the work is done.");
      break;
    case WorkKind::fence_posts:
      add(sentences, within + " dig the post holes of " + name +
                         " by hand and move a post rather than cut a root.");
      break;
    case WorkKind::bore:
      add(sentences,
          "Keep the pits of " + name + " outside the zone and its line below the roots.");
      break;
    case WorkKind::root_cut:
      add(sentences,
          "Draw the line of " + name +
              " away from the stem as far as its purpose allows; expose the roots by hand "
              "or air along it before any cut.");
      break;
  }
}

}  // namespace

std::vector<std::string> measures_of(const VerdictCase& c, const Verdict& verdict) {
  Sentences sentences;
  bool any_severs = false, any_room = false;
  std::vector<std::string> works = c.in.works_in_zones;
  if (c.in.roots) {
    for (const RootLoss::ByWork& by : c.in.roots->by_work) {
      const bool known = std::find(works.begin(), works.end(), by.work) != works.end();
      if (!known && by.alone.high >= c.thresholds.loss_noticed) works.push_back(by.work);
    }
  }
  for (const std::string& id : works) {
    const Work* work = c.work(id);
    if (work == nullptr) continue;
    for_work(c, *work, sentences);
    any_severs = any_severs || severs(*work);
    any_room = any_room || work->working_room;
  }
  if (any_severs) {
    // All roots of a palm are thin: no thickness tells which of them matter.
    const bool palm = roots_like_a_palm(c.tree(), c.in.species);
    add(sentences,
        "Cut roots that must go cleanly with a sharp hand tool, keep the ends moist and "
        "cover them the same day; ask the arborist before cutting " +
            (palm ? "any, at whatever thickness." : "roots of " + root_size_words(c) + "."));
  }
  if (any_room) {
    add(sentences,
        "Keep machines and spoil off the working room inside the zone, or lay ground "
        "protection there first.");
  }
  if (verdict.stability >= Concern::material && verdict.stability != Concern::unknown) {
    add(sentences,
        "Have a person qualified in tree stability inspect the roots and the stem base "
        "before work begins, and keep people clear while roots are cut; a pull test can "
        "settle what this screening cannot.");
  }
  if (!sentences.empty()) {
    add(sentences,
        "Fence the rest of the zone before anything else on site begins and keep the fence "
        "until the end.");
  }
  return sentences;
}

}  // namespace rootstead
