// What was found wrong by looking at printed pages, a test for each class of mistake.
#include <gtest/gtest.h>

#include <regex>

#include "report/flow.hpp"
#include "report/line_breaks.hpp"
#include "report/protection_sheet.hpp"
#include "report/report.hpp"
#include "report/wording.hpp"
#include "tests/report/advised_plan.hpp"
#include "tests/report/pages.hpp"

namespace rootstead::test {
namespace {

using layout::Document;
using layout::Page;
using layout::Text;

const Document& printed(UnitSystem units) {
  const auto made = [](UnitSystem of, SheetSize sheet) {
    const auto meter = layout::pango_meter();
    auto document = make_report(advised(of).plan(), ReportOptions{sheet, 0}, *meter);
    EXPECT_TRUE(document.ok());
    return document ? std::move(document).value() : Document{};
  };
  static const Document metric = made(UnitSystem::metric, SheetSize::a3);
  static const Document us = made(UnitSystem::us_customary, SheetSize::letter);
  return units == UnitSystem::metric ? metric : us;
}

TEST(Printed, KeepsANumberAndItsUnitOnOneLine) {
  EXPECT_EQ(layout::kept_together("is 92 % (82 % to 98 %) of today's"),
            "is 92\u00A0% (82\u00A0% to 98\u00A0%) of today's");
  EXPECT_EQ(layout::kept_together("0 of 100 mm and more"), "0 of 100\u00A0mm and more");
  EXPECT_EQ(layout::kept_together("at E 480004.0, N 4880053.2 and"),
            "at E\u00A0480004.0, N\u00A04880053.2 and");
  EXPECT_EQ(layout::kept_together("radius 7.4 mᵐ, 174 m²"), "radius 7.4\u00A0mᵐ, 174\u00A0m²");
  EXPECT_EQ(layout::kept_together("after 3 months, 14 trees"), "after 3 months, 14 trees");
  EXPECT_EQ(layout::kept_together(""), "");
}

TEST(Printed, TellsARangeOnlyWhereItsEndsReadDifferently) {
  EXPECT_EQ(share_of({0.999, 1, 1}), "100\u00A0%");
  EXPECT_EQ(share_of({0.97, 1, 1}), "100\u00A0% (97–100)");
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us_customary}) {
    const std::string text = text_of(printed(units));
    EXPECT_FALSE(std::regex_search(text, std::regex(R"((\d+)\S* \((\1)–\1\))")));
    EXPECT_EQ(text.find("(100–100)"), std::string::npos);
    EXPECT_EQ(text.find("(100 to 100)"), std::string::npos);
  }
}

TEST(Printed, WritesMassesAndAnglesAsTheSheetDoes) {
  Figure mass;
  mass.unit = "kg";
  mass.value = 636.08;
  mass.range = Range{350.51, 636.08, 1154.3};
  EXPECT_EQ(Wording(UnitSystem::metric).figure(mass), "636\u00A0kg (351\u00A0kg to 1,150\u00A0kg)");
  EXPECT_EQ(Wording(UnitSystem::us_customary).figure(mass),
            "1,400\u00A0lb (773\u00A0lb to 2,540\u00A0lb)");
  Figure azimuth;
  azimuth.unit = "deg";
  azimuth.value = 180;
  EXPECT_EQ(Wording(UnitSystem::metric).figure(azimuth), "180°");
}

TEST(Printed, HasNoTypeSmallerThanSevenPoints) {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us_customary})
    for (const Page& page : printed(units).pages)
      for (const auto* text : all_of<Text>(page)) {
        EXPECT_GE(text->style.points, 7) << text->text;
      }
}

TEST(Printed, PartsNoShortTableAndLeavesNoLastRowAlone) {
  const auto meter = layout::pango_meter();
  for (int before = 30; before < 60; ++before) {
    std::vector<Page> pages;
    layout::Flow flow(pages, *meter, layout::kA4);
    flow.space(before * 4);
    std::vector<layout::Row> few(4), many(60);
    for (layout::Row& row : few) row.cells = {{"few"}}, row.name = "few";
    for (layout::Row& row : many) row.cells = {{"many"}}, row.name = "many";
    layout::table(flow, {{"A", 1}}, few);
    layout::table(flow, {{"A", 1}}, many);
    for (const Page& page : pages) {
      const std::size_t short_rows = all_of<Text>(page, "few").size();
      EXPECT_TRUE(short_rows == 0 || short_rows == few.size()) << before;
      EXPECT_NE(all_of<Text>(page, "many").size(), 1u) << before;
    }
  }
}

