// Every route that only looks, asked as the page asks it: the right status, an answer as the
// contract has it, one sentence where it is refused; and the desk is never held up.
#include "serve/routes_see.hpp"

#include <httplib.h>

#include <atomic>
#include <thread>

#include "io/json.hpp"
#include "serve/server.hpp"
#include "serve/shape_json.hpp"
#include "tests/serve/a_snapshot.hpp"
#include "tests/serve/open_desk.hpp"
#include "tests/serve/running_server.hpp"

namespace rootstead::test {
namespace {

using io::Json;

constexpr const char* kJson = "application/json";

class SeeTest : public RunningServer {
 protected:
  Json got(const std::string& path, int status = 200) const {
    const auto answer = client().Get(path);
    EXPECT_TRUE(answer) << path;
    if (!answer) return nullptr;
    EXPECT_EQ(answer->status, status) << path << answer->body;
    return Json::parse(answer->body);
  }
  Json section(const std::string& body, int status = 200) const {
    const auto answer = client().Post("/api/section", {}, body, kJson);
    EXPECT_TRUE(answer) << body;
    if (!answer) return nullptr;
    EXPECT_EQ(answer->status, status) << body << answer->body;
    return Json::parse(answer->body);
  }
};

TEST_F(SeeTest, AnswersAsTheContractHasIt) {
  EXPECT_EQ(faults("/api/site", got("/api/site")), "");
  EXPECT_EQ(faults("/api/assessment", got("/api/assessment")), "");
  EXPECT_EQ(faults("/api/trees/{id}", got("/api/trees/T1")), "");
  EXPECT_EQ(faults("/api/trees/{id}/roots", got("/api/trees/T1/roots")), "");
  EXPECT_EQ(faults("/api/trees/{id}/tint", got("/api/trees/T1/tint")), "");
  EXPECT_EQ(faults("/api/trees/{id}/profiles", got("/api/trees/P1/profiles")), "");
  EXPECT_EQ(faults("/api/works/{id}/offsets", got("/api/works/W1/offsets?tree=T1")), "");
  EXPECT_EQ(faults("/api/protection", got("/api/protection")), "");
  EXPECT_EQ(faults("/api/section", section(R"({"work":"W1"})"), "post"), "");
  const Json trial = {{"shape", serve::to_json(trench_at(3))}};
  const auto tried = client().Post("/api/works/W1/trial", {}, trial.dump(), kJson);
  ASSERT_TRUE(tried);
  EXPECT_EQ(faults("/api/works/{id}/trial", Json::parse(tried->body), "post"), "");
}

TEST_F(SeeTest, RefusesInOneSentenceWithTheRightStatus) {
  const SchemaCheck schema = SchemaCheck::of_file((source_dir() / "api/schema.json").string());
  const auto told = [&](const Json& refusal) {
    return schema.of(refusal, schema.named("Error")).empty() &&
           refusal["error"].get<std::string>().ends_with(".");
  };
  for (const char* path : {"/api/trees/none", "/api/trees/none/roots", "/api/trees/none/tint",
                           "/api/trees/none/profiles", "/api/works/none/offsets?tree=T1",
                           "/api/works/W1/offsets?tree=none"})
    EXPECT_TRUE(told(got(path, 404))) << path;
  for (const char* path : {"/api/works/W0/offsets?tree=T1", "/api/works/W1/offsets"})
    EXPECT_TRUE(told(got(path, 400))) << path;
  for (const char* body : {"", "{", "[]", "{}", R"({"work":"W1","more":1})",
                           R"({"line":[[0,0],[1e999,1]]})", R"({"line":[[0,0],["1",1]]})"})
    EXPECT_TRUE(told(section(body, 400))) << body;
  EXPECT_TRUE(told(section(R"({"work":"none"})", 404)));
}

// While slow questions are answered, works are tried and saved.
TEST_F(SeeTest, LetsWorksBeMovedMeanwhile) {
  std::atomic<bool> wrong = false;
  std::vector<std::thread> askers;
  for (const char* path : {"/api/trees/T1", "/api/protection", "/api/works/W1/offsets?tree=T1"})
    askers.emplace_back([this, path, &wrong] {
      const auto answer = client().Get(path);
      if (!answer || answer->status != 200) wrong = true;
    });
  for (int i = 0; i < 3; ++i) {
    const Json move = {{"version", got("/api/site")["version"]},
                       {"shape", serve::to_json(trench_at(3 + i))}};
    const auto saved = client().Put("/api/works/W1/shape", {}, move.dump(), kJson);
    ASSERT_TRUE(saved);
    EXPECT_EQ(saved->status, 200) << saved->body;
  }
  for (std::thread& asker : askers) asker.join();
  EXPECT_FALSE(wrong);
  EXPECT_EQ(got("/api/protection")["version"], got("/api/site")["version"]);
  EXPECT_NEAR(got("/api/works/W1/offsets?tree=T1")["now_m"].get<double>(), 5 - 0.3 - 0.25, 1e-6);
}

// Offsets leave a trial that is under way as it was.
TEST_F(SeeTest, LeavesTheTrialAsItWas) {
  const Json trial = {{"shape", serve::to_json(trench_at(2))}};
  const auto before = client().Post("/api/works/W1/trial", {}, trial.dump(), kJson);
  got("/api/works/W1/offsets?tree=T1");
  const auto after = client().Post("/api/works/W1/trial", {}, trial.dump(), kJson);
  ASSERT_TRUE(before && after);
  EXPECT_EQ(before->body, after->body);
  EXPECT_EQ(home_.project().read()->works[0].shape.lines, trench_at(5).lines);
}

TEST(SiteOnPlan, HasOpeningsBoundaryAndGates) {
  const OpenDesk home;
  io::Import more;
  more.source = "pits.csv";
  Evidence pit;
  pit.id = "E1";
  pit.tree = "T1";
  pit.shape.points = {{kEast + 2, kNorth}};
  pit.depth = metres(0.7);
  pit.roots = {{millimetres(40), millimetres(300), Point{kEast + 2, kNorth}, true},
               {millimetres(25), {}, {}, false}};
  more.evidence = {pit};
  io::Project project = home.project();
  ASSERT_TRUE(project.read().ok());
  ASSERT_TRUE(project.add(more, kNow).ok());
  const Json site = home.open().site();
  EXPECT_EQ(faults("/api/site", site), "");
  ASSERT_EQ(site["evidence"].size(), 1U);
  EXPECT_EQ(site["evidence"][0]["tree"], "T1");
  EXPECT_NEAR(site["evidence"][0]["depth_m"].get<double>(), 0.7, 1e-9);
  EXPECT_EQ(site["evidence"][0]["roots"].size(), 2U);
  EXPECT_TRUE(site["evidence"][0]["roots"][1]["at"].is_null());
}

}  // namespace
}  // namespace rootstead::test
