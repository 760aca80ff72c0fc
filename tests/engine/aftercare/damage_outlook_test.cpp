#include "engine/aftercare/damage_outlook.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "tests/support/shipped_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using namespace std::chrono_literals;
using Day = std::chrono::sys_days;

// The shipped tables have no rules without the program around them: twelve diameters will do.
const Tables& tables() {
  static const Tables shipped = [] {
    Tables all = test::shipped_tables();
    ZoneTerm term;
    term.factor = 12;
    ZoneDefinition zone;
    zone.id = "root-zone";
    zone.terms = {term};
    zone.from = {"rootstead", "", Status::assumption};
    ZoneRule rule;
    rule.id = rule.title = "twelve";
    rule.measured_at = test::metres(1.4);
    rule.zones = {zone};
    all.rules.push_back(rule);
    return all;
  }();
  return shipped;
}
const Day kToday(2026y / 6 / 15);

AssessOptions quick() {
  AssessOptions options;
  options.simulation.draws = 60;
  options.threads = 1;
  return options;
}

// A trench on the very trunk, dug already.
Site damaged(std::string date, double distance = 0.8) {
  Site site = test::SiteBuilder()
                  .rules({"twelve"})
                  .tree("T1", {0, 0}, 0.5)
                  .trench("W1", {{distance, -20}, {distance, 20}}, 0.8, 1.2)
                  .with_work([&](Work& work) {
                    work.state = WorkState::existing;
                    work.date = date;
                    work.seen = "roots torn along the face";
                  })
                  .site();
  site.soil.texture = SoilTexture::loam;
  return site;
}

DamageOutlook outlook_of(const Site& site, Day today = kToday) {
  const auto damage = assess_damage(site, tables(), quick());
  EXPECT_TRUE(damage.ok());
  return damage_outlook(site.trees.front(), site, damage->trees.front(), today, tables());
}

bool says(const OutlookAnswer& answer, std::string_view words) {
  return std::any_of(
      answer.statements.begin(), answer.statements.end(),
      [&](const OutlookStatement& one) { return one.text.find(words) != std::string::npos; });
}

bool tells(const DamageOutlook& outlook, std::string_view topic) {
  return std::any_of(outlook.now.begin(), outlook.now.end(),
                     [&](const Prescription& one) { return one.topic == topic; });
}

bool notes(const DamageOutlook& outlook, NoteCode code) {
  return std::any_of(outlook.notes.begin(), outlook.notes.end(),
                     [&](const Note& note) { return note.code == code; });
}

TEST(SectionRegrown, IsTheOneFigureThereIs) {  // Koeser 2024: 22.2 % after five years
  EXPECT_NEAR(root_section_regrown(5, tables()).best, 0.222, 0.001);
  EXPECT_EQ(root_section_regrown(0, tables()), (Range{0, 0, 0}));
  EXPECT_EQ(tables().parameter("aftercare.section_time").from.status, Status::assumption);
}

TEST(RootRegrowth, IsFasterWhereItIsWarm) {
  Climate warm;
  warm.hardiness_zone = 10;
  EXPECT_NEAR(root_regrowth_m(2, {}, tables()).best, 0.9, 1e-12);
  EXPECT_GT(root_regrowth_m(2, warm, tables()).low, root_regrowth_m(2, {}, tables()).high);
}

TEST(SiteOfDamage, TakesTheExistingWorksAndNoOthers) {
  Site site = damaged("2024-05");
  site.works.push_back(site.works.front());
  site.works.back().id = "W2";
  site.works.back().state = WorkState::proposed;
  const Site damage = site_of_damage(site);
  ASSERT_EQ(damage.works.size(), 1u);
  EXPECT_EQ(damage.works.front().id, "W1");
  EXPECT_EQ(damage.works.front().state, WorkState::approved);
  EXPECT_EQ(site.works.front().state, WorkState::existing);
}

TEST(Outlook, GivesTwoAnswersOfAFreshDamage) {
  const auto outlook = outlook_of(damaged("2026-06-01"));
  ASSERT_EQ(outlook.damages.size(), 1u);
  EXPECT_NEAR(outlook.damages[0].years_since->best, 14 / 365.25, 1e-9);
  EXPECT_EQ(outlook.damages[0].seen, "roots torn along the face");
  EXPECT_GT(outlook.damages[0].share_of_roots->best, 0.1);
  EXPECT_GE(outlook.stability.concern, Concern::material);
  EXPECT_GE(outlook.vitality.concern, Concern::material);
  EXPECT_TRUE(says(outlook.vitality, "within weeks"));
  EXPECT_TRUE(says(outlook.stability, "557 oak roots"));
  for (const char* topic :
       {"inspection", "root cut", "irrigation", "pruning", "fertiliser", "monitoring"})
    EXPECT_TRUE(tells(outlook, topic)) << topic;
  EXPECT_EQ(outlook.now.front().topic, "inspection");
  EXPECT_TRUE(notes(outlook, NoteCode::recovery_not_credited));
}

