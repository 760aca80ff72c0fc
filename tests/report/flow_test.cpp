// Where pages break: a heading goes with what follows it.
#include "report/flow.hpp"

#include <gtest/gtest.h>

#include "tests/report/pages.hpp"

namespace rootstead::test {
namespace {

using layout::Flow;
using layout::Page;

class FlowOfPages : public ::testing::Test {
 protected:
  std::unique_ptr<layout::TextMeter> meter_ = layout::pango_meter();
  std::vector<Page> pages_;
};

TEST_F(FlowOfPages, a_heading_is_not_left_behind_by_a_table_kept_whole) {
  Flow flow(pages_, *meter_, layout::kA4);
  flow.take(flow.room() - 30);  // room for the heading, not for the table
  flow.heading(1, "Chapter");
  flow.heading(2, "Part");
  const layout::Row tall{{{"first row"}}, false, false, {}, 8};
  layout::table(flow, {{"Column"}}, {tall, tall});
  ASSERT_EQ(pages_.size(), 2u);
  EXPECT_EQ(text_of(pages_[0]), "");
  for (const char* said : {"Chapter", "Part", "first row"})
    EXPECT_NE(text_of(pages_[1]).find(said), std::string::npos) << said;
}

TEST_F(FlowOfPages, a_heading_stays_where_what_follows_has_room) {
  Flow flow(pages_, *meter_, layout::kA4);
  flow.take(flow.room() - 60);
  flow.heading(2, "Part");
  flow.paragraph("One line.");
  EXPECT_EQ(pages_.size(), 1u);
  EXPECT_EQ(text_of(pages_[0]), "Part\nOne line.\n");
}

TEST_F(FlowOfPages, a_heading_that_nothing_follows_is_not_lost) {
  { Flow(pages_, *meter_, layout::kA4).heading(2, "Part"); }
  EXPECT_EQ(text_of(pages_[0]), "Part\n");
}

}  // namespace
}  // namespace rootstead::test
