// The page of observations, and the check that it is good enough, on made-up findings.
#include <gtest/gtest.h>

#include <algorithm>

#include "validation/markdown.hpp"
#include "validation/svg.hpp"

namespace rootstead::validation {
namespace {

Tables one_source() {
  Tables tables;
  tables.sources = {{"someone-1999", "Someone (1999). Roots, a study", "read"}};
  return tables;
}

Target target(std::string id, bool hit, std::string remark = "") {
  Target made;
  made.id = std::move(id);
  made.observation = "an observation";
  made.source = "someone-1999";
  made.published = "1";
  made.model = "2";
  made.tolerance = "within 1";
  made.hit = hit;
  made.remark = std::move(remark);
  return made;
}

// T1 to T33 and V1 to V15, the first so many of each hit.
std::vector<FoundArea> findings(int roots_hit, int anchorage_hit) {
  std::vector<FoundArea> areas = {{"Roots", {}}, {"Anchorage", {}}};
  for (int i = 1; i <= 33; ++i)
    areas[0].findings.targets.push_back(target("T" + std::to_string(i), i <= roots_hit, "why"));
  for (int i = 1; i <= 15; ++i)
    areas[1].findings.targets.push_back(target("V" + std::to_string(i), i <= anchorage_hit, "why"));
  return areas;
}

TEST(Shortcomings, AreNoneFromTwentyEightAndThirteenHitsOn) {
  EXPECT_TRUE(shortcomings(findings(28, 13), one_source(), false).empty());
  EXPECT_TRUE(shortcomings(findings(33, 15), one_source(), false).empty());
}

TEST(Shortcomings, AreTooFewHitsOfEitherSeries) {
  EXPECT_EQ(shortcomings(findings(27, 13), one_source(), false).size(), 1U);
  EXPECT_EQ(shortcomings(findings(28, 12), one_source(), false).size(), 1U);
  EXPECT_EQ(shortcomings(findings(27, 12), one_source(), true).size(), 2U);
}

TEST(Shortcomings, CountATargetThatNobodyComputesUnlessTheFindingsArePartial) {
  std::vector<FoundArea> areas = findings(28, 13);
  areas[0].findings.targets.erase(areas[0].findings.targets.begin());
  EXPECT_EQ(shortcomings(areas, one_source(), false).size(), 1U);
  EXPECT_TRUE(shortcomings(areas, one_source(), true).empty());
  EXPECT_EQ(tally(areas, kRequirements[0]).absent, std::vector<std::string>{"T1"});
}

TEST(Shortcomings, AreAnIdTwiceAnUnknownSourceAndAMissWithoutARemark) {
  std::vector<FoundArea> areas = findings(28, 13);
  auto& targets = areas[0].findings.targets;
  targets.push_back(target("T3", true));
  targets[4].source = "nobody";
  targets[32].remark.clear();
  const auto faults = shortcomings(areas, one_source(), false);
  ASSERT_EQ(faults.size(), 3U);
  EXPECT_EQ(faults[0], "T5: the source \"nobody\" is not in sources.csv");
  EXPECT_EQ(faults[1], "T33 is missed without a remark that explains it");
  EXPECT_EQ(faults[2], "T3 is there twice");
}

TEST(Page, ShowsHitsAndMissesInTheOrderOfTheirNumbers) {
  std::vector<FoundArea> areas = {
      {"Roots", {{target("T10", false, "a | b"), target("T9", true)}, {}}}};
  const std::string page = page_of(areas, one_source());
  EXPECT_LT(page.find("| T9 |"), page.find("| T10 |"));
  EXPECT_NE(page.find("**MISS**"), std::string::npos);
  EXPECT_NE(page.find("a \\| b"), std::string::npos);
  EXPECT_NE(page.find("| roots, T1 to T33 | 1 | 1 | 31 |"), std::string::npos);
  EXPECT_NE(page.find("Someone (1999). Roots, a study"), std::string::npos);
}

TEST(Chart, PlacesPointsByItsAxes) {
  Chart chart("A < B", {"x", 0, 10, 5}, {"depth", 1, 0, 0.5, 1});
  chart.marks("seen", {{0, 0}, {10, 1}}).line("model", {{0, 0}, {10, 1}}, Dash::dashed);
  const std::string svg = chart.svg();
  EXPECT_NE(svg.find("<circle cx=\"64.0\" cy=\"36.0\""), std::string::npos) << svg;
  EXPECT_NE(svg.find("<circle cx=\"484.0\" cy=\"296.0\""), std::string::npos);
  EXPECT_NE(svg.find("A &lt; B"), std::string::npos);
  EXPECT_NE(svg.find("stroke-dasharray"), std::string::npos);
  EXPECT_EQ(svg, chart.svg());
}

TEST(Chart, DrawsBandsBeneathEverythingElse) {
  Chart chart("bands", {"x", 0, 1, 1}, {"y", 0, 1, 1});
  chart.line("line", {{0, 0}, {1, 1}}).band("band", {{0, 0}, {1, 0.5}}, {{0, 0.5}, {1, 1}});
  const std::string svg = chart.svg();
  EXPECT_LT(svg.find("#dcdcdc"), svg.find("stroke-width=\"1.6\""));
}

}  // namespace
}  // namespace rootstead::validation
