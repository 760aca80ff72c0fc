#include "engine/assess/tree_trial.hpp"

#include "engine/assess/assess_trees.hpp"

namespace rootstead {

struct TreeTrial::State {
  State(const Site& site, const Tables& tables, std::vector<const ZoneRule*> rules,
        AssessOptions how)
      : options(std::move(how)),
        works(site),
        models(site, tables, RootModels::Keep::none),
        assessor(site, tables, works, std::move(rules), options, models) {}

  AssessOptions options;
  WorkMap works;
  RootModels models;
  TreeAssessor assessor;
};

TreeTrial::TreeTrial(std::unique_ptr<State> state) : state_(std::move(state)) {}
TreeTrial::TreeTrial(TreeTrial&&) noexcept = default;
TreeTrial& TreeTrial::operator=(TreeTrial&&) noexcept = default;
TreeTrial::~TreeTrial() = default;

Result<TreeTrial> TreeTrial::start(const Site& site, const Tables& tables,
                                   const AssessOptions& options) {
  ROOTSTEAD_TRY(Assessment checked, empty_assessment(site, tables, options));
  ROOTSTEAD_TRY(auto rules, rules_to_apply(site, tables, checked.problems));
  return TreeTrial(std::make_unique<State>(site, tables, std::move(rules), options));
}

TreeAssessment TreeTrial::assess(const Tree& tree) const {
  StageTimes times;
  return state_->assessor.assess(tree, times);
}

Verdict TreeTrial::verdict(const Tree& tree, const TreeAssessment& assessed) const {
  return state_->assessor.verdict(tree, assessed);
}

}  // namespace rootstead
