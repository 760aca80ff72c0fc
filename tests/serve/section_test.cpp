// A section shows what its line meets, at the chainage and depth where it does.
#include "serve/section_view.hpp"

#include "engine/geom/measure.hpp"
#include "serve/section_roots.hpp"
#include "tests/serve/a_standing.hpp"

namespace rootstead::test {
namespace {

using io::Json;

Json section_of(const serve::Standing& standing, const Json& body) {
  const auto asked = serve::section_asked(body);
  EXPECT_TRUE(asked.ok()) << asked.error().sentence();
  const auto view = serve::section_view(standing, *asked);
  EXPECT_TRUE(view.ok()) << view.error().sentence();
  EXPECT_EQ(faults("/api/section", *view, "post"), "");
  return *view;
}

// From the stem of T1 southwards, across the trench.
const Json kAcross = {{"line", {{0.0, 0.0}, {0.0, -8.0}}}};

const Json* find(const Json& list, const char* key, const std::string& value) {
  for (const Json& one : list)
    if (one[key] == value) return &one;
  return nullptr;
}

TEST(Section, MeetsTheTrenchWhereItLies) {
  const Json view = section_of(*street_standing(), kAcross);
  EXPECT_NEAR(view["length_m"].get<double>(), 8, 1e-9);
  const Json* trench = find(view["pieces"], "id", "W1");
  ASSERT_NE(trench, nullptr);
  EXPECT_NEAR((*trench)["from_m"].get<double>(), 2.7, 1e-9);
  EXPECT_NEAR((*trench)["to_m"].get<double>(), 3.3, 1e-9);
  EXPECT_NEAR((*trench)["bottom_m"].get<double>(), 0.9, 1e-9);
  EXPECT_TRUE((*trench)["pipe_m"].is_null());
  const Json* zone = find(view["zones"], "tree", "T1");
  ASSERT_NE(zone, nullptr);
  EXPECT_NEAR((*zone)["to_m"].get<double>(), 6, 1e-6) << "twelve diameters of 0.5 m";
  const Json* stem = find(view["stems"], "tree", "T1");
  ASSERT_NE(stem, nullptr);
  EXPECT_NEAR((*stem)["along_m"].get<double>(), 0, 1e-9);
}

TEST(Section, PartsTheRootsBeyondTheTrench) {
  const Json view = section_of(*street_standing(), kAcross);
  int severed = 0, whole = 0;
  for (const Json& root : view["predicted"]) {
    EXPECT_GE(root["along_m"][0].get<double>(), -1e-9);
    EXPECT_LE(root["along_m"][1].get<double>(), 8 + 1e-9);
    const bool before =
        std::max(root["along_m"][0].get<double>(), root["along_m"][1].get<double>()) < 2.5;
    if (root["tree"] != "T1") continue;
    whole += before && !root["severed"];
    severed += !before && root["severed"];
  }
  EXPECT_GT(whole, 0);
  EXPECT_GT(severed, 0);
}

TEST(Section, GoesAlongAWorkAndTellsStemsAside) {
  const Json view = section_of(*street_standing(), {{"work", "W1"}});
  EXPECT_NEAR(view["length_m"].get<double>(), 40, 1e-9);
  const Json* trench = find(view["pieces"], "id", "W1");
  ASSERT_NE(trench, nullptr);
  EXPECT_NEAR((*trench)["to_m"].get<double>(), 40, 1e-6);
  const Json* stem = find(view["stems"], "tree", "T1");
  ASSERT_NE(stem, nullptr);
  EXPECT_NEAR((*stem)["along_m"].get<double>(), 20, 1e-9);
  EXPECT_NEAR((*stem)["aside_m"].get<double>(), -3, 1e-9) << "to the left as the line runs east";
  EXPECT_NE(find(view["stems"], "tree", "P1"), nullptr);
}

TEST(Section, RunsOnRoundCorners) {
  const Json view = section_of(*street_standing(),
                               {{"line", {{0.0, 0.0}, {0.0, -2.0}, {4.0, -2.0}, {4.0, -8.0}}}});
  const Json* trench = find(view["pieces"], "id", "W1");
  ASSERT_NE(trench, nullptr);
  EXPECT_NEAR((*trench)["from_m"].get<double>(), 6.7, 1e-9);
}

TEST(Section, OfABoreShowsThePipeBeneath) {
  Site site = street();
  Work& bore = site.works[0];
  bore.kind = WorkKind::bore;
  bore.depth = metres(1.5);
  bore.bore_diameter = metres(0.4);
  const Json view = section_of(*standing_of(site), kAcross);
  const Json* pipe = find(view["pieces"], "id", "W1");
  ASSERT_NE(pipe, nullptr);
  EXPECT_NEAR((*pipe)["top_m"].get<double>(), 1.5, 1e-9);
  EXPECT_NEAR((*pipe)["pipe_m"].get<double>(), 0.4, 1e-9);
}

TEST(Section, ShowsFoundRootsAndTheGround) {
  Site site = street();
  Evidence pit;
  pit.id = "E1";
  pit.tree = "T1";
  pit.shape.points = {{0, -1.5}};
  const EnteredLength thick = millimetres(60);
  pit.roots = {{thick, millimetres(400), Point{0.2, -1.5}, false},
               {thick, millimetres(400), Point{3, -1.5}, true},  // far from the line
               {thick, {}, Point{0, -1.5}, true}};               // depth not written down
  site.evidence = {pit};
  HeightGrid grid{{-30, 30}, 1, 60, 60, std::vector<float>(3600, 7)};
  site.existing_levels = LevelSurface{"survey", "", "", grid};
  const Json view = section_of(*standing_of(site), kAcross);
  ASSERT_EQ(view["found"].size(), 1U);
  EXPECT_NEAR(view["found"][0]["along_m"].get<double>(), 1.5, 1e-9);
  EXPECT_NEAR(view["found"][0]["depth_m"].get<double>(), 0.4, 1e-9);
  EXPECT_FALSE(view["found"][0]["alive"]);
  ASSERT_EQ(view["ground"].size(), 17U);
  EXPECT_NEAR(view["ground"][3]["existing_m"].get<double>(), 7, 1e-6);
  EXPECT_TRUE(view["ground"][3]["proposed_m"].is_null());
}

TEST(Section, RefusesWhatIsNoLine) {
  for (const char* body :
       {"{}", R"({"work":"W1","line":[[0,0],[1,1]]})", R"({"line":[[0,0]]})",
        R"({"line":[[0,0],[0,0]]})", R"({"line":[[0,0],[1e9,0]]})", R"({"line":"W1"})",
        R"({"work":7})", R"({"line":[[0,0],[1,1]],"half_width_m":0})",
        R"({"line":[[0,0],[1,1]],"half_width_m":"wide"})"})
    EXPECT_FALSE(serve::section_asked(Json::parse(body)).ok()) << body;
  const auto standing = street_standing();
  EXPECT_EQ(serve::section_view(*standing, {.work = "none"}).error().code, Code::unknown_name);
  EXPECT_EQ(serve::section_view(*standing, {.work = "W2"}).error().code, Code::wrong_use);
}

TEST(SectionRoots, AreCutToTheHalfWidth) {
  RootSystem roots;
  RootPiece piece;
  piece.from = {2, -4, 0.2};
  piece.to = {2, 4, 0.6};
  piece.thickness_from = 0.08;
  piece.thickness_to = 0.04;
  roots.pieces = {piece};
  const auto laid = serve::laid_into({{0, 0}, {10, 0}}, Length::metres(1), roots);
  ASSERT_EQ(laid.size(), 1U);
  EXPECT_NEAR(laid[0].along_from, 2, 1e-12);
  EXPECT_NEAR(laid[0].depth_from, 0.35, 1e-12);
  EXPECT_NEAR(laid[0].depth_to, 0.45, 1e-12);
  EXPECT_NEAR(laid[0].thickness, 0.06, 1e-12);
  EXPECT_TRUE(serve::laid_into({{3, 0}, {10, 0}}, Length::metres(1), roots).empty());
}

}  // namespace
}  // namespace rootstead::test
