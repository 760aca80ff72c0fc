#include "engine/submittal/checks.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

using Data = const SubmittalData&;
using State = SubmittalState;

CheckAnswer present(std::string text) {
  return {State::present, std::move(text), {}};
}
CheckAnswer not_applicable(std::string text) {
  return {State::not_applicable, std::move(text), {}};
}
CheckAnswer missing(std::string text, std::vector<std::string> subjects = {}) {
  return {State::missing, std::move(text), std::move(subjects)};
}
CheckAnswer yours(std::string text) {
  return {State::yours, std::move(text), {}};
}
CheckAnswer applies() {
  return {};
}

bool filled(const std::string& text) {
  return !trimmed(text).empty();
}

bool is_above_zero(const std::optional<EnteredLength>& length) {
  return length && length->length() > Length{};
}

// Every tree that `counts` must have what `has` asks; without any tree there is nothing to check.
template <class Counts, class Has>
CheckAnswer each_tree(Data data, Counts counts, Has has, const std::string& nothing,
                      const std::string& what, const std::string& enter) {
  if (data.site.trees.empty()) return missing("No tree is entered: enter the trees.");
  std::size_t all = 0;
  std::vector<std::string> lacking;
  for (const Tree& tree : data.site.trees) {
    if (!counts(tree)) continue;
    ++all;
    if (!has(tree)) lacking.push_back(tree.label());
  }
  if (all == 0) return not_applicable(nothing);
  if (lacking.empty())
    return present("Entered for " + std::to_string(all) + " of " + std::to_string(all) +
                   " trees: " + what + ".");
  std::string text = std::to_string(lacking.size()) + " of " + std::to_string(all) +
                     " trees lack " + what + ": " + enter + ".";
  return missing(std::move(text), std::move(lacking));
}

template <class Has>
CheckAnswer all_trees(Data data, Has has, const std::string& what, const std::string& enter) {
  return each_tree(
      data, [](const Tree&) { return true; }, has, "", what, enter);
}

// What the data hold is only half of the line.
CheckAnswer half(CheckAnswer answer, const std::string& rest) {
  if (answer.state == State::present) return yours(answer.text + " " + rest);
  return answer;
}

