// Figures of cutting, boring and digging: published values, then properties.
#include "engine/cutting/cutting_figures.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/cutting/auger_table.hpp"
#include "engine/cutting/cut_distance.hpp"
#include "engine/cutting/cut_standard.hpp"
#include "engine/cutting/excavation.hpp"
#include "tests/support/shipped_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

constexpr double kFoot = 0.3048, kInch = 0.0254;

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

Result<std::vector<Figure>> by_hand(const std::string& name, const FigureArguments& arguments) {
  for (const HandFigure& one : cutting_figures(tables()))
    if (one.kind.name == name) return answer(one, arguments);
  return Error{Code::unknown_name, name, "", ""};
}

// The first figure, in metres or as a share.
double value(const std::string& name, const FigureArguments& arguments, std::size_t i = 0) {
  const auto figures = by_hand(name, arguments);
  EXPECT_TRUE(figures) << name;
  if (!figures || figures->size() <= i) return -1;
  return (*figures)[i].value;
}

// Morell 1984 as recalled: 2 in 1 ft, 3 to 4: 2, 5 to 9: 5, 10 to 14: 10, 15 to 19: 12, over: 15.
TEST(AugerDistance, IsThatOfTheTable) {
  const std::vector<std::pair<double, double>> rows = {{2, 1},   {3, 2},   {8, 5},   {9, 5},
                                                       {12, 10}, {17, 12}, {19, 12}, {24, 15}};
  for (const auto& [inches, feet] : rows) {
    const auto both = auger_distances(Length::metres(inches * kInch), {});
    EXPECT_NEAR(both[0].distance->metres(), feet * kFoot, 1e-9) << inches << " in";
    EXPECT_FALSE(both[0].between_rows) << inches << " in";
    EXPECT_EQ(both[0].figure.from.status, Status::memory);
  }
}

TEST(AugerDistance, TakesTheNextLargerRowWhereTheTableIsSilent) {
  const auto both = auger_distances(Length::metres(14.5 * kInch), {});
  EXPECT_NEAR(both[0].distance->metres(), 12 * kFoot, 1e-9);
  EXPECT_TRUE(both[0].between_rows);
  EXPECT_EQ(both[0].figure.from.status, Status::assumption);
}

TEST(AugerDistance, HasTwoVersionsThatDifferForSmallTrees) {
  const auto small = auger_distances(Length::metres(4 * kInch), Length::metres(1.5));
  EXPECT_NEAR(small[0].distance->metres(), 2 * kFoot, 1e-9);
  EXPECT_NEAR(small[1].distance->metres(), 1.5 - 2 * kInch, 1e-9);  // drip line, from the face
  EXPECT_EQ(governing(small), *small[1].distance);
  EXPECT_FALSE(auger_distances(Length::metres(4 * kInch), {})[1].distance) << "no crown";
  const auto middle = auger_distances(Length::metres(12 * kInch), {});
  EXPECT_EQ(*middle[0].distance, *middle[1].distance);
  EXPECT_EQ(middle[1].figure.from.status, Status::published);
  EXPECT_FALSE(auger_distances(Length::metres(24 * kInch), {})[1].distance) << "it ends at 19 in";
}

RC_GTEST_PROP(AugerDistanceOfAnyStem, NeverFallsAsTheStemThickens, ()) {
  const double a = *rc::gen::inRange(1, 2000) / 1000.0;
  const double b = a + *rc::gen::inRange(0, 1000) / 1000.0;
  RC_ASSERT(*auger_distances(Length::metres(a), {})[0].distance <=
            *auger_distances(Length::metres(b), {})[0].distance);
}

// Smiley 2008: half of the buttress roots -30 %, a straight cut at the trunk -35 %, one root -12 %.
TEST(ForceLost, IsThatOfTheTrial) {
  EXPECT_EQ(value("cutting.force-lost", {{"cut", "half-buttress"}}), 0.30);
  EXPECT_EQ(value("cutting.force-lost", {{"cut", "trunk-line"}}), 0.35);
  EXPECT_EQ(value("cutting.force-lost", {{"cut", "one-root"}}), 0.12);
  EXPECT_FALSE(by_hand("cutting.force-lost", {{"cut", "two-roots"}}));
}

