// The section: laid through the nearest cut, with depths as they are in the works.
#include "report/section.hpp"

#include <algorithm>

#include "engine/geom/measure.hpp"
#include "tests/report/pages.hpp"
#include "tests/report/sample_plan.hpp"

namespace rootstead::test {
namespace {

const TreeAssessment& assessed(const Sample& s, const std::string& id) {
  return *std::find_if(s.assessment.trees.begin(), s.assessment.trees.end(),
                       [&](const auto& t) { return t.tree == id; });
}

TEST(section, runs_to_the_nearest_work_that_digs) {
  const Sample s = sample();
  const auto section = make_section(s.plan(), assessed(s, "T9"));
  ASSERT_TRUE(section);
  EXPECT_EQ(section->nearest, "W1");
  const auto drain =
      std::find_if(section->pieces.begin(), section->pieces.end(),
                   [](const auto& p) { return p.work != nullptr && p.work->id == "W1"; });
  ASSERT_NE(drain, section->pieces.end());
  EXPECT_NEAR(drain->to - drain->from, 0.6, 0.01);  // it crosses the trench squarely
  EXPECT_EQ(drain->top, 0);
  EXPECT_NEAR(drain->bottom, 1.4, 1e-12);
  EXPECT_GT(section->deepest, drain->bottom);
}

TEST(section, shows_fill_above_the_ground) {
  const Sample s = sample();
  Sample only_fill = s;
  std::erase_if(only_fill.site.works, [](const Work& w) { return w.id != "W4"; });
  only_fill.assessment = invented_assessment(only_fill.site, only_fill.tables);
  const auto section = make_section(only_fill.plan(), assessed(only_fill, "T8"));
  ASSERT_TRUE(section);
  ASSERT_EQ(section->pieces.size(), 1u);
  EXPECT_NEAR(section->pieces[0].top, -0.4, 1e-12);
  EXPECT_EQ(section->pieces[0].bottom, 0);
}

TEST(section, is_not_drawn_where_no_work_comes_near) {
  const Sample s = sample();
  Sample idle = s;
  idle.site.works.clear();
  EXPECT_FALSE(make_section(idle.plan(), assessed(idle, "T1")));
}

TEST(section, dots_lie_in_the_ground_shown_and_repeat_with_the_seed) {
  const Sample s = sample();
  const Tree& tree = s.site.trees[0];
  const auto section = make_section(s.plan(), assessed(s, "T1"));
  ASSERT_TRUE(section);
  const auto dots = root_dots(s.plan(), tree, *section, 500);
  const auto again = root_dots(s.plan(), tree, *section, 500);
  ASSERT_EQ(dots.size(), again.size());
  for (std::size_t i = 0; i < dots.size(); ++i) {
    EXPECT_EQ(dots[i].along, again[i].along);
    EXPECT_GE(dots[i].along, -section->back);
    EXPECT_LE(dots[i].along, section->ahead);
    EXPECT_GE(dots[i].depth, 0);
    EXPECT_LE(dots[i].depth, section->deepest);
  }
}

TEST(section, shows_found_roots_near_its_plane_at_their_depth) {
  Sample s = sample();
  const Tree& tree = s.site.trees[0];
  const auto section = make_section(s.plan(), assessed(s, "T1"));
  ASSERT_TRUE(section);
  const auto at = [&](double along, double aside) {
    return offset(offset(section->stem, section->towards, Length::metres(along)),
                  section->towards + Angle::degrees(90), Length::metres(aside));
  };
  const EnteredLength thick{80, LengthUnit::millimetre}, deep{300, LengthUnit::millimetre};
  Evidence pit;
  pit.id = "P1";
  pit.tree = tree.id;
  pit.shape.points = {at(1.2, 0.1)};
  pit.roots = {{thick, deep, {}, true},             // somewhere in the pit
               {thick, deep, at(1.0, 0.2), false},  // dead
               {thick, deep, at(1.0, 3.0), true},   // far from the plane
               {thick, {}, at(1.0, 0.0), true}};    // depth not written down
  s.site.evidence = {pit};
  const auto found = found_roots(s.plan(), tree, *section);
  ASSERT_EQ(found.size(), 2U);
  EXPECT_NEAR(found[0].middle.along, 1.2, 1e-6);
  EXPECT_NEAR(found[0].middle.depth, 0.3, 1e-12);
  EXPECT_NEAR(found[0].thickness, 0.08, 1e-12);
  EXPECT_TRUE(found[0].alive);
  EXPECT_FALSE(found[1].alive);
}

TEST(section, shows_one_likely_root_system_again_and_again) {
  const Sample s = sample();
  const auto section = make_section(s.plan(), assessed(s, "T1"));
  ASSERT_TRUE(section);
  const auto roots = section_roots(s.plan(), s.site.trees[0], *section);
  const auto again = section_roots(s.plan(), s.site.trees[0], *section);
  ASSERT_GT(roots.size(), 5U);
  ASSERT_EQ(roots.size(), again.size());
  double thinnest = 1, thickest = 0;
  for (std::size_t i = 0; i < roots.size(); ++i) {
    EXPECT_EQ(roots[i].to.along, again[i].to.along);
    thinnest = std::min(thinnest, roots[i].thickness);
    thickest = std::max(thickest, roots[i].thickness);
  }
  EXPECT_GT(thickest, 4 * thinnest);
}

TEST(section, gives_a_palm_many_roots_of_one_thickness) {
  const Sample s = sample();
  const Tree& palm = *s.site.tree("T5");
  Section section;
  section.stem = palm.position->at;
  section.ahead = section.back = 6;
  section.deepest = 1.5;
  const auto roots = section_roots(s.plan(), palm, section);
  ASSERT_GT(roots.size(), 40U);
  const auto [thin, thick] = std::minmax_element(
      roots.begin(), roots.end(),
      [](const SectionRoot& a, const SectionRoot& b) { return a.thickness < b.thickness; });
  EXPECT_LT(thick->thickness, 3 * thin->thickness);
  EXPECT_LT(thick->thickness, 0.02);
}

TEST(section, parts_roots_beyond_a_deep_cut_from_the_tree) {
  const Sample s = sample();
  const auto section = make_section(s.plan(), assessed(s, "T9"));
  ASSERT_TRUE(section);
  const auto roots = section_roots(s.plan(), *s.site.tree("T9"), *section);
  const bool any_kept = std::any_of(roots.begin(), roots.end(),
                                    [](const SectionRoot& root) { return !root.severed; });
  EXPECT_TRUE(any_kept);
  double nearest = section->ahead;
  for (const Section::Piece& piece : section->pieces)
    if (piece.work != nullptr && piece.from > 0) nearest = std::min(nearest, piece.from);
  for (const SectionRoot& root : roots) {
    const bool ahead = root.severed && root.from.along > 0 && root.to.along > 0;
    EXPECT_TRUE(!ahead || std::max(root.from.along, root.to.along) >= nearest - 1e-9);
  }
}

TEST(section, has_one_scale_both_ways) {
  const Sample s = sample();
  const TreeAssessment& tree = assessed(s, "T9");
  const auto section = make_section(s.plan(), tree);
  ASSERT_TRUE(section);
  layout::Page page;
  const auto meter = layout::pango_meter();
  layout::Pen pen(page, *meter);
  draw_section(pen, {20, 20, 170, 90}, s.plan(), tree, *section);
  const int scale = section_scale(*section, 170, UnitSystem::metric);
  const auto voids = all_of<layout::Path>(page, "void");
  const bool drawn = std::any_of(voids.begin(), voids.end(), [&](const auto* p) {
    const layout::Rect box = bounds_of(*p);
    return std::abs(box.h - 1400.0 / scale) < 1e-6 && std::abs(box.w - 600.0 / scale) < 0.1;
  });
  EXPECT_TRUE(drawn);
  EXPECT_TRUE(overlapping_texts(page).empty());
}

}  // namespace
}  // namespace rootstead::test