CheckAnswer tree_numbers(Data data) {
  std::multiset<std::string> tags;
  for (const Tree& tree : data.site.trees) tags.insert(tree.tag);
  return all_trees(
      data, [&](const Tree& tree) { return filled(tree.tag) && tags.count(tree.tag) == 1; },
      "a tag of their own", "enter the number of the field tag, each once");
}
CheckAnswer botanical_names(Data data) {
  return all_trees(
      data, [](const Tree& tree) { return filled(tree.botanical_name); }, "the botanical name",
      "enter it");
}
CheckAnswer common_names(Data data) {
  return all_trees(
      data, [](const Tree& tree) { return filled(tree.common_name); }, "the common name",
      "enter it");
}
CheckAnswer stem_diameters(Data data) {
  const auto measured = [](const Stem& stem) {
    return stem.size.length() > Length{} && is_above_zero(stem.measured_at);
  };
  return each_tree(
      data, [](const Tree& tree) { return !tree.is_monocot(); },
      [&](const Tree& tree) {
        return !tree.stems.empty() && std::all_of(tree.stems.begin(), tree.stems.end(), measured);
      },
      "All trees are palms or other monocots.", "the stem diameter with its measuring height",
      "enter both for every stem");
}
CheckAnswer several_stems(Data data) {
  const auto measured = [](const Stem& stem) { return stem.size.length() > Length{}; };
  CheckAnswer answer = each_tree(
      data, [](const Tree& tree) { return tree.stems.size() > 1; },
      [&](const Tree& tree) { return std::all_of(tree.stems.begin(), tree.stems.end(), measured); },
      "No tree is entered with more than one stem.", "the size of each stem", "enter it");
  if (answer.state == State::present && data.site.settings.rules.empty())
    return missing("No rule is chosen, so no way of combining stems: choose the rules.");
  return answer;
}
CheckAnswer leaning_stems(Data data) {
  const auto& trees = data.site.trees;
  if (trees.empty()) return missing("No tree is entered: enter the trees.");
  const auto count = std::count_if(trees.begin(), trees.end(),
                                   [](const Tree& tree) { return tree.lean.has_value(); });
  return yours(std::to_string(count) +
               " trees are entered with a lean; say where each was measured, and which stand on a "
               "slope.");
}
CheckAnswer girths(Data data) {
  const auto girth = [](const Stem& stem) { return stem.read == Stem::Read::girth; };
  return each_tree(
      data,
      [&](const Tree& tree) { return std::any_of(tree.stems.begin(), tree.stems.end(), girth); },
      [](const Tree& tree) {
        return std::all_of(tree.stems.begin(), tree.stems.end(), [](const Stem& stem) {
          return stem.size.length() > Length{} && is_above_zero(stem.measured_at);
        });
      },
      "No stem is entered by its girth.", "the girth with its measuring height", "enter both");
}
CheckAnswer palms(Data data) {
  return each_tree(
      data, [](const Tree& tree) { return tree.is_monocot(); },
      [](const Tree& tree) {
        return is_above_zero(tree.clear_trunk) && is_above_zero(tree.height);
      },
      "No tree is entered as a palm.", "clear trunk and height", "enter both");
}
CheckAnswer heights(Data data) {
  return half(all_trees(
                  data, [](const Tree& tree) { return is_above_zero(tree.height); }, "the height",
                  "enter it"),
              "Say which are estimated.");
}
bool has_crown(const Tree& tree) {
  return tree.crown && tree.crown->largest_radius() > Length{};
}
CheckAnswer crowns(Data data) {
  return all_trees(data, has_crown, "the crown radii", "enter them in four directions");
}
CheckAnswer crown_bases(Data data) {
  return half(
      all_trees(
          data, [](const Tree& tree) { return tree.crown && tree.crown->base_height.has_value(); },
          "the height of the crown base", "enter it"),
      "The direction of the first branch is for you to say.");
}
CheckAnswer life_stages(Data data) {
  return all_trees(
      data, [](const Tree& tree) { return tree.stage != LifeStage::unknown; }, "the life stage",
      "enter it");
}
CheckAnswer conditions(Data data) {
  return half(all_trees(
                  data, [](const Tree& tree) { return tree.condition != Condition::unknown; },
                  "the condition", "enter it"),
              "Explain the scale that was used.");
}
CheckAnswer categories(Data data) {
  return all_trees(
      data, [](const Tree& tree) { return filled(tree.category); }, "the category", "enter it");
}
CheckAnswer protections(Data data) {
  return all_trees(
      data, [](const Tree& tree) { return filled(tree.protection); }, "the legal status",
      "enter it, \"none\" where there is none");
}
CheckAnswer owners(Data data) {
  return all_trees(
      data, [](const Tree& tree) { return filled(tree.ownership); }, "the owner",
      "enter client, neighbour or street");
}
CheckAnswer flares(Data data) {
  return half(all_trees(
                  data, [](const Tree& tree) { return tree.flare.state != Flare::State::unknown; },
                  "whether the root flare is seen", "look and enter it"),
              "Surface roots, wounds and changes of grade are for you to say.");
}
CheckAnswer intents(Data data) {
  return all_trees(
      data, [](const Tree& tree) { return tree.intent != Intent::undecided; },
      "keep, move or remove", "decide and enter it");
}
CheckAnswer intents_drawn(Data data) {
  return half(intents(data), "Look at the plan: trees removed must be told apart and crossed.");
}
CheckAnswer positions(Data data) {
  return all_trees(
      data,
      [](const Tree& tree) { return tree.position.has_value() && filled(tree.position->source); },
      "a position and how it was measured", "enter both");
}
CheckAnswer positions_and_crowns(Data data) {
  return all_trees(
      data, [](const Tree& tree) { return tree.position.has_value() && has_crown(tree); },
      "a position and crown radii", "enter both");
}

