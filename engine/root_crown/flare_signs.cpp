#include "engine/root_crown/flare_signs.hpp"

#include <algorithm>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"

namespace rootstead {
namespace {

// What one sign says: likely, dig, seen (for the flare), or nothing by itself.
struct Said {
  FlareAnswer answer = FlareAnswer::cannot_tell;
  std::string reason;
};

Said said_by(FlareSign sign) {
  using enum FlareAnswer;
  switch (sign) {
    case FlareSign::no_flare_all_round:
      return {burial_likely,
              "No flare is seen all round: the trunk goes into the ground like a pole."};
    case FlareSign::graft_below_ground:
      return {burial_likely, "The graft union is not seen: it lies below the ground."};
    case FlareSign::gap_when_rocked:
      return {burial_likely, "The trunk moves in a hole of its own when it is rocked."};
    case FlareSign::soil_or_mulch_heaped:
      return {dig_to_see, "Soil or mulch is heaped against the trunk."};
    case FlareSign::stem_roots:
      return {dig_to_see,
              "Roots grow from the trunk above the flare, as they do from a buried one."};
    case FlareSign::roots_round_trunk:
      return {dig_to_see, "A root lies across or round the trunk: others may lie below."};
    case FlareSign::wet_or_soft_bark:
      return {dig_to_see, "The bark at the ground is wet or soft."};
    case FlareSign::mushrooms_at_base:
      return {dig_to_see, "Fungi fruit at the base: decay below the ground has to be looked for."};
    case FlareSign::flare_on_one_side:
      return {dig_to_see,
              "The flare is seen on one side only: that speaks of roots on one side rather than of "
              "a buried base."};
  }
  return {};
}

Said said_by(const Flare& flare, UnitSystem units) {
  if (flare.state == Flare::State::visible)
    return {FlareAnswer::flare_seen, "The record says that the flare is seen."};
  if (flare.buried_by && flare.buried_by->value > 0)
    return {FlareAnswer::burial_likely,
            "The record says that the flare is buried by " +
                AmountText{units}.small_length(flare.buried_by->length()) + "."};
  if (flare.state == Flare::State::buried)
    return {FlareAnswer::burial_likely, "The record says that the flare is buried."};
  return {};
}

Said said_by(const TaperFit& taper, UnitSystem units) {
  const std::string ratio = "The trunk at the ground is " + fixed_number(taper.ratio, 2) +
                            " times as thick as " + AmountText{units}.length(Length::metres(0.3)) +
                            " above it: ";
  const std::string limits = " (limits of ours, without a published source).";
  switch (taper.says) {
    case TaperSays::like_a_pole:
      return {FlareAnswer::burial_likely, ratio + "it hardly widens, suspect burial" + limits};
    case TaperSays::worth_a_probe:
      return {FlareAnswer::dig_to_see, ratio + "it widens little, worth a probe" + limits};
    case TaperSays::like_a_flare:
      return {FlareAnswer::flare_seen, ratio + "it widens as a flare does" + limits};
  }
  return {};
}

// From the one that asks for most to the one that asks for nothing.
int weight(FlareAnswer answer) {
  switch (answer) {
    case FlareAnswer::burial_likely:
      return 0;
    case FlareAnswer::dig_to_see:
      return 1;
    case FlareAnswer::flare_seen:
      return 2;
    default:
      return 3;
  }
}

}  // namespace

SignsSay signs_say(const Flare& flare, const TaperFit* taper, UnitSystem units) {
  std::vector<Said> all = {said_by(flare, units)};
  for (const FlareSign sign : flare.signs) all.push_back(said_by(sign));
  if (taper != nullptr) all.push_back(said_by(*taper, units));
  std::stable_sort(all.begin(), all.end(), [](const Said& a, const Said& b) {
    return weight(a.answer) < weight(b.answer);
  });
  SignsSay says;
  says.taper_used = taper != nullptr;
  says.answer = all.front().answer;
  // A flare that somebody has seen is not made unseen by a sign: only digging settles it.
  const bool seen = flare.state == Flare::State::visible;
  says.disagree = seen && says.answer == FlareAnswer::burial_likely;
  if (says.disagree) says.answer = FlareAnswer::dig_to_see;
  for (Said& one : all)
    if (!one.reason.empty()) says.reasons.push_back(std::move(one.reason));
  return says;
}

}  // namespace rootstead
