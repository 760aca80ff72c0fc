// The scale plan: true to scale, complete in its legend, and legible.
#include "report/sheet.hpp"

#include <cmath>
#include <set>

#include "report/labels.hpp"
#include "report/plan_drawing.hpp"
#include "report/sheet_parts.hpp"
#include "tests/report/pages.hpp"
#include "tests/report/sample_plan.hpp"

namespace rootstead::test {
namespace {

using layout::Disc;
using layout::Hatch;
using layout::Path;
using layout::Rect;
using layout::Text;

Sheet sheet_of(const Sample& s, ReportOptions options) {
  const auto meter = layout::pango_meter();
  auto sheet = make_sheet(s.plan(), options, *meter);
  EXPECT_TRUE(sheet.ok()) << (sheet ? "" : sheet.error().sentence());
  return sheet ? std::move(sheet).value() : Sheet{};
}

TEST(sheet, has_the_size_its_name_promises) {
  // ISO 216; ANSI/ASME Y14.1 letter and tabloid; Arch D is 24 by 36 inches.
  const Sample s = sample();
  for (const auto& [size, w, h] : {std::tuple{SheetSize::a4, 297.0, 210.0},
                                   {SheetSize::a3, 420.0, 297.0},
                                   {SheetSize::a2, 594.0, 420.0},
                                   {SheetSize::a1, 841.0, 594.0},
                                   {SheetSize::letter, 279.4, 215.9},
                                   {SheetSize::tabloid, 431.8, 279.4},
                                   {SheetSize::arch_d, 914.4, 609.6}}) {
    const Sheet sheet = sheet_of(s, {size, 0});
    EXPECT_EQ(sheet.page.width, w);
    EXPECT_EQ(sheet.page.height, h);
  }
}

TEST(sheet, bar_is_as_long_as_its_scale_says) {
  for (const int scale : {200, 250, 300, 500, 1000, 1250}) {
    for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us_customary}) {
      layout::Page page;
      const auto meter = layout::pango_meter();
      layout::Pen pen(page, *meter);
      draw_scale_bar(pen, {10, 10}, 60, scale, units);
      const double drawn = bounds_of(*all_of<Path>(page, "scale-bar").at(0)).w;
      const double ground = bar_length(60, scale, units).millimetres();
      EXPECT_NEAR(drawn * scale / ground, 1, 0.002);
      EXPECT_LE(drawn, 60);
    }
  }
}

TEST(sheet, bar_and_zones_agree_with_the_written_scale) {
  const Sample s = sample();
  const Sheet sheet = sheet_of(s, {SheetSize::a3, 500});
  EXPECT_EQ(all_of<Text>(sheet.page, "written-scale").at(0)->text, "Scale 1:500");
  const auto& zone = s.assessment.trees[0].zones[0].zone;
  const auto drawn = all_of<Disc>(sheet.page, "zone:T1:root-zone");
  ASSERT_EQ(drawn.size(), 1u);
  EXPECT_NEAR(drawn[0]->radius, zone.radius.millimetres() / 500, 1e-9);
}

TEST(sheet, draws_stems_to_scale_and_where_they_stand) {
  const Sample s = sample();
  const Sheet sheet = sheet_of(s, {SheetSize::a1, 200});
  const auto a = all_of<Disc>(sheet.page, "stem:T1"), b = all_of<Disc>(sheet.page, "stem:T8");
  ASSERT_FALSE(a.empty() || b.empty());
  EXPECT_NEAR(a[0]->radius, 820.0 / 2 / 200, 1e-9);
  EXPECT_NEAR((b[0]->centre.x - a[0]->centre.x) * 200 / 1000, 58, 1e-9);  // east is right
  EXPECT_NEAR((a[0]->centre.y - b[0]->centre.y) * 200 / 1000, 12, 1e-9);  // north is up
}

TEST(sheet, chooses_the_largest_usual_scale_that_fits) {
  const Sample s = sample();
  const Box ground = ground_of(s.plan());
  for (const SheetSize size : {SheetSize::a4, SheetSize::a3, SheetSize::a2, SheetSize::a1}) {
    const Sheet sheet = sheet_of(s, {size, 0});
    EXPECT_TRUE(fits(ground, sheet.window, sheet.scale));
    for (const int larger : usual_scales(UnitSystem::metric)) {
      if (larger < sheet.scale) {
        EXPECT_FALSE(fits(ground, sheet.window, larger)) << larger;
      }
    }
  }
}

TEST(sheet, refuses_a_scale_that_does_not_fit_and_says_what_does) {
  const Sample s = sample();
  const auto meter = layout::pango_meter();
  const auto refused = make_sheet(s.plan(), {SheetSize::a4, 50}, *meter);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, Code::wrong_use);
  EXPECT_NE(refused.error().sentence().find("does not fit on A4 at 1:50"), std::string::npos);
  EXPECT_NE(refused.error().sentence().find("1:1,000"), std::string::npos);
}

TEST(sheet, of_a_site_too_large_is_an_overview_and_says_so) {
  Sample s = random_site(8, 4000, 3);
  const Sheet sheet = sheet_of(s, {SheetSize::a4, 0});
  EXPECT_TRUE(sheet.overview);
  EXPECT_TRUE(fits(ground_of(s.plan()), sheet.window, sheet.scale));
  EXPECT_NE(text_of(sheet.page).find("Overview only"), std::string::npos);
}

// What tells one pattern or line type from another without colour.
std::string look(const Path& path) {
  std::string text = std::to_string(int(path.fill.hatch)) + "/" + std::to_string(path.fill.spacing);
  for (const double d : path.stroke.dash) text += "," + std::to_string(d);
  return text;
}

