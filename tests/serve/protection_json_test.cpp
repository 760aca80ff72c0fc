// The page draws the plan that the report draws.
#include "serve/protection_json.hpp"

#include "engine/advice/advice.hpp"
#include "engine/geom/measure.hpp"
#include "serve/kept_answer.hpp"
#include "tests/serve/a_snapshot.hpp"

namespace rootstead::test {
namespace {

using io::Json;

TEST(Protection, IsThePlanOfTheAdvice) {
  const auto snapshot = street_snapshot();
  const auto answer = serve::protection_json(*snapshot);
  ASSERT_TRUE(answer.ok()) << answer.error().sentence();
  EXPECT_EQ(faults("/api/protection", *answer), "");
  const auto advice = advise(snapshot->site, loaded_tables(), snapshot->assessment);
  ASSERT_TRUE(advice.ok());
  const ProtectionPlan& plan = *advice->protection;
  ASSERT_FALSE(plan.fences.empty());
  ASSERT_EQ((*answer)["fences"].size(), plan.fences.size());
  for (std::size_t i = 0; i < plan.fences.size(); ++i) {
    EXPECT_EQ((*answer)["fences"][i]["id"], plan.fences[i].id);
    EXPECT_EQ((*answer)["fences"][i]["line"].size(), plan.fences[i].line.size());
  }
  EXPECT_EQ((*answer)["cut_lines"].size(), plan.root_cuts.size());
  EXPECT_EQ((*answer)["digging"].size(), plan.digs.size() + plan.bores.size());
  EXPECT_EQ((*answer)["gates"].size(), plan.gates.size());
  EXPECT_EQ((*answer)["clashes"].size(), plan.clashes.size());
  EXPECT_EQ((*answer)["signs"].size(), plan.signs.size());
  EXPECT_EQ((*answer)["guards"].size(), plan.guards.size());
  ASSERT_FALSE(plan.mulch.empty());
  EXPECT_EQ((*answer)["grounds"].back()["kind"], "mulch");
}

TEST(Protection, TellsEachPartWhatTheCrewIsTold) {
  const auto answer = serve::protection_json(*street_snapshot());
  ASSERT_TRUE(answer.ok());
  for (const char* part : {"fences", "grounds", "cut_lines", "digging", "guards"})
    for (const Json& one : (*answer)[part]) {
      const std::string text = one["text"], id = one["name"];
      EXPECT_FALSE(text.empty()) << part << " " << id;
      EXPECT_TRUE(!one.contains("line") || one["line"].size() >= 2) << part << " " << id;
    }
  for (const Json& fence : (*answer)["fences"])
    EXPECT_NE(fence["text"].get<std::string>().find("Fence " + fence["id"].get<std::string>()),
              std::string::npos);
}

TEST(Protection, OfABoreSaysHowDeep) {
  Site site = street();
  site.works[0].kind = WorkKind::bore;
  site.works[0].depth = metres(1.5);
  site.works[0].bore_diameter = metres(0.3);
  const auto answer = serve::protection_json(*snapshot_of(site));
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(faults("/api/protection", *answer), "");
  for (const Json& one : (*answer)["digging"])
    EXPECT_NE(one["text"].get<std::string>().find("1.50 m"), std::string::npos) << one.dump();
}

TEST(KeptAnswer, IsWorkedOutOnceAVersion) {
  int times = 0;
  serve::KeptAnswer kept([&](const serve::Snapshot& snapshot) -> Result<Json> {
    ++times;
    return Json{{"version", snapshot.version}};
  });
  const auto first = street_snapshot();
  const serve::Snapshot second("v2", first->site, first->assessment, first->own, loaded_tables());
  EXPECT_EQ((*kept.of(*first))["version"], "v1");
  EXPECT_EQ((*kept.of(*first))["version"], "v1");
  EXPECT_EQ(times, 1);
  EXPECT_EQ((*kept.of(second))["version"], "v2");
  EXPECT_EQ(times, 2);
}

}  // namespace
}  // namespace rootstead::test
