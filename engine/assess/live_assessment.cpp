#include "engine/assess/live_assessment.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

#include "engine/assess/assess_trees.hpp"
#include "engine/geom/measure.hpp"

namespace rootstead {

struct LiveAssessment::State {
  State(Site a_site, const Tables& the_tables, AssessOptions the_options)
      : site(std::move(a_site)),
        tables(the_tables),
        options(std::move(the_options)),
        models(site, tables, RootModels::Keep::all) {}

  std::vector<std::string> change(const std::vector<Box>& changed, bool in_the_ground);
  void assess(const std::vector<std::size_t>& which);
  Box box_of_work(std::string_view id) const;

  Site site;
  const Tables& tables;
  AssessOptions options;
  RootModels models;
  std::vector<const ZoneRule*> rules;
  std::vector<Problem> rule_problems;
  std::unique_ptr<WorkMap> works;
  std::vector<Length> reaches;  // by tree
  Assessment assessment;
};

void LiveAssessment::State::assess(const std::vector<std::size_t>& which) {
  works = std::make_unique<WorkMap>(site);
  const TreeAssessor assessor(site, tables, *works, rules, options, models);
  assess_trees(site, which, assessor, options, assessment);
  reaches.resize(site.trees.size());
  for (const std::size_t i : which) reaches[i] = assessor.reach(site.trees[i], assessment.trees[i]);
}

Box LiveAssessment::State::box_of_work(std::string_view id) const {
  return works->entry(id).box;
}

// `in_the_ground`: existing works are part of what roots meet, so models made with them are void.
std::vector<std::string> LiveAssessment::State::change(const std::vector<Box>& changed,
                                                       bool in_the_ground) {
  std::vector<std::size_t> which;
  std::vector<std::string> ids;
  for (std::size_t i = 0; i < site.trees.size(); ++i) {
    const Tree& tree = site.trees[i];
    const bool met =
        tree.position && std::any_of(changed.begin(), changed.end(), [&](const Box& box) {
          return !box.empty() && distance(tree.position->at, box) <= reaches[i];
        });
    if (!met) continue;
    if (in_the_ground) models.forget(tree);
    which.push_back(i);
    ids.push_back(tree.id);
  }
  assessment.problems = problems_of(site);
  assessment.problems.insert(assessment.problems.end(), rule_problems.begin(), rule_problems.end());
  assess(which);
  return ids;
}

Result<LiveAssessment> LiveAssessment::start(Site site, const Tables& tables,
                                             const AssessOptions& options) {
  auto state = std::make_unique<State>(std::move(site), tables, options);
  ROOTSTEAD_TRY(state->assessment, empty_assessment(state->site, tables, options));
  ROOTSTEAD_TRY(state->rules, rules_to_apply(state->site, tables, state->rule_problems));
  for (const Problem& problem : state->rule_problems) state->assessment.problems.push_back(problem);
  std::vector<std::size_t> all(state->site.trees.size());
  std::iota(all.begin(), all.end(), 0U);
  state->assess(all);
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
  return state_->assessment;
}

std::vector<std::string> LiveAssessment::put(Work work) {
  std::vector<Work>& works = state_->site.works;
  const std::string id = work.id;
  const auto old =
      std::find_if(works.begin(), works.end(), [&](const Work& other) { return other.id == id; });
  bool in_the_ground = !is_new(work);
  std::vector<Box> changed;
  if (old == works.end()) {
    works.push_back(std::move(work));
  } else {
    in_the_ground = in_the_ground || !is_new(*old);
    changed.push_back(state_->box_of_work(id));
    *old = std::move(work);
  }
  changed.push_back(box_of(footprint(*state_->site.work(id), true)));
  return state_->change(changed, in_the_ground);
}

std::vector<std::string> LiveAssessment::remove(std::string_view work) {
  std::vector<Work>& works = state_->site.works;
  const auto old =
      std::find_if(works.begin(), works.end(), [&](const Work& other) { return other.id == work; });
  if (old == works.end()) return {};
  const bool in_the_ground = !is_new(*old);
  const Box box = state_->box_of_work(work);
  works.erase(old);
  return state_->change({box}, in_the_ground);
}

}  // namespace rootstead
