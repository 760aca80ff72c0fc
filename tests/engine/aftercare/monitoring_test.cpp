#include "engine/aftercare/monitoring.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <set>

#include "tests/support/shipped_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using namespace std::chrono_literals;
using Day = std::chrono::sys_days;

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

// Assessments are made by hand here: what a plan makes of them is in question, not they themselves.
TreeAssessment seen(std::string tree, Concern vitality, Concern stability, std::string work = {}) {
  TreeAssessment one;
  one.tree = std::move(tree);
  one.verdict.vitality = vitality;
  one.verdict.stability = stability;
  if (!work.empty()) one.roots = RootLoss{{0.1, 0.2, 0.3}, {{std::move(work), {0.1, 0.2, 0.3}}}};
  return one;
}

struct Job {
  Site site;
  Assessment assessment;
  MonitoringOptions options;
};

Job job() {
  Job job;
  job.site = test::SiteBuilder()
                 .tree("T1", {0, 0}, 0.5)
                 .tree("T2", {60, 0}, 0.4)
                 .trench("W1", {{3, -10}, {3, 10}}, 0.6, 1.0)
                 .site();
  job.assessment.trees = {seen("T1", Concern::large, Concern::small, "W1"),
                          seen("T2", Concern::none, Concern::none)};
  job.options.works_begin = Day(2026y / 3 / 2);
  job.options.works_end = Day(2026y / 8 / 31);
  return job;
}

MonitoringPlan plan_of(const Job& job) {
  return monitoring_plan(job.site, job.assessment, job.options, tables());
}

const Visit* visit(const MonitoringPlan& plan, std::string_view id) {
  for (const Visit& one : plan.visits)
    if (one.id == id) return &one;
  return nullptr;
}

bool sees(const Visit* visit, std::string_view tree) {
  return visit != nullptr && std::any_of(visit->trees.begin(), visit->trees.end(),
                                         [&](const TreeVisit& one) { return one.tree == tree; });
}

TEST(Monitoring, GoesByEventFirst) {
  const auto plan = plan_of(job());
  ASSERT_TRUE(visit(plan, "before-works") && visit(plan, "hold-W1") && visit(plan, "end-of-works"));
  EXPECT_EQ(visit(plan, "before-works")->day, Day(2026y / 3 / 2));
  EXPECT_EQ(visit(plan, "end-of-works")->day, Day(2026y / 8 / 31));
  EXPECT_FALSE(visit(plan, "hold-W1")->day);
  EXPECT_FALSE(visit(plan, "hold-W1")->event.empty());
  EXPECT_EQ(plan.visits.front().id, "before-works");
  EXPECT_TRUE(sees(visit(plan, "before-works"), "T2"));
  EXPECT_FALSE(sees(visit(plan, "hold-W1"), "T2"));
}

TEST(Monitoring, GoesMonthlyWhileWorksGoOn) {  // practice note: monthly and at critical stages
  const auto plan = plan_of(job());
  int monthly = 0;
  for (const Visit& one : plan.visits) monthly += one.kind == VisitKind::during_works;
  EXPECT_EQ(monthly, 5);
  EXPECT_EQ(visit(plan, "works-month-1")->day, Day(2026y / 4 / 2));
  EXPECT_TRUE(sees(visit(plan, "works-month-1"), "T1"));
  EXPECT_FALSE(sees(visit(plan, "works-month-1"), "T2"));
}

TEST(Monitoring, LooksLongerWhereMoreWasLost) {
  const auto plan = plan_of(job());
  EXPECT_TRUE(sees(visit(plan, "after-60-months"), "T1"));
  EXPECT_TRUE(sees(visit(plan, "after-36-months"), "T1"));
  EXPECT_TRUE(sees(visit(plan, "after-12-months"), "T2"));
  EXPECT_FALSE(sees(visit(plan, "after-36-months"), "T2"));
  EXPECT_EQ(visit(plan, "after-6-months")->day, Day(2027y / 2 / 28));  // no 31 February
}

TEST(Monitoring, KeepsToTheYearsAskedFor) {
  Job one = job();
  one.options.years = 1;
  for (const Visit& visit : plan_of(one).visits) {
    if (!visit.day) continue;
    EXPECT_LE(*visit.day, Day(2027y / 8 / 31)) << visit.id;
  }
}

TEST(Monitoring, NamesBothAnswersAndNoScore) {
  const auto plan = plan_of(job());
  const std::string reason = visit(plan, "after-60-months")->trees.front().reason;
  EXPECT_EQ(reason, "vitality: large concern; stability: small concern");
  for (const Visit& one : plan.visits) {
    EXPECT_FALSE(one.look_at.empty()) << one.id;
    EXPECT_FALSE(one.act_if.empty()) << one.id;
    EXPECT_NE(tables().source(one.from.source), nullptr) << one.id;
    for (const std::string& text : one.act_if)
      EXPECT_EQ(text.find("safe"), std::string::npos) << text;
  }
}

