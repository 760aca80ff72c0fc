#include "engine/sureness/sureness.hpp"

#include <algorithm>
#include <atomic>
#include <cassert>
#include <cmath>
#include <mutex>
#include <thread>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "engine/base/words.hpp"
#include "engine/sureness/tree_tally.hpp"

namespace rootstead {
namespace {

constexpr double kCentralNormal95 = 1.959963984540054;
constexpr double kLowQuantile = 0.1, kHighQuantile = 0.9;
// A worth is told where it stands out of the sampling: over twice its standard error. Our choice.
constexpr double kErrorsToTell = 2;

constexpr Words<Worth::Measurement, 3> kMeasurementWords{{
    {Worth::Measurement::position, "position"},
    {Worth::Measurement::size, "size"},
    {Worth::Measurement::pit, "pit"},
}};

// Every tree by whichever thread is free, each into its own place.
std::vector<TreeTally> tallies(const Site& site, const TreeTrial& trial,
                               const Assessment& assessment, const Tables& tables,
                               const SurenessOptions& options) {
  std::vector<TreeTally> made(site.trees.size());
  std::atomic<std::size_t> next = 0;
  std::size_t done = 0;
  std::mutex shared;
  const auto work = [&] {
    for (std::size_t i = next++; i < made.size(); i = next++) {
      made[i] = tally(site.trees[i], trial, assessment.trees[i], tables, options);
      if (!options.progress) continue;
      const std::lock_guard lock(shared);
      options.progress(++done, made.size());
    }
  };
  const auto machine = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
  const int threads = std::min(options.threads > 0 ? options.threads : machine,
                               static_cast<int>(site.trees.size()));
  std::vector<std::thread> helpers;
  for (int i = 1; i < threads; ++i) helpers.emplace_back(work);
  work();
  for (std::thread& helper : helpers) helper.join();
  return made;
}

std::string known_text(const InputError& error, const std::string& amount) {
  return "taken as off by " + amount + ", " + error.known;
}

std::string what_to_measure(const TreeErrors& errors, const Tree& tree) {
  const std::string share = known_text(errors.size, percent(errors.size.sigma));
  return errors.of_height
             ? "Measure the height of " + tree.label() + " with an instrument (" + share + ")."
             : "Measure the girth of " + tree.label() + " with a tape round the stem (" + share +
                   ").";
}

std::string where_to_dig(const NextPit& pit, const Tree& tree, const AmountText& amount) {
  return "Dig a pit " + amount.length(pit.side) + " square and " + amount.length(pit.depth) +
         " deep at " + tree.label() + ", " + amount.length(pit.from_stem) +
         " from the stem on bearing " + fixed_number(pit.bearing.degrees(), 0) +
         "°, by hand or air, and record the roots.";
}

class WorthList {
 public:
  WorthList(const Site& site, const Assessment& assessment, int draws)
      : amount_{site.settings.units}, site_(site), assessment_(assessment), draws_(draws) {}

  void add_tree(std::size_t i, const TreeTally& tally) {
    const Tree& tree = site_.trees[i];
    const TreeErrors& errors = tally.sureness.errors;
    using Measurement = Worth::Measurement;
    add(tree, Measurement::position, tally.position_known,
        "Survey the stem of " + tree.label() + " with an instrument (" +
            known_text(errors.position, amount_.length(Length::metres(errors.position.sigma))) +
            ").");
    add(tree, Measurement::size, tally.size_known, what_to_measure(errors, tree));
    const auto& roots = assessment_.trees[i].roots;
    if (roots && roots->next_pit)
      add(tree, Measurement::pit, tally.pit_dug, where_to_dig(*roots->next_pit, tree, amount_));
  }
  // The largest first; of equals the one that comes first on the site.
  std::vector<Worth> sorted() && {
    std::stable_sort(list_.begin(), list_.end(),
                     [](const Worth& a, const Worth& b) { return a.fewer > b.fewer; });
    return std::move(list_);
  }