const TreeAssessment* assessed(Data data, const Tree& tree) {
  const auto& trees = data.assessment.trees;
  const auto found = std::find_if(trees.begin(), trees.end(),
                                  [&](const TreeAssessment& one) { return one.tree == tree.id; });
  return found == trees.end() ? nullptr : &*found;
}
CheckAnswer verdicts(Data data) {
  return all_trees(
      data,
      [&](const Tree& tree) {
        const TreeAssessment* one = assessed(data, tree);
        return one && one->verdict.action != Action::undecided;
      },
      "a verdict", "enter what the verdicts name as missing");
}
CheckAnswer zones(Data data) {
  return all_trees(
      data,
      [&](const Tree& tree) {
        const TreeAssessment* one = assessed(data, tree);
        return one && !one->zones.empty();
      },
      "a zone by any chosen rule", "choose a rule that is for them, or measure them");
}
CheckAnswer zones_yours(Data data) {
  return half(zones(data), "How each encroachment is reduced is for you to say.");
}
CheckAnswer answers(Data data) {
  return half(
      all_trees(
          data,
          [&](const Tree& tree) {
            const TreeAssessment* one = assessed(data, tree);
            return one && one->verdict.vitality != Concern::unknown &&
                   one->verdict.stability != Concern::unknown;
          },
          "an answer on vitality and one on stability", "enter what the verdicts name as missing"),
      "What it means in the long run is for you to say.");
}

CheckAnswer existing_levels(Data data) {
  if (!data.site.existing_levels) return missing("Existing levels are missing: add the survey.");
  return yours("Existing levels are there; see that they reach every trunk.");
}
CheckAnswer both_levels(Data data) {
  if (!data.site.existing_levels) return missing("Existing levels are missing: add the survey.");
  if (!data.site.proposed_levels)
    return missing("Proposed levels are missing: add the grading, or say that none is proposed.");
  return yours("Both levels are there; whether the plan shows them is for you to see.");
}
CheckAnswer cut_and_fill(Data data) {
  const auto& works = data.site.works;
  std::size_t all = 0;
  std::vector<std::string> lacking;
  for (const Work& work : works) {
    if (work.kind != WorkKind::cut && work.kind != WorkKind::fill) continue;
    ++all;
    if (!is_above_zero(work.depth)) lacking.push_back(work.id);
  }
  if (!lacking.empty())
    return missing("Cuts or fills lack their depth: enter it.", std::move(lacking));
  if (all == 0 && !data.site.proposed_levels)
    return not_applicable("No cut, fill or change of levels is entered.");
  return yours("Cut and fill are entered; the amounts on the plan are for you to see.");
}
CheckAnswer off_site_trees(Data data) {
  if (data.site.boundary.empty()) return missing("The boundary is missing: enter it.");
  return yours(
      "The boundary is there; whether every tree beyond it that reaches the site was "
      "surveyed is for you to say.");
}
CheckAnswer boundary(Data data) {
  if (data.site.boundary.empty()) return missing("The boundary is missing: enter it.");
  return yours("The boundary is there; rights of way and easements are for you to say.");
}
CheckAnswer gates(Data data) {
  if (data.site.gates.empty()) return missing("No gate is entered: enter where machines come in.");
  return yours("Gates are there; storage, washout and site huts are for you to say.");
}

CheckAnswer buildings(Data data) {
  const auto building = [](const Barrier& one) { return one.kind == BarrierKind::building; };
  const auto proposed = [](const Work& one) { return one.kind == WorkKind::building; };
  const auto& site = data.site;
  const bool any = std::any_of(site.barriers.begin(), site.barriers.end(), building) ||
                   std::any_of(site.works.begin(), site.works.end(), proposed);
  if (!any) return missing("No building is entered: enter them, or say that there is none.");
  return yours("Buildings are entered; whether all are there is for you to say.");
}
CheckAnswer pavings(Data data) {
  const auto paving = [](const Work& one) { return one.kind == WorkKind::paving; };
  const auto& site = data.site;
  if (site.surfaces.empty() && std::none_of(site.works.begin(), site.works.end(), paving))
    return missing("No paving is entered: enter it, or say that there is none.");
  return yours(
      "Paving is entered; whether all of it and the drainage are there is for you to say.");
}