// NJUG Volume 4: four girths of a stem of 0.5 m are 6.28 m.
TEST(PrecautionZone, IsFourGirths) {
  EXPECT_NEAR(value("cutting.precaution-zone", {{"stem", "0.5m"}}), 6.2832, 5e-5);
}

// OSHA 1926 Subpart P: 6 ft deep in soils A, B, C: 4.5, 6, 9 ft each side; 12, 15, 21 ft wide at
// the top over a floor of 3 ft.
TEST(TrenchSlope, IsThatOfTheTable) {
  const std::vector<std::tuple<std::string, double, double>> rows = {
      {"A", 4.5, 12}, {"B", 6, 15}, {"c", 9, 21}, {"rock", 0, 3}};
  for (const auto& [soil, set_back, top] : rows) {
    const FigureArguments asked = {{"depth", "6ft"}, {"soil", soil}, {"floor", "3ft"}};
    EXPECT_NEAR(value("cutting.trench-slope", asked, 0), set_back * kFoot, 1e-9) << soil;
    EXPECT_NEAR(value("cutting.trench-slope", asked, 1), top * kFoot, 1e-9) << soil;
  }
  EXPECT_FALSE(by_hand("cutting.trench-slope", {{"depth", "21ft"}, {"soil", "A"}}));
  EXPECT_FALSE(by_hand("cutting.trench-slope", {{"depth", "0ft"}, {"soil", "A"}}));
  EXPECT_FALSE(by_hand("cutting.trench-slope", {{"depth", "6ft"}, {"soil", "mud"}}));
}

TEST(ExcavationSafety, FollowsTheDepth) {
  const auto at = [](double feet) {
    return excavation_safety(Length::metres(feet * kFoot), "W1", UnitSystem::us_customary,
                             tables());
  };
  EXPECT_FALSE(at(3.9).ladder);
  EXPECT_TRUE(at(4).ladder);
  EXPECT_FALSE(at(4.9).protect);
  EXPECT_TRUE(at(5).protect);
  EXPECT_FALSE(at(20).engineer);
  EXPECT_TRUE(at(20.1).engineer);
  EXPECT_TRUE(at(4).past_british_depth);  // 1.219 m
  EXPECT_FALSE(at(3.9).past_british_depth);
  EXPECT_TRUE(at(0).prescriptions.empty());
  for (const Prescription& one : at(6).prescriptions) {
    EXPECT_EQ(one.topic, "excavation safety");
    EXPECT_NE(tables().source(one.from.source), nullptr);
    EXPECT_EQ((one.text + one.reason).find(" safe"), std::string::npos);
  }
}

// Arlington County: 4.5 ft within 10 ft of stems up to 6 in, within 15 ft of larger ones.
TEST(BoreDepth, IsThatOfTheCountyWhereTheLineIsClose) {
  const auto rules = [](const std::string& stem, const std::string& distance) {
    return by_hand("cutting.bore-depth", {{"stem", stem}, {"distance", distance}})->size();
  };
  EXPECT_EQ(rules("6in", "10ft"), 3U);
  EXPECT_EQ(rules("6in", "10.1ft"), 2U);
  EXPECT_EQ(rules("7in", "15ft"), 3U);
  EXPECT_EQ(rules("7in", "15.1ft"), 2U);
  EXPECT_NEAR(value("cutting.bore-depth", {{"stem", "7in"}, {"distance", "15ft"}}, 1), 4.5 * kFoot,
              1e-9);
  EXPECT_NEAR(value("cutting.bore-depth", {{"stem", "7in"}, {"distance", "15ft"}}, 0), 2 * kFoot,
              1e-9);
}