TEST(Monitoring, ComesAfterStormsWhereStabilityAsksForIt) {
  Job one = job();
  EXPECT_EQ(visit(plan_of(one), "after-storm"), nullptr);
  one.assessment.trees[0].verdict.stability = Concern::material;
  EXPECT_TRUE(sees(visit(plan_of(one), "after-storm"), "T1"));
}

TEST(Monitoring, LeavesOutTreesThatGoAndWatchesThoseThatMove) {
  Job one = job();
  one.site.trees[1].intent = Intent::remove;
  for (const Visit& visit : plan_of(one).visits) EXPECT_FALSE(sees(&visit, "T2")) << visit.id;
  one.site.trees[1].intent = Intent::move;
  EXPECT_TRUE(sees(visit(plan_of(one), "after-60-months"), "T2"));
  EXPECT_TRUE(sees(visit(plan_of(one), "after-storm"), "T2"));
}

TEST(Monitoring, LooksAtTheNewestLeafOfPalms) {
  Job one = job();
  const auto tells = [](const Visit* visit) {
    return std::any_of(visit->look_at.begin(), visit->look_at.end(),
                       [](const std::string& text) { return text.starts_with("palms"); });
  };
  EXPECT_FALSE(tells(visit(plan_of(one), "after-12-months")));
  one.site.trees[1].form = GrowthForm::palm;
  EXPECT_TRUE(tells(visit(plan_of(one), "after-12-months")));
}

TEST(Monitoring, SaysWhatItAssumes) {
  Job one = job();
  one.options.works_end.reset();
  const auto plan = plan_of(one);
  const auto has = [&](NoteCode code) {
    return std::any_of(plan.notes.begin(), plan.notes.end(),
                       [&](const Note& note) { return note.code == code; });
  };
  EXPECT_TRUE(has(NoteCode::works_end_assumed));
  EXPECT_TRUE(has(NoteCode::hold_point_undated));
  EXPECT_EQ(visit(plan, "end-of-works")->day, Day(2026y / 3 / 2) + std::chrono::days(90));
}

TEST(Monitoring, TakesTheDayOfAWorkThatHasOne) {
  Job one = job();
  one.site.works.front().date = "2026-04-20";
  EXPECT_EQ(visit(plan_of(one), "hold-W1")->day, Day(2026y / 4 / 20));
  one.site.works.front().date = "2030-04-20";  // after the works: no day of theirs
  EXPECT_FALSE(visit(plan_of(one), "hold-W1")->day);
}

TEST(Monitoring, OfNoTreeIsEmpty) {
  Job one = job();
  one.assessment.trees.clear();
  EXPECT_TRUE(plan_of(one).visits.empty());
}

RC_GTEST_PROP(MonitoringAlways, IsInOrderWithinItsYearsAndNamesEachVisitOnce, ()) {
  Job one = job();
  const auto concern = [] {
    return *rc::gen::element(Concern::none, Concern::small, Concern::material, Concern::large,
                             Concern::unknown);
  };
  for (TreeAssessment& tree : one.assessment.trees) {
    tree.verdict.vitality = concern();
    tree.verdict.stability = concern();
  }
  one.options.years = *rc::gen::inRange(1, 6);
  one.options.works_end = one.options.works_begin + std::chrono::days(*rc::gen::inRange(0, 900));
  const auto plan = plan_of(one);
  std::set<std::string> ids;
  std::optional<Day> last;
  const Day latest = *one.options.works_end + std::chrono::days(366 * one.options.years);
  for (const Visit& visit : plan.visits) {
    RC_ASSERT(ids.insert(visit.id).second);
    RC_ASSERT(!visit.trees.empty());
    if (!visit.day) continue;
    RC_ASSERT(!last || *visit.day >= *last);
    RC_ASSERT(*visit.day >= one.options.works_begin && *visit.day <= latest);
    last = visit.day;
  }
}

RC_GTEST_PROP(MonitoringAlways, VisitsNoLessForALargerConcern, ()) {
  Job one = job();
  const auto visits = [&](Concern concern) {
    one.assessment.trees[0].verdict.vitality = concern;
    one.assessment.trees[0].verdict.stability = Concern::none;
    std::size_t count = 0;
    for (const Visit& visit : plan_of(one).visits) count += sees(&visit, "T1");
    return count;
  };
  one.options.years = *rc::gen::inRange(1, 6);
  RC_ASSERT(visits(Concern::none) <= visits(Concern::small));
  RC_ASSERT(visits(Concern::small) <= visits(Concern::material));
  RC_ASSERT(visits(Concern::material) <= visits(Concern::large));
}

}  // namespace
}  // namespace rootstead