TEST(Printed, GivesNoWaterForLongerThanAYear) {
  const std::regex days(R"(enough for (\d+) days)");
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us_customary}) {
    const std::string text = text_of(printed(units));
    for (std::sregex_iterator at(text.begin(), text.end(), days), end; at != end; ++at)
      EXPECT_LE(std::stoi((*at)[1]), 365) << at->str();
    EXPECT_FALSE(std::regex_search(text, std::regex("week with 0(\\.0)? ")));
    EXPECT_EQ(text.find("weeks 0 to"), std::string::npos);
  }
}

// A tree that the method statement waters has its block of water, and the other way round.
TEST(Printed, TellsTheWaterOfEveryTreeThatIsWatered) {
  const Advice& advice = advised().advice;
  std::size_t watered = 0;
  for (const TreeAdvice& tree : advice.trees) {
    bool told = false;
    for (const Prescription& one : advice.prescriptions())
      told = told || (one.tree == tree.tree && one.topic == "irrigation" &&
                      one.text.starts_with("In dry weather"));
    if (!told) continue;
    ++watered;
    EXPECT_TRUE(tree.water && tree.water->amounts) << tree.tree;
  }
  EXPECT_GT(watered, 0u);
}

TEST(Printed, SaysOnceOfATreeThatItIsToBeInspected) {
  constexpr std::string_view kInspect = "To be inspected whatever the figure: ";
  std::size_t told = 0;
  for (const Page& page : printed(UnitSystem::metric).pages) {
    std::size_t here = 0;
    for (const auto* text : all_of<Text>(page, "said")) here += text->text.starts_with(kInspect);
    EXPECT_LE(here, 1u);
    told += here;
  }
  EXPECT_GT(told, 0u);
}

TEST(Printed, CutsNoRuleOffBesideAZone) {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us_customary})
    for (const Page& page : printed(units).pages)
      for (const auto* text : all_of<Text>(page, "measure")) {
        if (text->text.find(", r ") == std::string::npos) continue;
        EXPECT_FALSE(text->text.ends_with("…")) << text->text;
      }
}

TEST(Printed, TellsWhatIsToDoOfATreeThatGoesOnlyForTheCaseThatItStays) {
  const std::string text = text_of(printed(UnitSystem::metric));
  bool any = false;
  for (std::size_t i = 0; i < advised().sample.site.trees.size(); ++i) {
    const Tree& tree = advised().sample.site.trees[i];
    const TreeAssessment& assessed = advised().sample.assessment.trees[i];
    const Action action = assessed.verdict.action;
    const bool goes = tree.intent == Intent::remove || tree.intent == Intent::move;
    any = any || (goes && assessed.affected() && !assessed.verdict.measures.empty() &&
                  action != Action::remove && action != Action::transplant);
  }
  EXPECT_EQ(text.find("What to do if it stays after all") != std::string::npos, any);
}

TEST(Printed, NamesNoKindBeforeANameThatTellsIt) {
  const std::string text = text_of(printed(UnitSystem::metric));
  for (const char* twice : {"root cut Root cut", "pit Bore pits", "bore Bore", "trench Trench"})
    EXPECT_EQ(text.find(twice), std::string::npos) << twice;
}

// On the smallest sheet the rows of the legend keep their distance.
TEST(Printed, KeepsTheRowsOfALegendApart) {
  const auto meter = layout::pango_meter();
  for (const SheetSize size : {SheetSize::letter, SheetSize::a4}) {
    for (const Sheet& sheet : make_protection_sheets(advised().plan(), {size, 0}, *meter)) {
      const auto rows = all_of<Text>(sheet.page, "legend-text");
      ASSERT_GT(rows.size(), 1u);
      for (std::size_t i = 1; i < rows.size(); ++i)
        EXPECT_GE(rows[i]->box.y, rows[i - 1]->box.bottom() - 0.45) << rows[i]->text;
    }
  }
}

// What a rule asks for tree by tree adds up to its sum as printed.
TEST(Printed, AddsUpWhatIsOwedTreeByTree) {
  const Wording words(UnitSystem::metric);
  EXPECT_EQ(words.stem(Length::millimetres(387.5), 1), "38.8\u00A0cm");
  EXPECT_EQ(words.stem(Length::millimetres(387.5)), "39\u00A0cm");
}

}  // namespace
}  // namespace rootstead::test