 private:
  void add(const Tree& tree, Worth::Measurement measurement, const Difference& known,
           std::string what) {
    const double fewer = known.fewer(draws_), error = known.standard_error(draws_);
    if (fewer > 0 && fewer > kErrorsToTell * error)
      list_.push_back({tree.id, measurement, fewer, error, std::move(what)});
  }
  AmountText amount_;
  const Site& site_;
  const Assessment& assessment_;
  int draws_;
  std::vector<Worth> list_;
};

void add_notes(Sureness& sureness) {
  std::vector<std::string> few, undecided;
  for (const TreeSureness& tree : sureness.trees) {
    if (tree.few_draws_differ) few.push_back(tree.tree);
    if (!tree.decided) undecided.push_back(tree.tree);
  }
  if (!few.empty())
    sureness.notes.push_back(
        {NoteCode::few_draws_differ, joined(few, ", "),
         "With the few draws of the root model taken here another answer is given than with the "
         "project's own: the verdict hangs by a hair, and the shares count from that answer."});
  if (!undecided.empty())
    sureness.notes.push_back({NoteCode::sureness_undecided, joined(undecided, ", "),
                              "Undecided for want of data: nothing was drawn."});
}

Result<Nothing> check(const SurenessOptions& options) {
  if (options.draws > 0 && options.root_draws > 0) return Nothing{};
  return Error{Code::wrong_use, "draws", "at least one draw is needed", "give a number above 0"};
}

}  // namespace

Answers answers_of(const Verdict& verdict) {
  return {verdict.action, verdict.vitality, verdict.stability};
}

Range share_of(int changed, int draws) {
  assert(draws > 0 && changed >= 0 && changed <= draws);
  const double n = draws, p = changed / n, z2 = kCentralNormal95 * kCentralNormal95;
  const double centre = (p + z2 / (2 * n)) / (1 + z2 / n);
  const double half =
      kCentralNormal95 * std::sqrt(p * (1 - p) / n + z2 / (4 * n * n)) / (1 + z2 / n);
  return {changed == 0 ? 0 : centre - half, p, changed == draws ? 1 : centre + half};
}

double value_at(const Range& range, double quantile) {
  const double q = std::clamp(quantile, kLowQuantile, kHighQuantile);
  if (q <= 0.5)
    return range.low + (range.best - range.low) * (q - kLowQuantile) / (0.5 - kLowQuantile);
  return range.best + (range.high - range.best) * (q - 0.5) / (kHighQuantile - 0.5);
}

Range slid(const Range& range, double quantile, double spread_left) {
  const double by = spread_left * (value_at(range, quantile) - range.best);
  const auto at = [&](double value) { return std::clamp(value + by, 0.0, 1.0); };
  return {at(range.low), at(range.best), at(range.high)};
}

std::string_view to_text(Worth::Measurement measurement) {
  return word_for(kMeasurementWords, measurement);
}

Result<Sureness> sureness_of(const Site& site, const Tables& tables,
                             const SurenessOptions& options) {
  ROOTSTEAD_CHECK(check(options));
  AssessOptions told, quick;
  told.simulation = quick.simulation = options.as_entered;
  told.threads = options.threads;
  quick.simulation.draws = options.root_draws;
  quick.answers_only = true;
  ROOTSTEAD_TRY(const Assessment assessment, assess(site, tables, told));
  ROOTSTEAD_TRY(const TreeTrial trial, TreeTrial::start(site, tables, quick));

  Sureness made;
  made.draws = options.draws;
  made.root_draws = options.root_draws;
  made.seed = options.seed;
  made.cautions = assessment.cautions;
  WorthList worth(site, assessment, options.draws);
  std::size_t i = 0;
  for (TreeTally& one : tallies(site, trial, assessment, tables, options)) {
    made.expected += static_cast<double>(one.sureness.all.any) / options.draws;
    made.fewer_by_positions += one.position_known.fewer(options.draws);
    made.fewer_by_sizes += one.size_known.fewer(options.draws);
    made.fewer_by_pits += one.pit_dug.fewer(options.draws);
    worth.add_tree(i++, one);
    made.trees.push_back(std::move(one.sureness));
  }
  made.worth = std::move(worth).sorted();
  add_notes(made);
  return made;
}

}  // namespace rootstead