CheckAnswer title_block(Data data) {
  const ProjectSettings& settings = data.site.settings;
  std::vector<std::string> lacking;
  if (!filled(settings.title)) lacking.emplace_back("title");
  if (!filled(settings.address)) lacking.emplace_back("address");
  if (!filled(settings.date)) lacking.emplace_back("date");
  if (lacking.empty()) return present("Title, address and date are set.");
  return missing("The title block lacks its " + joined(lacking, ", ") +
                 ": enter it in the settings.");
}
CheckAnswer names(Data data) {
  const ProjectSettings& settings = data.site.settings;
  if (!filled(settings.client) || !filled(settings.author))
    return missing("Client or author is missing: enter both in the settings.");
  return yours("Names are set; addresses and telephone numbers are for you to add.");
}
CheckAnswer cover(Data data) {
  const ProjectSettings& settings = data.site.settings;
  if (!filled(settings.author) || !filled(settings.credentials))
    return missing("Author or credentials are missing: enter both in the settings.");
  return title_block(data);
}
CheckAnswer credentials(Data data) {
  if (!filled(data.site.settings.credentials))
    return missing("The credentials are missing: enter them in the settings.");
  return yours(
      "Credentials are set; whether they are what the authority demands is for you to see.");
}
CheckAnswer version(Data data) {
  const ProjectSettings& settings = data.site.settings;
  std::vector<std::string> lacking;
  if (!filled(settings.revision)) lacking.emplace_back("revision");
  if (!filled(settings.author)) lacking.emplace_back("author");
  if (!filled(settings.date)) lacking.emplace_back("date");
  if (!filled(settings.status)) lacking.emplace_back("status");
  if (!lacking.empty())
    return missing("The version lacks its " + joined(lacking, ", ") +
                   ": enter it in the settings.");
  return yours("Version, author, date and status are set; the checker is for you to name.");
}

bool is_proposed(const Work& work) {
  return work.state != WorkState::existing;
}
CheckAnswer works_drawn(Data data) {
  std::vector<std::string> lacking;
  std::size_t all = 0;
  for (const Work& work : data.site.works) {
    if (!is_proposed(work)) continue;
    ++all;
    if (work.shape.empty()) lacking.push_back(work.id);
  }
  if (all == 0) return missing("No proposed work is entered: add the drawings.");
  if (!lacking.empty()) return missing("Works without a shape: draw them.", std::move(lacking));
  return present(std::to_string(all) + " proposed works are drawn.");
}
CheckAnswer dig_sizes(Data data) {
  std::vector<std::string> lacking;
  std::size_t all = 0;
  for (const Work& work : data.site.works) {
    if (!is_proposed(work) || !work.digs()) continue;
    ++all;
    const bool wide = work.kind != WorkKind::trench || is_above_zero(work.width);
    if (!wide || !is_above_zero(work.depth)) lacking.push_back(work.id);
  }
  if (all == 0) return not_applicable("No proposed work digs.");
  if (!lacking.empty())
    return missing("Digs without depth or width: enter both.", std::move(lacking));
  return present(std::to_string(all) + " digs have their depth, width and method.");
}
CheckAnswer severing_works(Data data) {
  const auto& works = data.site.works;
  const auto severs = [](const Work& work) { return is_proposed(work) && work.digs(); };
  if (std::none_of(works.begin(), works.end(), severs))
    return not_applicable("No proposed work digs or cuts roots.");
  return applies();
}
CheckAnswer traffic_works(Data data) {
  const auto& works = data.site.works;
  const auto drives = [](const Work& work) {
    return is_proposed(work) && work.kind == WorkKind::traffic;
  };
  if (std::none_of(works.begin(), works.end(), drives))
    return not_applicable("No traffic or storage on the ground is entered.");
  return applies();
}

