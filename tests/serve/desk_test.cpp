// What a desk answers is what the command line would say of the saved project, to the last bit.
#include "serve/desk.hpp"

#include "serve/shape_json.hpp"
#include "tests/serve/open_desk.hpp"

namespace rootstead::test {
namespace {

using io::Json;

Json answer_for(const Json& trees, const std::string& id) {
  for (const Json& tree : trees)
    if (tree["id"] == id) return tree;
  return nullptr;
}

Json assessed_anew(const OpenDesk& desk) {
  AssessOptions options;
  options.simulation = few_draws();
  const Site site = std::move(desk.project().read()).value();
  return io::to_json(*assess(site, loaded_tables(), options), site);
}

TEST(Desk, DrawsWhatTheProjectHolds) {
  const OpenDesk home;
  const Json site = home.open().site();
  EXPECT_EQ(site["trees"].size(), 3u);
  EXPECT_EQ(site["works"].size(), 2u);
  EXPECT_EQ(site["system"]["code"], "EPSG:32632");
  EXPECT_TRUE(site["works"][0]["movable"]);
  EXPECT_FALSE(site["works"][1]["movable"]) << "it stands already";
  EXPECT_TRUE(site["trees"][2]["palm"]);
  EXPECT_FALSE(site["cautions"].empty());
  EXPECT_FALSE(site["zones"].empty());
}

TEST(Desk, AnswersWhatAssessSays) {
  const OpenDesk home;
  EXPECT_EQ(home.open().assessment()["trees"], assessed_anew(home)["trees"]);
}

TEST(Desk, ASavedMoveIsInTheProjectAndAnsweredExactly) {
  const OpenDesk home;
  serve::Desk desk = home.open();
  const std::string version = desk.site()["version"];
  const auto saved = desk.save_shape("W1", version, trench_at(3), kNow);
  ASSERT_TRUE(saved.ok()) << saved.error().sentence();
  EXPECT_NE((*saved)["version"], version);
  const Json anew = assessed_anew(home);
  EXPECT_EQ(desk.assessment()["trees"], anew["trees"]);
  EXPECT_EQ(answer_for((*saved)["trees"], "T1"), answer_for(anew["trees"], "T1"));
  EXPECT_EQ(home.project().read()->works[0].shape.lines, trench_at(3).lines);
  EXPECT_EQ(home.project().journal()->back().action, "move");
}

TEST(Desk, ATrialSavesNothingAndIsForgotten) {
  const OpenDesk home;
  serve::Desk desk = home.open();
  const std::string version = desk.site()["version"];
  const Json before = desk.assessment();
  const auto near = desk.try_shape("W1", trench_at(2));
  const auto far = desk.try_shape("W1", trench_at(9));
  ASSERT_TRUE(near.ok() && far.ok());
  const auto best = [](const Result<Json>& answers) {
    return answer_for((*answers)["trees"], "T1")["absorbing_loss"]["best"].get<double>();
  };
  EXPECT_GT(best(near), best(far));
  EXPECT_EQ((*near)["draws"], serve::kTrialDraws);
  EXPECT_EQ(desk.assessment(), before);
  EXPECT_EQ(desk.site()["version"], version);
  EXPECT_EQ(home.project().read()->works[0].shape.lines, trench_at(5).lines);
}

TEST(Desk, AnOldVersionIsRefusedAndNothingMoves) {
  const OpenDesk home;
  serve::Desk desk = home.open();
  const std::string version = desk.site()["version"];
  ASSERT_TRUE(desk.save_shape("W1", version, trench_at(4), kNow).ok());
  const auto second = desk.save_shape("W1", version, trench_at(2), kNow);
  ASSERT_FALSE(second.ok());
  EXPECT_EQ(second.error().code, Code::project_busy);
  EXPECT_EQ(home.project().read()->works[0].shape.lines, trench_at(4).lines);
}

TEST(Desk, AChangeByAnotherProgramIsNotOverwritten) {
  const OpenDesk home;
  serve::Desk desk = home.open();
  const std::string version = desk.site()["version"];
  io::Project other = home.project();
  ASSERT_TRUE(other.read().ok());
  ASSERT_TRUE(other.save_shape("W1", trench_at(7), kNow).ok());
  const Json before = desk.assessment();
  const auto late = desk.save_shape("W1", version, trench_at(2), kNow);
  ASSERT_FALSE(late.ok());
  EXPECT_EQ(late.error().code, Code::project_busy);
  EXPECT_EQ(desk.assessment()["trees"], before["trees"]);
  EXPECT_EQ(home.project().read()->works[0].shape.lines, trench_at(7).lines);
}

TEST(Desk, AfterAChangeByAnotherProgramThePageGetsWhatIsThere) {
  const OpenDesk home;
  serve::Desk desk = home.open();
  io::Project other = home.project();
  ASSERT_TRUE(other.read().ok());
  ASSERT_TRUE(other.save_shape("W1", trench_at(7), kNow).ok());
  const Json site = desk.site();
  EXPECT_EQ(site["works"][0]["shape"], serve::to_json(trench_at(7)));
  EXPECT_EQ(desk.assessment()["trees"], assessed_anew(home)["trees"]);
  EXPECT_TRUE(desk.save_shape("W1", site["version"], trench_at(3), kNow).ok());
  EXPECT_EQ(home.project().read()->works[0].shape.lines, trench_at(3).lines);
}

TEST(Desk, RefusesWhatCannotBeMoved) {
  const OpenDesk home;
  serve::Desk desk = home.open();
  EXPECT_EQ(desk.try_shape("none", trench_at(1)).error().code, Code::unknown_name);
  EXPECT_EQ(desk.try_shape("W0", trench_at(1)).error().code, Code::wrong_use);
  Shape area;
  area.areas = {{{{0, 0}, {1, 0}, {1, 1}}, {}}};
  EXPECT_EQ(desk.try_shape("W1", area).error().code, Code::invalid_geometry);
}

TEST(ProjectShape, AWorkThatIsNotThereIsNotMoved) {
  const OpenDesk home;
  io::Project project = home.project();
  ASSERT_TRUE(project.read().ok());
  const std::size_t rows = project.journal()->size();
  EXPECT_EQ(project.save_shape("none", trench_at(1), kNow).error().code, Code::unknown_name);
  EXPECT_EQ(project.journal()->size(), rows);
}

}  // namespace
}  // namespace rootstead::test
