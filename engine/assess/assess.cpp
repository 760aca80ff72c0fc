#include "engine/assess/assess.hpp"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <numeric>
#include <thread>

#include "engine/assess/assess_trees.hpp"
#include "engine/base/text.hpp"

namespace rootstead {
namespace {

// Where the project names none. It draws one circle for every stem and is the most widely used.
constexpr std::string_view kDefaultRule = "bs5837-2012";

Result<std::vector<const ZoneRule*>> rules_named(const std::vector<std::string>& ids,
                                                 const Tables& tables) {
  std::vector<const ZoneRule*> rules;
  for (const std::string& id : ids) {
    const ZoneRule* rule = tables.rule(id);
    if (rule == nullptr) {
      return Error{Code::unknown_name, "settings", "there is no rule \"" + id + "\"",
                   "choose one of those that `rootstead rule list` names"};
    }
    if (std::find(rules.begin(), rules.end(), rule) == rules.end()) rules.push_back(rule);
  }
  return rules;
}

}  // namespace

Result<std::vector<const ZoneRule*>> rules_to_apply(const Site& site, const Tables& tables,
                                                    std::vector<Problem>& problems) {
  if (!site.settings.rules.empty()) return rules_named(site.settings.rules, tables);
  Problem problem;
  problem.code = NoteCode::rule_chosen_by_default;
  problem.subject = "settings";
  problem.message = "no zone rule is chosen, so " + std::string(kDefaultRule) + " was used";
  problem.remedy = "name the rules that apply where the site lies";
  problems.push_back(std::move(problem));
  return rules_named({std::string(kDefaultRule)}, tables);
}

namespace {

int thread_count(const AssessOptions& options, std::size_t trees) {
  const int wanted = options.threads > 0
                         ? options.threads
                         : static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
  return std::min(wanted, static_cast<int>(trees));
}

void add(StageTimes& sum, const StageTimes& part) {
  sum.zones += part.zones;
  sum.losses += part.losses;
  sum.roots += part.roots;
  sum.anchorage += part.anchorage;
  sum.verdicts += part.verdicts;
}

}  // namespace

// Every tree by whichever thread is free. Each result has its own place and depends on nothing but
// its tree, so the number of threads changes nothing.
void assess_trees(const std::vector<std::size_t>& which, const AssessOne& assess_one,
                  const AssessOptions& options, Assessment& assessment) {
  std::atomic<std::size_t> next = 0;
  std::size_t done = 0;
  std::mutex shared;
  const auto work = [&] {
    StageTimes times;
    for (std::size_t i = next++; i < which.size(); i = next++) {
      assessment.trees[which[i]] = assess_one(which[i], times);
      if (!options.progress) continue;
      const std::lock_guard lock(shared);
      options.progress(++done, which.size());
    }
    const std::lock_guard lock(shared);
    add(assessment.times, times);
  };
  std::vector<std::thread> helpers;
  for (int i = 1; i < thread_count(options, which.size()); ++i) helpers.emplace_back(work);
  work();
  for (std::thread& helper : helpers) helper.join();
}

Result<Assessment> empty_assessment(const Site& site, const Tables& tables,
                                    const AssessOptions& options) {
  if (site.trees.empty()) {
    return Error{Code::missing_measurement, "project", "it has no trees",
                 "add a tree survey before assessing"};
  }
  Assessment assessment;
  assessment.trees.resize(site.trees.size());
  assessment.problems = problems_of(site);
  assessment.cautions = cautions();
  assessment.data_version = tables.version;
  assessment.simulation = options.simulation;
  return assessment;
}

Result<Assessment> assess(const Site& site, const Tables& tables, const AssessOptions& options) {
  ROOTSTEAD_TRY(Assessment assessment, empty_assessment(site, tables, options));
  ROOTSTEAD_TRY(const auto rules, rules_to_apply(site, tables, assessment.problems));
  Stopwatch watch(options.clock);
  const WorkMap works(site);
  watch.lap(assessment.times.works);
  RootModels models(site, tables, RootModels::Keep::none);
  const TreeAssessor assessor(site, tables, works, rules, options, models);
  std::vector<std::size_t> all(site.trees.size());
  std::iota(all.begin(), all.end(), 0U);
  const auto assess_one = [&](std::size_t i, StageTimes& times) {
    return assessor.assess(site.trees[i], times);
  };
  assess_trees(all, assess_one, options, assessment);
  return assessment;
}

bool TreeAssessment::affected() const {
  if (!new_works_in_zones(*this).empty()) return true;
  if (roots && roots->all.high > 0) return true;
  return anchorage && !anchorage->works.empty();
}

std::vector<std::string> new_works_in_zones(const TreeAssessment& tree) {
  std::vector<std::string> works;
  for (const ZoneAssessment& one : tree.zones) {
    for (const ZoneLoss::ByWork& by : one.loss.by_work) {
      if (by.existing || std::count(works.begin(), works.end(), by.work) > 0) continue;
      works.push_back(by.work);
    }
  }
  return works;
}

}  // namespace rootstead
