// Can it be moved: each reason weighs something, and says where it comes from.
#include <algorithm>

#include "engine/base/text.hpp"
#include "engine/base/words.hpp"
#include "engine/roots/palm_regrowth.hpp"
#include "engine/transplant/move_case.hpp"
#include "engine/transplant/palm_move.hpp"
#include "engine/transplant/trail.hpp"

namespace rootstead {
namespace {

constexpr auto kFeasibility = std::to_array<Word<Feasibility>>({
    {Feasibility::favourable, "favourable"},
    {Feasibility::with_preparation, "possible with preparation"},
    {Feasibility::doubtful, "doubtful"},
    {Feasibility::not_advised, "not advised"},
});

Citation ours(const char* place) {
  return {"rootstead", place, Status::assumption};
}
const char* const kPage = "docs/methods/transplant.md";

// Rows "transplant.ease.<who>.<taxon>": the opinions of every source on this tree, its species'
// own row before that of the genus.
std::vector<const Parameter*> ease_rows(const MoveCase& c) {
  std::vector<std::string> starts;
  for (const Parameter& parameter : c.tables.parameters) {
    const auto parts = split(parameter.id, '.');
    if (parts.size() != 4 || parts[0] != "transplant" || parts[1] != "ease") continue;
    const std::string start = "transplant.ease." + parts[2];
    if (std::find(starts.begin(), starts.end(), start) == starts.end()) starts.push_back(start);
  }
  std::vector<const Parameter*> rows;
  for (const std::string& start : starts)
    if (const Parameter* row = taxon_row(c.tables, start, c.tree.botanical_name))
      rows.push_back(row);
  return rows;
}

MovingReason species_reason(const MoveCase& c) {
  const auto rows = ease_rows(c);
  if (rows.empty())
    return {"species", Feasibility::with_preparation,
            "No source read here says how readily this species is moved.", ours(kPage), false};
  const auto [worst, easiest] = std::minmax_element(
      rows.begin(), rows.end(), [](const auto* a, const auto* b) { return a->best < b->best; });
  const double difficult = c.tables.parameter("transplant.ease_difficult").best;
  MovingReason reason{"species", Feasibility::favourable, "", (*worst)->from,
                      (*easiest)->best > (*worst)->best};
  if ((*worst)->best <= difficult) {
    reason.weighs = Feasibility::with_preparation;
    reason.text = "This species is counted among those difficult to move";
  } else if ((*worst)->best < c.tables.parameter("transplant.ease_easy").best) {
    reason.weighs = Feasibility::with_preparation;
    reason.text =
        "This species is excepted from its difficult relatives, without being called easy";
  } else {
    reason.text = "This species is counted among those easy to move";
  }
  if (reason.sources_disagree)
    reason.text += "; sources disagree (" + cited((*easiest)->from) + " finds it easier)";
  reason.text += ".";
  return reason;
}

bool is_difficult(const MoveCase& c) {
  const auto rows = ease_rows(c);
  const double difficult = c.tables.parameter("transplant.ease_difficult").best;
  return std::any_of(rows.begin(), rows.end(), [&](const auto* r) { return r->best <= difficult; });
}

MovingReason history_reason(const MoveCase& c) {
  const Citation stock{"uf-american-standard", "collected stock", Status::published};
  switch (c.tree.history) {
    case GrowthHistory::from_seed_in_place:
      if (is_difficult(c))
        return {
            "history",
            Feasibility::doubtful,
            "It grew where it stands from seed, so its roots were never cut back near the stem: "
            "such trees of a kind with few deep main roots do badly when moved.",
            {"chestofbooks-moving",
             "difficult for their tap roots; that growth in place makes "
             "it worse is ours",
             Status::assumption},
            false};
      return {"history", Feasibility::with_preparation,
              "It grew where it stands from seed: it needs a larger ball than nursery stock.",
              stock, false};
    case GrowthHistory::planted_from_nursery:
      return {
          "history",
          Feasibility::favourable,
          "It was planted from a nursery, so its roots were cut and branched near the stem "
          "once; what grew since lies beyond.",
          {"trade-practice", "nursery stock is lifted and root pruned", Status::common_practice},
          false};
    case GrowthHistory::moved_before:
      return {"history",
              Feasibility::favourable,
              "It was moved before, so its roots branched behind the cuts of that time.",
              {"uf-gah8201", "new roots come from cut ends", Status::published},
              false};
    case GrowthHistory::unknown:
      break;
  }
  return {"history", Feasibility::with_preparation,
          "How it came to stand there is not recorded: it is counted as grown in place.", stock,
          false};
}

MovingReason condition_reason(const MoveCase& c) {
  const auto say = [](Feasibility weighs, const char* text) {
    return MovingReason{"condition", weighs, text, ours(kPage), false};
  };
  switch (c.tree.condition) {
    case Condition::good:
      return say(Feasibility::favourable, "It is in good condition.");
    case Condition::fair:
      return say(Feasibility::with_preparation,
                 "Its condition is fair: find out why before money is spent on moving it.");
    case Condition::poor:
      return say(Feasibility::not_advised,
                 "Its condition is poor: a tree that lacks reserves does not replace lost roots.");
    case Condition::dead:
      return say(Feasibility::not_advised, "It is dead.");
    case Condition::unknown:
      break;
  }
  return say(Feasibility::with_preparation,
             "Its condition is not recorded: have it looked at before anything is decided.");
}

MovingReason stage_reason(const MoveCase& c) {
  const Citation bigger{"watson-t-2005", "bigger trees lose more years of growth",
                        Status::published};
  switch (c.tree.stage) {
    case LifeStage::young:
      return {"life stage", Feasibility::favourable,
              "It is young: small trees are back in growth soonest.", bigger, false};
    case LifeStage::semi_mature:
      return {"life stage", Feasibility::with_preparation,
              "It is no longer small: the bigger the tree, the more years of growth it loses.",
              bigger, false};
    case LifeStage::mature:
      return {"life stage", Feasibility::doubtful,
              "It is mature: the bigger the tree, the more years of growth it loses.", bigger,
              false};
    case LifeStage::over_mature:
    case LifeStage::veteran:
      return {"life stage", Feasibility::not_advised,
              "It is past maturity: it is unlikely to replace the roots that it would lose.",
              ours(kPage), false};
    case LifeStage::unknown:
      break;
  }
  return {"life stage", Feasibility::with_preparation, "Its life stage is not recorded.",
          ours(kPage), false};
}

MovingReason season_reason(const MoveCase& c) {
  const std::string& name = c.tree.botanical_name;
  const Parameter* spring = taxon_row(c.tables, "transplant.spring_only", name);
  const Parameter* autumn = taxon_row(c.tables, "transplant.autumn_hazard", name);
  if (spring)
    return {"season", Feasibility::with_preparation,
            std::string("It is on a list of trees to be moved in spring only") +
                (autumn ? ", and on one of those that suffer from autumn digging (" +
                              cited(autumn->from) + ")."
                        : "."),
            spring->from, false};
  if (autumn)
    return {"season", Feasibility::with_preparation,
            "It is on a list of trees that suffer from digging in autumn.", autumn->from, false};
  return {"season",
          Feasibility::favourable,
          "It is on neither list of trees that must not be dug in autumn.",
          {"watson-himelick-1982", "dormant season; not while shoots grow in early spring",
           Status::published},
          false};
}

MovingReason size_reason(bool table_ended) {
  const Citation tables{"ansi-z60-1", "1.1, the end of its tables; recalled", Status::memory};
  if (table_ended)
    return {
        "size", Feasibility::doubtful,
        "It is larger than any ball table read here reaches, or cannot be measured against one: "
        "only a specialist who has dug such trees can say what to lift.",
        tables, false};
  return {"size", Feasibility::favourable, "The tables of least balls cover its size.", tables,
          false};
}

}  // namespace

std::string_view to_text(Feasibility feasibility) {
  return word_for(kFeasibility, feasibility);
}

bool counts_as_collected(const Tree& tree) {
  return tree.history != GrowthHistory::planted_from_nursery &&
         tree.history != GrowthHistory::moved_before;
}

Feasibility feasibility_of(const std::vector<MovingReason>& reasons) {
  Feasibility worst = Feasibility::favourable;
  for (const MovingReason& reason : reasons) worst = std::max(worst, reason.weighs);
  const auto doubts = std::count_if(reasons.begin(), reasons.end(), [](const MovingReason& reason) {
    return reason.weighs == Feasibility::doubtful;
  });
  return doubts > 1 ? Feasibility::not_advised : worst;
}

void weigh_woody(const MoveCase& c, TransplantAdvice& advice, bool table_ended) {
  advice.reasons = {species_reason(c),   size_reason(table_ended), history_reason(c),
                    condition_reason(c), stage_reason(c),          season_reason(c)};
  advice.feasibility = feasibility_of(advice.reasons);
}

// ---- palms --------------------------------------------------------------------------------------

namespace {

MovingReason regrowth_reason(const MoveCase& c) {
  const PalmRegrowth regrowth = palm_regrowth(c.tables.species_of(c.tree.botanical_name), c.tables);
  const bool branches = regrowth.kind == PalmRegrowth::Kind::any_length ||
                        regrowth.kind == PalmRegrowth::Kind::longer_more;
  return {"species", branches ? Feasibility::favourable : Feasibility::with_preparation,
          in_words(regrowth), regrowth.from.value_or(ours("docs/methods/palms_moved.md")), false};
}

// Nothing is said of palms that bear moving at any age.
void add_trunk_reason(const MoveCase& c, std::vector<MovingReason>& reasons) {
  const Parameter* row = needs_trunk_first(c.tree.botanical_name, c.tables);
  if (!row) return;
  const std::string losses = percent(c.best("transplant_palms.trunk_first_losses"), 0);
  if (!c.tree.clear_trunk) {
    reasons.push_back({"size", Feasibility::doubtful,
                       "This palm does not bear moving before its trunk is seen above ground "
                       "(losses up to " +
                           losses + "), and no trunk is recorded: look.",
                       row->from, false});
  } else if (c.tree.clear_trunk->length() <= Length()) {
    reasons.push_back(
        {"size", Feasibility::not_advised,
         "It has no trunk above ground yet: palms of this kind are lost when moved so "
         "young (up to " +
             losses + ").",
         row->from, false});
  } else {
    reasons.push_back({"size", Feasibility::favourable,
                       "Its trunk is seen above ground, which palms of this kind need before they "
                       "are moved.",
                       row->from, false});
  }
}

MovingReason palm_stage_reason(const MoveCase& c) {
  const Citation base{"uf-ep001", "roots arise anew from the base of the trunk", Status::published};
  if (c.tree.stage == LifeStage::over_mature || c.tree.stage == LifeStage::veteran)
    return {"life stage", Feasibility::doubtful, "It is past maturity.",
            ours("docs/methods/palms_moved.md"), false};
  return {"life stage", Feasibility::favourable,
          "Palms send new roots from the base of the trunk all their life, so a grown palm is no "
          "worse to move for being grown.",
          base, false};
}

MovingReason palm_season_reason(const MoveCase& c) {
  const Parameter& warm = c.tables.parameter("transplant_palms.soil_growing");
  return {"season", Feasibility::favourable,
          "It can be moved well while the soil is warm, about " + c.amounts.temperature(warm.best) +
              " or more where a trial found most new roots.",
          warm.from, false};
}

}  // namespace

void weigh_palm(const MoveCase& c, TransplantAdvice& advice) {
  advice.reasons = {regrowth_reason(c)};
  add_trunk_reason(c, advice.reasons);
  advice.reasons.push_back(condition_reason(c));
  advice.reasons.push_back(palm_stage_reason(c));
  advice.reasons.push_back(palm_season_reason(c));
  advice.feasibility = feasibility_of(advice.reasons);
}

void weigh_monocot(const MoveCase& c, TransplantAdvice& advice) {
  advice.reasons = {{"species", Feasibility::doubtful,
                     "No study of moving such plants was read here: they are neither palms nor "
                     "trees that thicken.",
                     ours("docs/methods/palms_moved.md"), false},
                    condition_reason(c)};
  advice.feasibility = feasibility_of(advice.reasons);
}

}  // namespace rootstead