TEST(LeastDistance, IsThreeDiametersAndSixAreBetter) {
  EXPECT_NEAR(value("cutting.least-distance", {{"stem", "400mm"}}, 0), 1.2, 1e-12);
  EXPECT_NEAR(value("cutting.least-distance", {{"stem", "400mm"}}, 1), 2.4, 1e-12);
  const auto figures = by_hand("cutting.least-distance", {{"stem", "400mm"}});
  EXPECT_EQ((*figures)[0].from.status, Status::published);
  EXPECT_EQ((*figures)[1].from.status, Status::memory);
}

TEST(StemFigures, RefusePalms) {
  for (const std::string name :
       {"cutting.auger-distance", "cutting.least-distance", "cutting.precaution-zone"}) {
    const auto refused = by_hand(name, {{"stem", "300mm"}, {"form", "palm"}});
    ASSERT_FALSE(refused) << name;
    EXPECT_EQ(refused.error().code, Code::outside_rule_domain) << name;
    EXPECT_FALSE(by_hand(name, {{"stem", "0mm"}})) << name;
  }
}

TEST(PalmDistance, GoesByHowCutRootsAreReplaced) {
  // At least 12 in for any palm; 24 in where longer roots branch again better, or nothing is known.
  EXPECT_NEAR(value("cutting.palm-distance", {{"species", "Sabal palmetto"}}), kFoot, 1e-9);
  EXPECT_NEAR(value("cutting.palm-distance", {{"species", "Cocos nucifera"}}), kFoot, 1e-9);
  EXPECT_NEAR(value("cutting.palm-distance", {{"species", "Roystonea regia"}}), 2 * kFoot, 1e-9);
  EXPECT_NEAR(value("cutting.palm-distance", {{"species", "Howea forsteriana"}}), 2 * kFoot, 1e-9);
  EXPECT_FALSE(by_hand("cutting.palm-distance", {{"species", "Quercus robur"}}));
}

// ---- standards ----------------------------------------------------------------------------------

TEST(CutStandards, AreRowsWithSourceAndStatus) {
  const auto standards = cut_standards(tables());
  EXPECT_GE(standards.size(), 8U);
  for (const CutStandard& standard : standards) {
    EXPECT_FALSE(standard.rows.empty()) << standard.id;
    for (const CutRow& row : standard.rows)
      EXPECT_NE(tables().source(row.figure.from.source), nullptr) << row.figure.name;
  }
  // BS 5837:2012, 7.2, recalled: 25 mm.
  const auto british = cut_standard(tables(), "bs5837-2012");
  ASSERT_TRUE(british);
  EXPECT_NEAR(british->row(CutRule::ask_from)->value, 0.025, 1e-12);
  EXPECT_EQ(british->row(CutRule::ask_from)->figure.from.status, Status::memory);
  // 2 in are 50.8 mm.
  EXPECT_NEAR(cut_standard(tables(), "us-practice")->row(CutRule::approval_from)->value, 0.0508,
              1e-12);
  EXPECT_EQ(cut_standard(tables(), "maryland-715")->row(CutRule::notice_days)->value, 10);
  EXPECT_EQ(cut_standard(tables(), "bs5837").error().code, Code::unknown_name);
}

TEST(CutStandards, SayWhatARootOfSomeThicknessNeeds) {
  const auto town = cut_standard(tables(), "pleasanton");
  ASSERT_TRUE(town);
  EXPECT_EQ(town->about(0.020).front()->rule, CutRule::free_below);
  EXPECT_EQ(town->about(0.030).front()->rule, CutRule::hand_saw_from);
  EXPECT_EQ(town->about(0.060).front()->rule, CutRule::approval_from);
  EXPECT_EQ(town->about(0.060).size(), 2U);
}

TEST(CutStandards, ChosenByDefaultFollowTheUnits) {
  EXPECT_EQ(default_cut_standard(tables(), UnitSystem::metric).id, "bs5837-2012");
  EXPECT_EQ(default_cut_standard(tables(), UnitSystem::us_customary).id, "us-practice");
}

}  // namespace
}  // namespace rootstead