TEST(sheet, legend_shows_every_pattern_that_is_drawn) {
  const Sheet sheet = sheet_of(sample(), {SheetSize::a3, 0});
  std::set<std::string> drawn, explained;
  std::set<std::string> looks;
  for (const layout::Element& e : sheet.page.elements) {
    if (e.name.starts_with("symbol:")) drawn.insert(e.name.substr(7));
    if (e.name.starts_with("legend:")) explained.insert(e.name.substr(7));
    const auto* path = std::get_if<Path>(&e.what);
    if (path != nullptr && e.name.starts_with("legend:") && path->fill.hatch != Hatch::none)
      looks.insert(look(*path));
  }
  EXPECT_GT(drawn.size(), 8u);
  for (const std::string& key : drawn) {
    EXPECT_TRUE(explained.contains(key)) << key;
  }
  for (const char* line : {"crown", "zone:vitality", "zone:stability"})
    EXPECT_TRUE(explained.contains(line)) << line;
}

TEST(sheet, every_kind_of_work_can_be_told_without_colour) {
  std::set<std::string> looks;
  for (int kind = 0; kind <= int(WorkKind::root_cut); ++kind) {
    Work work;
    work.kind = WorkKind(kind);
    const Symbol symbol = symbol_of(work);
    looks.insert(look(Path{{}, true, symbol.stroke, symbol.fill}));
  }
  EXPECT_EQ(looks.size(), std::size_t(WorkKind::root_cut) + 1);
}

TEST(sheet, every_kind_of_barrier_can_be_told_without_colour) {
  std::set<std::string> looks;
  for (int kind = 0; kind <= int(BarrierKind::water); ++kind) {
    Barrier barrier;
    barrier.kind = BarrierKind(kind);
    const Symbol symbol = symbol_of(barrier);
    looks.insert(look(Path{{}, true, symbol.stroke, symbol.fill}));
  }
  EXPECT_EQ(looks.size(), std::size_t(BarrierKind::water) + 1);
}

TEST(sheet, puts_written_scale_bar_and_north_side_by_side) {
  const Sheet sheet = sheet_of(sample(), {SheetSize::a3, 0});
  const Rect bar = bounds_of(*all_of<Path>(sheet.page, "scale-bar").at(0));
  const Rect text = all_of<Text>(sheet.page, "written-scale").at(0)->box;
  EXPECT_LT(std::abs(bar.centre().y - text.centre().y), 8);
  EXPECT_LT(text.x - bar.right(), 15);
  EXPECT_EQ(all_of<Path>(sheet.page, "north").size(), 2u);
  EXPECT_NE(text_of(sheet.page).find("Print at 100 %"), std::string::npos);
}

TEST(sheet, in_us_units_counts_in_feet) {
  const Sheet sheet = sheet_of(sample(UnitSystem::us_customary), {SheetSize::tabloid, 480});
  EXPECT_EQ(all_of<Text>(sheet.page, "written-scale").at(0)->text, "Scale 1 in = 40 ft (1:480)");
}

class SixtyTrees : public ::testing::TestWithParam<std::tuple<double, std::uint64_t>> {};

TEST_P(SixtyTrees, have_sixty_labels_and_none_over_another) {
  const auto [side, seed] = GetParam();
  const Sample s = random_site(60, side, seed);
  const Sheet sheet = sheet_of(s, {SheetSize::a3, 0});
  const auto labels = all_of<Text>(sheet.page, "label:");
  ASSERT_EQ(labels.size(), 60u);
  auto all = all_of<Text>(sheet.page, "work-label:");
  all.insert(all.end(), labels.begin(), labels.end());
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_TRUE(sheet.window.contains(all[i]->box));
    for (std::size_t j = i + 1; j < all.size(); ++j)
      EXPECT_FALSE(all[i]->box.overlaps(all[j]->box));
  }
  for (const auto* stem : all_of<Disc>(sheet.page, "stem:")) {
    const double r = stem->radius;
    const Rect box{stem->centre.x - r, stem->centre.y - r, 2 * r, 2 * r};
    for (const auto* label : labels) EXPECT_FALSE(label->box.overlaps(box));
  }
}

INSTANTIATE_TEST_SUITE_P(random_sites, SixtyTrees,
                         ::testing::Combine(::testing::Values(45.0, 70.0, 120.0),
                                            ::testing::Values(1, 2, 3, 4)));

TEST(labels, leave_free_what_a_drawing_keeps_for_itself) {
  const Sample s = sample();
  const auto meter = layout::pango_meter();
  const View view{{10, 10, 200, 150}, middle_of(ground_of(s.plan())), 500};
  const auto label_of = [&](const PlanParts& parts) {
    layout::Page page{220, 170, {}};
    layout::Pen pen(page, *meter);
    draw_plan(pen, s.plan(), view, parts);
    return all_of<Text>(page, "work-label:W1").at(0)->box;
  };
  PlanParts parts;
  const Rect free = label_of(parts);
  parts.kept_free = {free};
  EXPECT_FALSE(label_of(parts).overlaps(free));
}

TEST(labels, say_how_many_found_no_room) {
  const Sample s = random_site(700, 30, 5);
  const Sheet sheet = sheet_of(s, {SheetSize::a4, 0});
  const std::size_t placed = all_of<Text>(sheet.page, "label:").size();
  EXPECT_LT(placed, 700u);
  EXPECT_NE(text_of(sheet.page).find(std::to_string(700 - placed) + " trees are drawn without"),
            std::string::npos);
  EXPECT_TRUE(overlapping_texts(sheet.page).empty());
}

}  // namespace
}  // namespace rootstead::test
