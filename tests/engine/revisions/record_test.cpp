#include "engine/revisions/record.hpp"

#include <gtest/gtest.h>

namespace rootstead {
namespace {

PlanReviewed plan(std::int64_t number, const char* file, std::int64_t entry) {
  PlanReviewed plan;
  plan.number = number, plan.file = file, plan.title = file, plan.entry = entry;
  return plan;
}

TEST(Final, IsClaimedByTheWordAndNotByOthers) {
  for (const char* yes : {"final", " Final", "FINAL issue"}) EXPECT_TRUE(claims_final(yes)) << yes;
  for (const char* no : {"", "draft", "for planning", "finally done", "not final"})
    EXPECT_FALSE(claims_final(no)) << no;
}

TEST(Final, IsRefusedWhereAPlanCameAfterTheAssessmentAndItsNameIsSaid) {
  const std::vector<PlanReviewed> plans{plan(1, "works.geojson", 3), plan(2, "drain.dxf", 7),
                                        plan(3, "design.xml", 8)};
  EXPECT_TRUE(may_be_final(plans, 9));
  const Outcome refused = may_be_final(plans, 5);
  ASSERT_FALSE(refused);
  EXPECT_NE(refused.error().sentence().find("plan 3, design.xml"), std::string::npos);
  EXPECT_NE(refused.error().sentence().find("rootstead assess"), std::string::npos);
}

TEST(Final, IsRefusedWhereNothingWasEverAssessed) {
  ASSERT_FALSE(may_be_final({}, 0));
  EXPECT_NE(may_be_final({}, 0).error().message.find("never assessed"), std::string::npos);
}

TEST(Plan, IsNamedByTitleFileAndRevision) {
  PlanReviewed one = plan(1, "drain.dxf", 1);
  EXPECT_EQ(name_of(one), "drain.dxf");
  one.title = "Drainage layout", one.revision = "P02";
  EXPECT_EQ(name_of(one), "Drainage layout (drain.dxf), revision P02");
}

}  // namespace
}  // namespace rootstead
