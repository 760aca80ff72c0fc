#include "engine/sureness/tree_tally.hpp"

#include <algorithm>
#include <cmath>

namespace rootstead {
namespace {

constexpr double kLowEnd = 0.1, kHighEnd = 0.9;  // of a Range, by its definition

// One draw of everything that may be off: what was measured, and where in their ranges the loss of
// fine roots and the anchorage kept lie.
struct Draw {
  Deviates off;
  double loss = 0.5, kept = 0.5;  // quantiles
};

// The numbers of a draw hang on nothing but seed, tree and draw, so that a wider error stretches
// them and a missing measurement of another tree moves none.
Draw draw_of(const Tree& tree, const SurenessOptions& options, int draw) {
  auto stream = RandomStream::in_strata(options.seed, "sureness of " + tree.id,
                                        static_cast<std::uint32_t>(draw),
                                        static_cast<std::uint32_t>(options.draws));
  Draw made;
  made.off.east = stream.normal(0, 1);
  made.off.north = stream.normal(0, 1);
  made.loss = stream.uniform();
  made.kept = stream.uniform();
  for (std::size_t i = 0; i <= tree.stems.size(); ++i)
    made.off.sizes.push_back(stream.normal(0, 1));
  return made;
}

class Counter {
 public:
  Counter(const TreeTrial& trial, Answers entered) : trial_(trial), entered_(entered) {}

  Answers answers(const Tree& tree, const TreeAssessment& assessed) const {
    return answers_of(trial_.verdict(tree, assessed));
  }
  // The answers with the estimates slid; `assessed` is as before in the end.
  Answers answers_slid(const Tree& tree, TreeAssessment& assessed, double loss, double kept,
                       double spread_left = 1) const {
    const auto loss_before = assessed.roots ? assessed.roots->all : Range{};
    const auto kept_before = assessed.anchorage ? assessed.anchorage->kept : Range{};
    if (assessed.roots) assessed.roots->all = slid(loss_before, loss, spread_left);
    if (assessed.anchorage) assessed.anchorage->kept = slid(kept_before, kept);
    const Answers told = answers(tree, assessed);
    if (assessed.roots) assessed.roots->all = loss_before;
    if (assessed.anchorage) assessed.anchorage->kept = kept_before;
    return told;
  }
  bool differs(const Answers& told) const { return told != entered_; }
  bool count(const Answers& told, Changed& changed) const {
    changed.action += static_cast<int>(told.action != entered_.action);
    changed.health += static_cast<int>(told.health != entered_.health);
    changed.stability += static_cast<int>(told.stability != entered_.stability);
    changed.any += static_cast<int>(differs(told));
    return differs(told);
  }

 private:
  const TreeTrial& trial_;
  Answers entered_;
};

}  // namespace

double Difference::fewer(int draws) const {
  return static_cast<double>(sum) / draws;
}

double Difference::standard_error(int draws) const {
  if (draws < 2) return 0;
  const double mean = fewer(draws);
  const double variance = (squares - draws * mean * mean) / (draws - 1);
  return std::sqrt(std::max(variance, 0.0) / draws);
}

TreeTally tally(const Tree& tree, const TreeTrial& trial, const TreeAssessment& entered,
                const Tables& tables, const SurenessOptions& options) {
  TreeTally made;
  TreeSureness& sure = made.sureness;
  sure.tree = tree.id;
  sure.entered = sure.most_lost = sure.least_lost = answers_of(entered.verdict);
  sure.errors = errors_of(tree, tables);
  sure.decided = tree.position && sure.entered.action != Action::undecided;
  if (!sure.decided) return made;

  TreeAssessment as_entered = trial.assess(tree);
  const Answers few = answers_of(as_entered.verdict);
  sure.few_draws_differ = few != sure.entered;
  const Counter counter(trial, few);
  sure.most_lost = counter.answers_slid(tree, as_entered, kHighEnd, kLowEnd);
  sure.least_lost = counter.answers_slid(tree, as_entered, kLowEnd, kHighEnd);
  const auto& pit = entered.roots ? entered.roots->next_pit : std::nullopt;
  const bool place_is_off = sure.errors.position.sigma > 0;
  const bool size_is_off = sure.errors.size.sigma > 0;
  for (int i = 0; i < options.draws; ++i) {
    const Draw draw = draw_of(tree, options, i);
    const Tree there = moved(tree, sure.errors, draw.off);
    const Tree thicker = resized(tree, sure.errors, draw.off);
    const Tree both = moved(thicker, sure.errors, draw.off);
    TreeAssessment elsewhere = place_is_off ? trial.assess(there) : as_entered;
    TreeAssessment larger = size_is_off ? trial.assess(thicker) : as_entered;
    TreeAssessment all = !size_is_off ? elsewhere : place_is_off ? trial.assess(both) : larger;
    counter.count(answers_of(elsewhere.verdict), sure.positions);
    counter.count(answers_of(larger.verdict), sure.sizes);
    counter.count(counter.answers_slid(tree, as_entered, draw.loss, draw.kept), sure.roots);
    const bool changed =
        counter.count(counter.answers_slid(both, all, draw.loss, draw.kept), sure.all);
    const auto changed_still = [&](const Tree& known, TreeAssessment& assessed, double left) {
      return counter.differs(counter.answers_slid(known, assessed, draw.loss, draw.kept, left));
    };
    made.position_known.add(changed, changed_still(thicker, larger, 1));
    made.size_known.add(changed, changed_still(there, elsewhere, 1));
    if (pit) made.pit_dug.add(changed, changed_still(both, all, pit->spread_left));
  }
  return made;
}

}  // namespace rootstead
