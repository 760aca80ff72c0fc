#include "report/wording.hpp"

#include "report/flow.hpp"
#include "report/view.hpp"
#include "tests/report/pages.hpp"

namespace rootstead::test {
namespace {

const Wording kMetric(UnitSystem::metric), kUs(UnitSystem::us_customary);

TEST(wording, writes_one_length_in_the_system_of_the_sheet) {
  EXPECT_EQ(kMetric.length(Length::metres(6)), "6.0\u00A0m");
  EXPECT_EQ(kUs.length(Length::metres(6)), "19.7\u00A0ft");
  EXPECT_EQ(kMetric.area(Area::square_metres(1234.4)), "1,234\u00A0m²");
  EXPECT_EQ(kUs.area(Area::square_metres(100)), "1,076\u00A0ft²");
}

TEST(wording, writes_scales_as_each_trade_does) {
  EXPECT_EQ(kMetric.scale(1250), "1:1,250");
  EXPECT_EQ(kUs.scale(240), "1 in = 20 ft (1:240)");
}

TEST(wording, marks_every_status_with_a_letter_of_its_own) {
  EXPECT_EQ(mark(Status::published), "ᵖ");
  EXPECT_EQ(mark(Status::common_practice), "ᶜ");
  EXPECT_EQ(mark(Status::memory), "ᵐ");
  EXPECT_EQ(mark(Status::assumption), "ᵃ");
}

TEST(wording, writes_shares_and_their_ranges) {
  EXPECT_EQ(share(0.1234), "12\u00A0%");
  EXPECT_EQ(share(0.034), "3.4\u00A0%");
  EXPECT_EQ(share(0), "0\u00A0%");
  EXPECT_EQ(share_of({0.08, 0.12, 0.17}), "12\u00A0% (8.0–17)");
}

TEST(wording, keeps_what_was_entered_without_the_noise_of_binary_numbers) {
  EXPECT_EQ(entered(EnteredLength{6.6000000000000005, LengthUnit::metre}), "6.6\u00A0m");
  EXPECT_EQ(entered(EnteredLength{450, LengthUnit::millimetre}), "450\u00A0mm");
  EXPECT_EQ(entered(std::optional<EnteredLength>{}), "–");
}

TEST(view, puts_east_to_the_right_and_north_up_at_its_scale) {
  const View view{{0, 0, 100, 80}, {500, 900}, 200};
  EXPECT_NEAR(view.place({510, 900}).x, 100, 1e-12);
  EXPECT_NEAR(view.place({500, 908}).y, 0, 1e-12);
  EXPECT_NEAR(view.ground().max_x, 510, 1e-12);
}

TEST(table, repeats_its_head_on_every_page_and_keeps_every_row) {
  std::vector<layout::Page> pages;
  const auto meter = layout::pango_meter();
  layout::Flow flow(pages, *meter, layout::kA4);
  std::vector<layout::Row> rows;
  for (int i = 0; i < 200; ++i)
    rows.push_back({{{"row " + std::to_string(i)}, {"value"}}, false, false, "row"});
  layout::table(flow, {{"First", 1}, {"Second", 1}}, rows);
  ASSERT_GT(pages.size(), 2u);
  std::size_t found = 0;
  for (const layout::Page& page : pages) {
    EXPECT_NE(text_of(page).find("First\nSecond"), std::string::npos);
    EXPECT_TRUE(overlapping_texts(page).empty());
    found += all_of<layout::Text>(page, "row").size() / 2;
  }
  EXPECT_EQ(found, 200u);
}

TEST(table, names_a_group_again_where_a_page_parts_it) {
  std::vector<layout::Page> pages;
  const auto meter = layout::pango_meter();
  layout::Flow flow(pages, *meter, layout::kA4);
  std::vector<layout::Row> rows;
  for (int i = 0; i < 150; ++i) {
    const bool heads = i == 0 || i == 140;
    rows.push_back({{{(heads ? "group " : "row ") + std::to_string(i)}, {"value"}}});
    rows.back().heads_group = heads;
  }
  layout::table(flow, {{"First", 1}, {"Second", 1}}, rows);
  ASSERT_GT(pages.size(), 2u);
  EXPECT_EQ(text_of(pages[0]).find("continued"), std::string::npos);
  for (std::size_t i = 1; i < pages.size(); ++i) {
    EXPECT_NE(text_of(pages[i]).find("group 0, continued\n"), std::string::npos) << i;
    EXPECT_TRUE(overlapping_texts(pages[i]).empty());
  }
}

TEST(hatch, marks_lie_on_one_grid_for_neighbouring_shapes) {
  const layout::Fill fill{layout::Hatch::level, {}, 1.5};
  const auto a = marks_of(fill, {0, 0, 10, 10}), b = marks_of(fill, {0, 5, 10, 10});
  ASSERT_FALSE(a.lines.empty() || b.lines.empty());
  EXPECT_NEAR(std::fmod(b.lines[0][0].y, 1.5), std::fmod(a.lines[1][0].y, 1.5), 1e-9);
}

}  // namespace
}  // namespace rootstead::test