bool verdict_is(Data data, const Tree& tree, Action action) {
  const TreeAssessment* one = assessed(data, tree);
  return one && one->verdict.action == action;
}
CheckAnswer removed_trees(Data data) {
  const auto& trees = data.site.trees;
  const auto goes = [&](const Tree& tree) {
    return tree.intent == Intent::remove || verdict_is(data, tree, Action::remove);
  };
  if (std::none_of(trees.begin(), trees.end(), goes))
    return not_applicable("No tree is to be removed.");
  return applies();
}
CheckAnswer moved_trees(Data data) {
  const auto& trees = data.site.trees;
  const auto moves = [&](const Tree& tree) {
    return tree.intent == Intent::move || verdict_is(data, tree, Action::transplant);
  };
  if (std::none_of(trees.begin(), trees.end(), moves))
    return not_applicable("No tree is to be moved.");
  return applies();
}
CheckAnswer others_trees(Data data) {
  CheckAnswer answer = owners(data);
  if (answer.state != State::present) return answer;
  const auto& trees = data.site.trees;
  const auto other = [](const Tree& tree) { return lower_case(tree.ownership) != "client"; };
  const auto count = std::count_if(trees.begin(), trees.end(), other);
  if (count == 0) return not_applicable("Every tree is entered as the client's.");
  return yours(std::to_string(count) + " trees are not the client's; speak of them apart.");
}
// Major: a limit passed whose rule asks for a justification or refuses.
bool is_major(const TreeAssessment& one) {
  using Weight = LimitDefinition::Weight;
  for (const ZoneAssessment& zone : one.zones)
    for (const LimitResult& limit : zone.limits)
      if (limit.passed_over && (limit.weight == Weight::justify || limit.weight == Weight::refuse))
        return true;
  return false;
}
CheckAnswer roots_looked_for(Data data) {
  std::size_t major = 0;
  std::vector<std::string> lacking;
  for (const Tree& tree : data.site.trees) {
    const TreeAssessment* one = assessed(data, tree);
    if (one == nullptr || !is_major(*one)) continue;
    ++major;
    const auto of_tree = [&](const Evidence& found) {
      return found.tree == tree.id || (!found.tree.empty() && found.tree == tree.tag);
    };
    const auto& evidence = data.site.evidence;
    if (std::none_of(evidence.begin(), evidence.end(), of_tree)) lacking.push_back(tree.label());
  }
  if (major == 0) return not_applicable("No tree passes a limit that asks for a justification.");
  if (lacking.empty()) return present("Roots of every such tree were looked for in pits.");
  return missing("Dig a pit where the works come and enter what roots were found.",
                 std::move(lacking));
}

struct NamedCheck {
  std::string_view name;
  SubmittalCheck check;
};
constexpr std::array kChecks = {
    NamedCheck{"tree-numbers", tree_numbers},
    NamedCheck{"botanical-names", botanical_names},
    NamedCheck{"common-names", common_names},
    NamedCheck{"stem-diameters", stem_diameters},
    NamedCheck{"several-stems", several_stems},
    NamedCheck{"leaning-stems", leaning_stems},
    NamedCheck{"girths", girths},
    NamedCheck{"palms", palms},
    NamedCheck{"heights", heights},
    NamedCheck{"crowns", crowns},
    NamedCheck{"crown-bases", crown_bases},
    NamedCheck{"life-stages", life_stages},
    NamedCheck{"conditions", conditions},
    NamedCheck{"categories", categories},
    NamedCheck{"protections", protections},
    NamedCheck{"owners", owners},
    NamedCheck{"flares", flares},
    NamedCheck{"intents", intents},
    NamedCheck{"intents-drawn", intents_drawn},
    NamedCheck{"positions", positions},
    NamedCheck{"positions-and-crowns", positions_and_crowns},
    NamedCheck{"verdicts", verdicts},
    NamedCheck{"zones", zones},
    NamedCheck{"zones-yours", zones_yours},
    NamedCheck{"answers", answers},
    NamedCheck{"existing-levels", existing_levels},
    NamedCheck{"both-levels", both_levels},
    NamedCheck{"cut-and-fill", cut_and_fill},
    NamedCheck{"off-site-trees", off_site_trees},
    NamedCheck{"boundary", boundary},
    NamedCheck{"gates", gates},
    NamedCheck{"buildings", buildings},
    NamedCheck{"pavings", pavings},
    NamedCheck{"title-block", title_block},
    NamedCheck{"names", names},
    NamedCheck{"cover", cover},
    NamedCheck{"credentials", credentials},
    NamedCheck{"version", version},
    NamedCheck{"works-drawn", works_drawn},
    NamedCheck{"dig-sizes", dig_sizes},
    NamedCheck{"severing-works", severing_works},
    NamedCheck{"traffic-works", traffic_works},
    NamedCheck{"removed-trees", removed_trees},
    NamedCheck{"moved-trees", moved_trees},
    NamedCheck{"others-trees", others_trees},
    NamedCheck{"roots-looked-for", roots_looked_for},
};

}  // namespace

SubmittalCheck submittal_check(std::string_view name) {
  const auto found = std::find_if(kChecks.begin(), kChecks.end(),
                                  [&](const NamedCheck& one) { return one.name == name; });
  return found == kChecks.end() ? nullptr : found->check;
}

}  // namespace rootstead