TEST(Outlook, ChangesWithTheYears) {
  const auto old = outlook_of(damaged("2010-06-01"));
  EXPECT_FALSE(says(old.vitality, "within weeks"));
  EXPECT_TRUE(says(old.vitality, "More than ten years"));
  EXPECT_FALSE(tells(old, "root cut"));
  EXPECT_FALSE(tells(old, "irrigation"));
  EXPECT_TRUE(tells(old, "monitoring"));
  const auto middle = outlook_of(damaged("2020-06-01"));
  EXPECT_TRUE(says(middle.vitality, "seven to ten years"));
  EXPECT_FALSE(tells(middle, "fertiliser"));
}

TEST(Outlook, CreditsNothingToStabilityHoweverOld) {
  const auto fresh = outlook_of(damaged("2026-06-01")), old = outlook_of(damaged("1990-06-01"));
  EXPECT_EQ(fresh.stability.concern, old.stability.concern);
  EXPECT_EQ(fresh.vitality.concern, old.vitality.concern);
}

TEST(Outlook, GivesARangeForAMonthAndSaysWhereNoDateIs) {
  const auto month = outlook_of(damaged("2024-05"));
  EXPECT_LT(month.damages[0].years_since->low, month.damages[0].years_since->high);
  const auto none = outlook_of(damaged(""));
  EXPECT_FALSE(none.damages[0].years_since);
  EXPECT_TRUE(notes(none, NoteCode::damage_date_unknown));
  EXPECT_TRUE(says(none.vitality, "within weeks"));  // all that may still come
  const auto later = outlook_of(damaged("2027-01-01"));
  EXPECT_EQ(later.damages[0].years_since->best, 0);
}

TEST(Outlook, OfATreeThatNothingReachesIsQuiet) {
  const auto outlook = outlook_of(damaged("2024-05", 150));
  EXPECT_TRUE(outlook.damages.empty());
  EXPECT_TRUE(outlook.now.empty());
  EXPECT_EQ(outlook.vitality.concern, Concern::none);
  EXPECT_EQ(outlook.stability.concern, Concern::none);
}

TEST(Outlook, SaysWhereADamageIsNotDrawn) {
  Site site = damaged("2024-05");
  site.works.front().shape = {};
  EXPECT_TRUE(notes(outlook_of(site), NoteCode::damage_not_drawn));
}

TEST(Outlook, OfAPalmKnowsNoThickRoots) {
  Site site = damaged("2026-06-01");
  site.trees.front() = test::SiteBuilder().palm("T1", {0, 0}).site().trees.front();
  const auto outlook = outlook_of(site);
  ASSERT_FALSE(outlook.damages.empty());
  EXPECT_FALSE(says(outlook.stability, "oak"));
  EXPECT_TRUE(says(outlook.vitality, "from the trunk"));
  for (const Figure& one : outlook.figures) {
    EXPECT_NE(one.name, "aftercare.section-regrown");
    EXPECT_NE(one.name, "water.practice-week");
  }
}

TEST(Outlook, NamesASourceForEverySentence) {
  for (const char* date : {"2026-06-01", "2023-01", "2012"}) {
    const auto outlook = outlook_of(damaged(date));
    for (const OutlookAnswer& answer : {outlook.vitality, outlook.stability})
      for (const OutlookStatement& one : answer.statements) {
        EXPECT_NE(tables().source(one.from.source), nullptr) << one.text;
        EXPECT_EQ(one.text.find("safe"), std::string::npos) << one.text;
      }
    for (const Prescription& one : outlook.now) {
      EXPECT_NE(tables().source(one.from.source), nullptr) << one.text;
      EXPECT_EQ(one.tree, "T1");
    }
    for (const Figure& one : outlook.figures)
      EXPECT_NE(tables().source(one.from.source), nullptr) << one.name;
  }
}

RC_GTEST_PROP(RegrownAlways, GrowsWithTimeAndStaysAShare, ()) {
  const double less = *rc::gen::inRange(0, 6000) / 100.0;
  const double more = less + *rc::gen::inRange(0, 3000) / 100.0;
  const Range a = root_section_regrown(less, tables()), b = root_section_regrown(more, tables());
  RC_ASSERT(a.low <= b.low && a.best <= b.best && a.high <= b.high);
  RC_ASSERT(b.low <= b.best && b.best <= b.high && b.high < 1);
}

TEST(DamageOutlook, PromisesNoRecoveryOfADeadTree) {
  Site site = damaged("2024-05");
  EXPECT_TRUE(outlook_of(site).water.has_value());
  site.trees.front().condition = Condition::dead;
  const DamageOutlook outlook = outlook_of(site);
  EXPECT_FALSE(outlook.damages.empty());
  EXPECT_FALSE(says(outlook.vitality, "ecover"));
  EXPECT_TRUE(says(outlook.vitality, "recorded as dead"));
  EXPECT_FALSE(tells(outlook, "irrigation"));
  EXPECT_FALSE(outlook.water.has_value());
}

}  // namespace
}  // namespace rootstead
