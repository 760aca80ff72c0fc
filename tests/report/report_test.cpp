// The report as pages: nothing over anything else, nothing left out, two answers kept apart.
#include "report/report.hpp"

#include <map>
#include <set>

#include "report/pen.hpp"
#include "tests/report/pages.hpp"
#include "tests/report/sample_plan.hpp"

namespace rootstead::test {
namespace {

using layout::Bookmark;
using layout::Document;
using layout::Page;
using layout::Tag;
using layout::Target;
using layout::Text;

struct Variant {
  const char* name;
  SheetSize sheet;
  UnitSystem units;
};

// Each report is made once and asked many things.
const Document& report_of(const Variant& variant) {
  static std::map<std::string, Document> made;
  const auto [at, is_new] = made.try_emplace(variant.name);
  if (!is_new) return at->second;
  const Sample s = sample(variant.units);
  const auto meter = layout::pango_meter();
  auto document = make_report(s.plan(), ReportOptions{variant.sheet, 0}, *meter);
  EXPECT_TRUE(document.ok());
  if (document) at->second = std::move(document).value();
  return at->second;
}

class EveryReport : public ::testing::TestWithParam<Variant> {
 protected:
  const Document& document_ = report_of(GetParam());
};

TEST_P(EveryReport, has_no_text_over_another) {
  for (std::size_t i = 0; i < document_.pages.size(); ++i) {
    for (const std::string& pair : overlapping_texts(document_.pages[i]))
      ADD_FAILURE() << "page " << i + 1 << ": " << pair;
  }
}

TEST_P(EveryReport, keeps_every_text_on_the_sheet) {
  for (std::size_t i = 0; i < document_.pages.size(); ++i) {
    for (const std::string& text : texts_off_sheet(document_.pages[i]))
      ADD_FAILURE() << "page " << i + 1 << ": " << text;
  }
}

TEST_P(EveryReport, links_only_to_places_that_exist) {
  std::set<std::string> targets;
  for (const Page& page : document_.pages) {
    for (const auto* target : all_of<Target>(page))
      EXPECT_TRUE(targets.insert(target->name).second) << target->name << " stands twice";
  }
  for (const Page& page : document_.pages) {
    for (const auto* text : all_of<Text>(page))
      EXPECT_TRUE(text->link.empty() || targets.contains(text->link)) << text->link;
    for (const auto* mark : all_of<Bookmark>(page)) EXPECT_TRUE(targets.contains(mark->target));
  }
}

TEST_P(EveryReport, closes_every_tag_on_its_own_page) {
  for (const Page& page : document_.pages) {
    std::vector<layout::Role> open;
    for (const auto* tag : all_of<Tag>(page)) {
      if (tag->opens) {
        open.push_back(tag->role);
      } else {
        ASSERT_FALSE(open.empty());
        EXPECT_EQ(open.back(), tag->role);
        open.pop_back();
      }
    }
    EXPECT_TRUE(open.empty());
  }
}

TEST_P(EveryReport, numbers_its_pages_x_of_y) {
  const std::string of = " of " + std::to_string(document_.pages.size());
  for (std::size_t i = 0; i < document_.pages.size(); ++i) {
    const auto numbers = all_of<Text>(document_.pages[i], "page-no");
    ASSERT_EQ(numbers.size(), 1u);
    EXPECT_EQ(numbers[0]->text, "Page " + std::to_string(i + 1) + of);
  }
}

TEST_P(EveryReport, marks_invented_data_on_every_page) {
  for (const Page& page : document_.pages)
    EXPECT_NE(text_of(page).find("INVENTED DATA"), std::string::npos);
}

TEST_P(EveryReport, keeps_to_one_system_of_units_in_what_it_computes) {
  const bool us = GetParam().units == UnitSystem::us_customary;
  for (const Page& page : document_.pages) {
    for (const auto* text : all_of<Text>(page, "measure"))
      EXPECT_EQ(text->text.find(us ? "\u00A0m" : "\u00A0ft"), std::string::npos) << text->text;
  }
}

INSTANTIATE_TEST_SUITE_P(
    sheets, EveryReport,
    ::testing::Values(Variant{"a4", SheetSize::a4, UnitSystem::metric},
                      Variant{"a3", SheetSize::a3, UnitSystem::metric},
                      Variant{"a1", SheetSize::a1, UnitSystem::metric},
                      Variant{"letter", SheetSize::letter, UnitSystem::us_customary},
                      Variant{"tabloid", SheetSize::tabloid, UnitSystem::us_customary},
                      Variant{"arch_d", SheetSize::arch_d, UnitSystem::us_customary}),
    [](const auto& variant) { return variant.param.name; });

TEST(overlapping_texts, are_found_where_there_are_any) {
  layout::Page page;
  const auto meter = layout::pango_meter();
  layout::Pen pen(page, *meter);
  pen.text({10, 10}, "one", layout::kBody);
  pen.text({10, 14.5}, "two", layout::kBody);
  EXPECT_TRUE(overlapping_texts(page).empty());
  pen.text({12, 11}, "three", layout::kBody);
  EXPECT_EQ(overlapping_texts(page).size(), 2u);
  pen.text({209, 11}, "four", layout::kBody);
  EXPECT_EQ(texts_off_sheet(page).size(), 1u);
}

class TheReport : public ::testing::Test {
 protected:
  static Document made(const Sample& s) {
    const auto meter = layout::pango_meter();
    auto document = make_report(s.plan(), {}, *meter);
    EXPECT_TRUE(document.ok());
    return document ? std::move(document).value() : Document{};
  }
  const Document& metric_ = report_of({"a3", SheetSize::a3, UnitSystem::metric});
};

TEST_F(TheReport, lists_every_tree_once_in_the_schedule) {
  const Sample s = sample();
  const Document& document = metric_;
  std::map<std::string, int> rows;
  for (const Page& page : document.pages) {
    for (const layout::Element& e : page.elements) {
      const auto* text = std::get_if<Text>(&e.what);
      if (text == nullptr || !e.name.starts_with("schedule:")) continue;
      if (text->text == e.name.substr(9)) ++rows[text->text];
    }
  }
  ASSERT_EQ(rows.size(), s.site.trees.size());
  for (const auto& [tag, count] : rows) EXPECT_EQ(count, 1) << tag;
}

TEST_F(TheReport, shows_raw_stems_as_they_were_entered_with_their_height) {
  const std::string text = text_of(metric_);
  EXPECT_NE(text.find("820\u00A0mm at 1.5\u00A0m"), std::string::npos);
  EXPECT_NE(text.find("girth 780\u00A0mm at 1.5\u00A0m"), std::string::npos);
}

TEST_F(TheReport, gives_every_affected_tree_a_page_and_a_link_from_its_row) {
  const Sample s = sample();
  const Document& document = metric_;
  std::size_t affected = 0, titles = 0, links = 0;
  for (const TreeAssessment& tree : s.assessment.trees) affected += tree.affected();
  for (const Page& page : document.pages) {
    titles += all_of<Text>(page, "tree-title").size();
    for (const auto* text : all_of<Text>(page, "schedule:")) links += !text->link.empty();
  }
  EXPECT_GT(affected, 0u);
  EXPECT_EQ(titles, affected);
  EXPECT_EQ(links, affected);
}

TEST_F(TheReport, carries_every_caution) {
  const Sample s = sample();
  const std::string text = text_of(metric_);
  for (const std::string& caution : s.assessment.cautions)
    EXPECT_NE(text.find(caution), std::string::npos) << caution;
}

TEST_F(TheReport, prints_data_version_and_seed_on_every_text_page) {
  for (const Page& page : metric_.pages) {
    const auto lines = all_of<Text>(page, "running-data");
    if (all_of<Text>(page, "written-scale").empty()) {
      ASSERT_EQ(lines.size(), 1u);
      EXPECT_NE(lines[0]->text.find("2026.11-sample"), std::string::npos);
      EXPECT_NE(lines[0]->text.find("seed 1"), std::string::npos);
    }
  }
}

TEST_F(TheReport, never_names_a_score) {
  const std::string text = text_of(metric_);
  EXPECT_NE(text.find("Concern for vitality: "), std::string::npos);
  EXPECT_NE(text.find("Concern for stability: "), std::string::npos);
  EXPECT_EQ(text.find("overall"), std::string::npos);
}

TEST_F(TheReport, cites_every_source_with_its_status) {
  const std::string text = text_of(metric_);
  EXPECT_NE(text.find("A. Nobody, 2026, Rules made up for tests"), std::string::npos);
  EXPECT_NE(text.find("ᵖ published\nᶜ common practice"), std::string::npos);
}

TEST_F(TheReport, says_which_thick_roots_a_work_meets_and_what_would_narrow_the_range) {
  Sample s = sample();
  TreeAssessment& tree = s.assessment.trees.front();
  ASSERT_TRUE(tree.affected());
  RootsMet met;
  met.work = "W1";
  met.pieces.emplace_back();
  met.expected = {Range{3, 5, 8}, Range{1, 2, 4}, Range{0.1, 0.3, 0.6}};
  met.chance = {Range{0.9, 0.95, 1}, Range{0.5, 0.8, 0.9}, Range{0.1, 0.26, 0.4}};
  tree.roots_met = {met};
  tree.roots->influences = {{"roots.x", "root radius per crown radius", 0.41, "a trial pit"}};
  const std::string text = text_of(made(s));
  EXPECT_NE(text.find("W1 is likely to meet 3 to 8 roots of 25 mm, 1 to 4 of 50 mm"),
            std::string::npos);
  EXPECT_NE(text.find("chance of any: 95 %, 80 %, 26 %"), std::string::npos);
  EXPECT_NE(text.find("root radius per crown radius (41 % of the spread)"), std::string::npos);
}

TEST_F(TheReport, of_a_real_job_says_nothing_of_invented_data) {
  Sample s = sample();
  s.site.settings.demo = false;
  EXPECT_EQ(text_of(made(s)).find("INVENTED"), std::string::npos);
}

TEST_F(TheReport, survives_a_tree_of_which_nothing_is_known) {
  Sample s = sample();
  Tree bare;
  bare.id = "X";
  s.site.trees.push_back(bare);
  TreeAssessment assessed;
  assessed.tree = "X";
  s.assessment.trees.push_back(assessed);
  const std::string text = text_of(made(s));
  EXPECT_NE(text.find("Tree, species not recorded"), std::string::npos);
  EXPECT_NE(text.find("Without a position, not drawn: X."), std::string::npos);
}

}  // namespace
}  // namespace rootstead::test
