// The protection plan in the report: sheets that are legible and true to scale, tables that agree
// with them, one system of units, nothing said that was not found.
#include <cmath>
#include <set>

#include "engine/geom/measure.hpp"
#include "engine/protection/protection_plan.hpp"
#include "report/protection_drawing.hpp"
#include "report/protection_sheet.hpp"
#include "report/report.hpp"
#include "report/symbols.hpp"
#include "tests/report/pages.hpp"
#include "tests/report/sample_plan.hpp"

namespace rootstead::test {
namespace {

using layout::Bookmark;
using layout::Disc;
using layout::Document;
using layout::Page;
using layout::Path;
using layout::Rect;
using layout::Target;
using layout::Text;

constexpr double kEast = 430000, kNorth = 300000;

Polygon box(double x0, double y0, double x1, double y1) {
  return {{{kEast + x0, kNorth + y0},
           {kEast + x1, kNorth + y0},
           {kEast + x1, kNorth + y1},
           {kEast + x0, kNorth + y1}},
          {}};
}

// A sample with the plan that the engine makes of it.
struct Protected {
  Sample sample;
  Advice advice;
  Plan plan() const { return {&sample.site, &sample.tables, &sample.assessment, &advice}; }
};

Protected with_plan(Sample sample) {
  Protected made{std::move(sample), {}};
  ProtectionOptions options;
  options.units = made.sample.site.settings.units;
  auto plan =
      protection_plan(made.sample.site, made.sample.tables, made.sample.assessment, options);
  EXPECT_TRUE(plan.ok());
  if (plan) made.advice.protection = std::move(plan).value();
  return made;
}

// Much: twelve trees, seven works, a boundary and a gate.
Protected much(UnitSystem units = UnitSystem::metric) {
  Sample s = sample(units);
  s.site.boundary = {box(0, 0, 95, 52)};
  s.site.gates = {{"gate", {kEast + 95, kNorth + 46}, {4, LengthUnit::metre}}};
  s.site.trees[10].intent = Intent::remove;
  s.site.works.back().bore_pits = {box(49, 39, 51, 41), box(91, 35, 93, 37)};
  return with_plan(std::move(s));
}

// Little: one tree, and nothing that is done near it.
Protected little() {
  Sample s = sample();
  s.site.trees.resize(1);
  s.site.works.clear();
  s.assessment = invented_assessment(s.site, s.tables);
  return with_plan(std::move(s));
}

std::vector<Sheet> sheets_of(const Protected& p, const ReportOptions& options) {
  const auto meter = layout::pango_meter();
  return make_protection_sheets(p.plan(), options, *meter);
}

Document report_of(const Protected& p, const ReportOptions& options = {}) {
  const auto meter = layout::pango_meter();
  auto document = make_report(p.plan(), options, *meter);
  EXPECT_TRUE(document.ok());
  return document ? std::move(document).value() : Document{};
}

std::string text_of(const std::vector<Sheet>& sheets) {
  std::string all;
  for (const Sheet& sheet : sheets) all += test::text_of(sheet.page);
  return all;
}

template <class What>
std::size_t count_of(const std::vector<Sheet>& sheets, const std::string& name) {
  std::size_t count = 0;
  for (const Sheet& sheet : sheets) count += all_of<What>(sheet.page, name).size();
  return count;
}

std::size_t labels_of(const std::vector<Sheet>& sheets, const std::string& id) {
  std::size_t count = 0;
  for (const Sheet& sheet : sheets) {
    for (const layout::Element& e : sheet.page.elements)
      count += std::holds_alternative<Text>(e.what) && e.name == "label:" + id;
  }
  return count;
}

class ProtectionSheet : public ::testing::TestWithParam<std::tuple<SheetSize, UnitSystem>> {};

TEST_P(ProtectionSheet, has_no_text_over_another_nor_off_the_sheet) {
  const auto [size, units] = GetParam();
  for (const Sheet& sheet : sheets_of(much(units), {size, 0})) {
    for (const std::string& pair : overlapping_texts(sheet.page)) ADD_FAILURE() << pair;
    for (const std::string& text : texts_off_sheet(sheet.page)) ADD_FAILURE() << text;
  }
}

TEST_P(ProtectionSheet, keeps_labels_off_stems_gates_and_each_other) {
  const auto [size, units] = GetParam();
  for (const Sheet& sheet : sheets_of(much(units), {size, 0})) {
    const auto labels = all_of<Text>(sheet.page, "label:");
    EXPECT_FALSE(labels.empty());
    for (const auto* label : labels) {
      EXPECT_TRUE(sheet.window.contains(label->box));
      for (const auto* stem : all_of<Disc>(sheet.page, "stem:")) {
        const double r = stem->radius;
        const Rect disc{stem->centre.x - r, stem->centre.y - r, 2 * r, 2 * r};
        EXPECT_FALSE(label->box.overlaps(disc)) << label->text;
      }
    }
  }
}

TEST_P(ProtectionSheet, keeps_to_one_system_of_units) {
  const auto [size, units] = GetParam();
  const bool us = units == UnitSystem::us_customary;
  for (const Page& page : report_of(much(units), {size, 0}).pages) {
    for (const char* name : {"label:", "measure:protection", "clashes"}) {
      for (const auto* text : all_of<Text>(page, name)) {
        EXPECT_EQ(text->text.find(us ? "\u00A0m" : "\u00A0ft"), std::string::npos) << text->text;
        EXPECT_NE(text->text, us ? "m" : "ft");
        EXPECT_NE(text->text, us ? "m²" : "ft²");
      }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(sizes, ProtectionSheet,
                         ::testing::Values(std::tuple{SheetSize::a4, UnitSystem::metric},
                                           std::tuple{SheetSize::a3, UnitSystem::metric},
                                           std::tuple{SheetSize::a1, UnitSystem::metric},
                                           std::tuple{SheetSize::letter, UnitSystem::us_customary},
                                           std::tuple{SheetSize::tabloid, UnitSystem::us_customary},
                                           std::tuple{SheetSize::arch_d,
                                                      UnitSystem::us_customary}));

TEST(protection_sheet, draws_every_part_of_the_plan) {
  const Protected p = much();
  const ProtectionPlan& plan = *p.advice.protection;
  const auto sheets = sheets_of(p, {SheetSize::a1, 0});
  ASSERT_FALSE(plan.fences.empty());
  ASSERT_FALSE(plan.digs.empty());
  ASSERT_FALSE(plan.root_cuts.empty());
  for (const Fence& fence : plan.fences) {
    EXPECT_GE(count_of<Path>(sheets, "post:" + fence.id), fence.posts.size());
    EXPECT_GT(count_of<Path>(sheets, "fence:" + fence.id), 0u);
    EXPECT_EQ(labels_of(sheets, fence.id), 1u) << fence.id;
  }
  for (const FenceGate& gate : plan.gates) EXPECT_EQ(labels_of(sheets, gate.id), 1u) << gate.id;
  for (const CoveredGround& cover : plan.covers)
    EXPECT_GT(count_of<Path>(sheets, "cover:" + cover.id), 0u);
  for (const DigStretch& dig : plan.digs) EXPECT_EQ(labels_of(sheets, dig.id), 1u) << dig.id;
  for (const RootCutLine& cut : plan.root_cuts) EXPECT_EQ(labels_of(sheets, cut.id), 1u) << cut.id;
  for (const StemGuard& guard : plan.guards)
    EXPECT_GT(count_of<Path>(sheets, "guard:" + guard.tree), 0u);
}

TEST(protection_sheet, draws_a_fence_as_long_as_the_scale_says) {
  const Protected p = little();
  const auto sheets = sheets_of(p, {SheetSize::a3, 200});
  ASSERT_EQ(sheets.size(), 1u);
  const Fence& fence = p.advice.protection->fences.at(0);
  double drawn = 0;
  for (const auto* path : all_of<Path>(sheets[0].page, "fence:" + fence.id))
    drawn += length_on_page(path->rings.at(0));
  EXPECT_NEAR(drawn * 200, length_of(fence).millimetres(), 1e-3 * length_of(fence).millimetres());
}

TEST(protection_sheet, explains_in_the_legend_what_it_draws_and_nothing_else) {
  const auto few = text_of(sheets_of(little(), {}));
  EXPECT_NE(few.find("Fence on driven posts"), std::string::npos);
  EXPECT_NE(few.find("Gate for people"), std::string::npos);
  EXPECT_EQ(few.find("Root-cut line:"), std::string::npos);
  EXPECT_EQ(few.find("Dig by hand"), std::string::npos);
  EXPECT_EQ(few.find("Bore beneath"), std::string::npos);
  const auto many = text_of(sheets_of(much(), {}));
  EXPECT_NE(many.find("Root-cut line:"), std::string::npos);
  EXPECT_NE(many.find("Dig by hand only"), std::string::npos);
}

TEST(protection_sheet, draws_a_tree_by_what_was_decided_before_what_is_advised) {
  Protected p = little();
  p.sample.site.trees[0].intent = Intent::move;
  p.sample.assessment.trees[0].verdict.action = Action::remove;
  const auto sheets = sheets_of(p, {});
  EXPECT_GT(count_of<Path>(sheets, "symbol:" + symbol_of(Action::transplant).key), 0u);
  EXPECT_EQ(count_of<Path>(sheets, "symbol:" + symbol_of(Action::remove).key), 0u);
}

TEST(protection_sheet, says_that_no_clash_was_found_and_what_was_checked) {
  Protected p = little();
  ASSERT_TRUE(p.advice.protection->clashes.empty());
  const std::string clean = text_of(sheets_of(p, {}));
  EXPECT_NE(clean.find("Clashes: none found"), std::string::npos);
  EXPECT_NE(clean.find("fences cross, enclosure without gate"), std::string::npos);
  p.advice.protection->clashes = {{ClashKind::fences_cross,
                                   {"F1", "F2"},
                                   {kEast + 12, kNorth + 10},
                                   "Fences F1 and F2 cross.",
                                   "Move one fence."}};
  const std::string clashing = text_of(sheets_of(p, {}));
  EXPECT_EQ(clashing.find("none found"), std::string::npos);
  EXPECT_NE(clashing.find("Clashes: 1\nC1\nfences cross: F1, F2"), std::string::npos);
  const std::string report = test::text_of(report_of(p));
  EXPECT_NE(report.find("Move one fence."), std::string::npos);
}

TEST(protection_sheet, counts_the_clashes_that_find_no_line) {
  Protected p = little();
  for (int i = 0; i < 120; ++i)
    p.advice.protection->clashes.push_back(
        {ClashKind::fences_cross, {"F1"}, {kEast + 12, kNorth + 18}, "Crossed.", "Move it."});
  const auto sheets = sheets_of(p, {SheetSize::a4, 0});
  EXPECT_NE(text_of(sheets).find("Clashes: 120"), std::string::npos);
  EXPECT_NE(text_of(sheets).find(" more in the table of clashes"), std::string::npos);
  for (const Sheet& sheet : sheets) EXPECT_TRUE(overlapping_texts(sheet.page).empty());
}

TEST(protection_sheet, becomes_two_where_one_would_be_too_full) {
  EXPECT_EQ(sheets_of(little(), {SheetSize::a4, 0}).size(), 1u);
  const auto two = sheets_of(much(), {SheetSize::a4, 0});
  ASSERT_EQ(two.size(), 2u);
  EXPECT_TRUE(all_of<Path>(two[0].page, "dig:").empty());
  EXPECT_FALSE(all_of<Path>(two[1].page, "dig:").empty());
  EXPECT_FALSE(all_of<Path>(two[0].page, "post:").empty());
  EXPECT_TRUE(all_of<Path>(two[1].page, "post:").empty());
}

TEST(protection_sheet, tells_its_patterns_apart_without_colour) {
  std::set<layout::Hatch> hatches{look_of_enclosure().fill.hatch,
                                  look_of_no_dig().fill.hatch,
                                  look_of_pit().fill.hatch,
                                  look_of_cover(LoadClass::foot).fill.hatch,
                                  look_of_cover(LoadClass::light_plant).fill.hatch,
                                  look_of_cover(LoadClass::heavy).fill.hatch};
  EXPECT_EQ(hatches.size(), 6u);
}

TEST(protection_sheet, names_what_lies_beyond_its_edge) {
  Protected p = little();
  Way way;
  way.id = "Y7";
  way.line = {{kEast + 500, kNorth + 20}, {kEast + 560, kNorth + 20}};
  way.width = Length::metres(3.5);
  p.advice.protection->ways = {way};
  const std::string text = text_of(sheets_of(p, {SheetSize::a3, 200}));
  EXPECT_NE(text.find("Beyond the edge at this scale: Y7."), std::string::npos);
}

TEST(protection_chapter, stands_in_contents_and_bookmarks_and_resolves_its_links) {
  for (const SheetSize size : {SheetSize::a3, SheetSize::a4}) {
    const Document document = report_of(much(), {size, 0});
    std::set<std::string> targets;
    for (const Page& page : document.pages) {
      for (const auto* target : all_of<Target>(page))
        EXPECT_TRUE(targets.insert(target->name).second) << target->name;
    }
    std::size_t chapters = 0, links = 0;
    for (const Page& page : document.pages) {
      for (const auto* bookmark : all_of<Bookmark>(page)) {
        chapters += bookmark->level == 1 && bookmark->title == "Protection plan";
        EXPECT_TRUE(targets.contains(bookmark->target)) << bookmark->target;
      }
      for (const auto* text : all_of<Text>(page)) {
        links += text->link == "protection";
        EXPECT_TRUE(text->link.empty() || targets.contains(text->link)) << text->link;
      }
    }
    EXPECT_EQ(chapters, 1u);
    EXPECT_EQ(links, 2u);  // title and page number in the contents
  }
}

TEST(protection_chapter, has_no_text_over_another_nor_off_the_page) {
  for (const Protected& p : {much(), little(), much(UnitSystem::us_customary)}) {
    const bool us = p.sample.site.settings.units == UnitSystem::us_customary;
    const Document document = report_of(p, {us ? SheetSize::tabloid : SheetSize::a3, 0});
    for (const Page& page : document.pages) {
      for (const std::string& pair : overlapping_texts(page)) ADD_FAILURE() << pair;
      for (const std::string& text : texts_off_sheet(page)) ADD_FAILURE() << text;
      EXPECT_NE(test::text_of(page).find("INVENTED DATA"), std::string::npos);
    }
  }
}

TEST(protection_chapter, prints_every_quantity_of_the_bill_with_its_status) {
  const Protected p = much();
  const std::string report = test::text_of(report_of(p));
  const std::string text = report.substr(report.rfind("Bill of quantities\n"));
  ASSERT_FALSE(p.advice.protection->bill.empty());
  for (const BillItem& item : p.advice.protection->bill) {
    const std::string quantity = with_thousands(item.quantity, item.unit == "no" ? 0 : 1);
    const std::string unit = item.unit == "no"   ? "no."
                             : item.unit == "m2" ? "m²"
                             : item.unit == "m3" ? "m³"
                                                 : item.unit;
    const std::size_t at = text.find(item.text + "\n");
    ASSERT_NE(at, std::string::npos) << item.text;
    const std::size_t after = text.find("\n" + unit + "\n" + quantity + "\n", at);
    ASSERT_NE(after, std::string::npos) << item.text << " " << quantity;
    EXPECT_LT(after - at, 600u) << item.text;  // in its own row
  }
}

TEST(protection_chapter, prints_every_step_and_marks_hold_points) {
  const Protected p = much();
  const std::string text = test::text_of(report_of(p));
  for (const Step& step : p.advice.protection->steps) {
    const std::string row =
        std::to_string(step.number) + "\n" + (step.hold ? "HOLD\n" : "") + step.text;
    EXPECT_NE(text.find(row), std::string::npos) << row;
  }
}

TEST(protection_chapter, names_trees_left_out_with_the_reason) {
  const Protected p = much();
  const std::string text = test::text_of(report_of(p));
  ASSERT_FALSE(p.advice.protection->not_kept.empty());
  for (const TreeLeftOut& tree : p.advice.protection->not_kept)
    EXPECT_NE(text.find(p.sample.site.tree(tree.tree)->label() + "\n" + sentence_case(tree.reason)),
              std::string::npos);
}

TEST(protection_chapter, is_left_out_without_advice) {
  const Sample s = sample();
  const auto meter = layout::pango_meter();
  auto document = make_report(s.plan(), {}, *meter);
  ASSERT_TRUE(document.ok());
  EXPECT_EQ(test::text_of(*document).find("Protection plan"), std::string::npos);
}

}  // namespace
}  // namespace rootstead::test
