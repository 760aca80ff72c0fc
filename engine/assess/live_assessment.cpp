#include "engine/assess/live_assessment.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

#include "engine/assess/assess_trees.hpp"

namespace rootstead {

struct LiveAssessment::State {
  State(Site a_site, const Tables& the_tables, AssessOptions the_options)
      : site(std::move(a_site)),
        tables(the_tables),
        options(std::move(the_options)),
        models(site, tables, RootModels::Keep::all) {}

  TreeAssessor assessor() { return {site, tables, *works, rules, options, models}; }
  void start();
  std::vector<std::string> assess_again(std::string_view work, GroundChange change);
  const Assessment& with_problems() const;
  bool met(std::size_t tree, const GroundChange& change) const;

  Site site;
  const Tables& tables;
  AssessOptions options;
  RootModels models;
  std::vector<const ZoneRule*> rules;
  std::vector<Problem> rule_problems;
  std::unique_ptr<WorkMap> works;
  std::vector<Length> reaches;  // by tree
  mutable Assessment assessment;
  mutable bool problems_known = true;  // as the site is now
};

void LiveAssessment::State::start() {
  works = std::make_unique<WorkMap>(site);
  std::vector<std::size_t> all(site.trees.size());
  std::iota(all.begin(), all.end(), 0U);
  reaches.resize(all.size());
  const TreeAssessor assessor = this->assessor();
  const auto assess_one = [&](std::size_t i, StageTimes& times) {
    TreeAssessment tree = assessor.assess(site.trees[i], times);
    reaches[i] = assessor.reach(site.trees[i], tree);
    return tree;
  };
  assess_trees(all, assess_one, options, assessment);
}

bool LiveAssessment::State::met(std::size_t tree, const GroundChange& change) const {
  const std::vector<ZoneAssessment>& zones = assessment.trees[tree].zones;
  return change.within(reaches[tree], site.trees[tree].position->at) ||
         std::any_of(zones.begin(), zones.end(),
                     [&](const ZoneAssessment& one) { return change.merged_within(one.zone); });
}

// `change` holds the ground that the work had before; the site has it where it is now.
std::vector<std::string> LiveAssessment::State::assess_again(std::string_view work,
                                                             GroundChange change) {
  works = std::make_unique<WorkMap>(site, *works, work);
  change.add(works->ground_of(work));
  if (!options.answers_only) change.merged_anew = works->merged_anew();
  std::vector<std::size_t> which;
  std::vector<std::string> ids;
  for (std::size_t i = 0; i < site.trees.size(); ++i) {
    const Tree& tree = site.trees[i];
    if (!tree.position || !met(i, change)) continue;
    if (change.in_the_ground) models.forget(tree);
    which.push_back(i);
    ids.push_back(tree.id);
  }
  problems_known = false;
  const TreeAssessor assessor = this->assessor();
  const auto assess_one = [&](std::size_t i, StageTimes& times) {
    return assessor.assess_again(site.trees[i], change, assessment.trees[i], times);
  };
  assess_trees(which, assess_one, options, assessment);
  return ids;
}

const Assessment& LiveAssessment::State::with_problems() const {
  if (problems_known) return assessment;
  assessment.problems = problems_of(site);
  assessment.problems.insert(assessment.problems.end(), rule_problems.begin(), rule_problems.end());
  problems_known = true;
  return assessment;
}

Result<LiveAssessment> LiveAssessment::start(Site site, const Tables& tables,
                                             const AssessOptions& options) {
  auto state = std::make_unique<State>(std::move(site), tables, options);
  ROOTSTEAD_TRY(state->assessment, empty_assessment(state->site, tables, options));
  ROOTSTEAD_TRY(state->rules, rules_to_apply(state->site, tables, state->rule_problems));
  for (const Problem& problem : state->rule_problems) state->assessment.problems.push_back(problem);
  state->start();
  return LiveAssessment(std::move(state));
}

LiveAssessment::LiveAssessment(std::unique_ptr<State> state) : state_(std::move(state)) {}
LiveAssessment::LiveAssessment(LiveAssessment&&) noexcept = default;
LiveAssessment& LiveAssessment::operator=(LiveAssessment&&) noexcept = default;
LiveAssessment::~LiveAssessment() = default;

const Site& LiveAssessment::site() const {
  return state_->site;
}

const Assessment& LiveAssessment::assessment() const {
  return state_->with_problems();
}

const std::vector<TreeAssessment>& LiveAssessment::trees() const {
  return state_->assessment.trees;
}

const RootSimulation& LiveAssessment::simulation() const {
  return state_->options.simulation;
}

std::vector<std::string> LiveAssessment::put(Work work) {
  std::vector<Work>& works = state_->site.works;
  const std::string id = work.id;
  const auto old =
      std::find_if(works.begin(), works.end(), [&](const Work& other) { return other.id == id; });
  GroundChange change;
  change.add(state_->works->ground_of(id));
  change.in_the_ground = !is_new(work) || (old != works.end() && !is_new(*old));
  if (old == works.end())
    works.push_back(std::move(work));
  else
    *old = std::move(work);
  return state_->assess_again(id, std::move(change));
}

std::vector<std::string> LiveAssessment::remove(std::string_view work) {
  std::vector<Work>& works = state_->site.works;
  const auto old =
      std::find_if(works.begin(), works.end(), [&](const Work& other) { return other.id == work; });
  if (old == works.end()) return {};
  const std::string id = old->id;
  GroundChange change;
  change.add(state_->works->ground_of(id));
  change.in_the_ground = !is_new(*old);
  works.erase(old);
  return state_->assess_again(id, std::move(change));
}

}  // namespace rootstead
