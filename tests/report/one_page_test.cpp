// The two sheets of one page, made through the real assessment and advice: everything fits, nothing
// lies over anything, and the crew's sheet needs no colour.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <map>

#include "io/tables.hpp"
#include "report/crew_sheet.hpp"
#include "report/owner_sheet.hpp"
#include "report/owner_words.hpp"
#include "report/pen.hpp"
#include "report/report.hpp"
#include "report/wording.hpp"
#include "tests/report/pages.hpp"
#include "tests/report/sample_plan.hpp"
#include "tests/support/temp_folder.hpp"

namespace rootstead::test {
namespace {

using layout::Document;
using layout::Page;
using layout::Rect;
using layout::Text;

struct Job {
  Sample sample;
  Advice advice;
  Plan plan() const {
    Plan plan = sample.plan();
    plan.advice = &advice;
    return plan;
  }
};

constexpr int kFewDraws = 30;  // the looks of a page do not hang on the third digit

// `trees` of the sample's, or strewn ones where there are more, through assess and advise.
Job job_of(std::size_t trees, UnitSystem units, const std::string& standard = {}) {
  Job job;
  job.sample = trees > 12 ? random_site(trees, 90, 7) : sample(units);
  Site& site = job.sample.site;
  if (trees < site.trees.size()) site.trees.resize(trees);
  site.settings.units = units;
  site.settings.rules = {"bs5837-2012"};
  if (!standard.empty()) site.settings.other[std::string(kCutStandardKey)] = standard;
  if (trees == 12) site.trees[8].intent = Intent::move, site.trees[10].intent = Intent::remove;
  AssessOptions how;
  how.simulation.draws = kFewDraws;
  if (trees > 12) {  // many trees are assessed elsewhere; here they must find room
    site.settings.rules = {"sample-2026"};
  } else {
    auto tables = io::load_tables();
    EXPECT_TRUE(tables.ok());
    job.sample.tables = std::move(tables).value();
    auto assessed = assess(site, job.sample.tables, how);
    EXPECT_TRUE(assessed.ok());
    job.sample.assessment = std::move(assessed).value();
  }
  AdviceOptions options;
  options.simulation = how.simulation;
  auto advice = advise(site, job.sample.tables, job.sample.assessment, options);
  EXPECT_TRUE(advice.ok());
  job.advice = std::move(advice).value();
  return job;
}

struct Variant {
  const char* name;
  std::size_t trees;
  UnitSystem units;
};

// Each job is worked out once and asked many things.
const Job& job_of(const Variant& variant) {
  static std::map<std::string, Job> jobs;
  const auto found = jobs.find(variant.name);
  if (found != jobs.end()) return found->second;
  return jobs.emplace(variant.name, job_of(variant.trees, variant.units)).first->second;
}

SheetSize paper(UnitSystem units) {
  return units == UnitSystem::metric ? SheetSize::a4 : SheetSize::letter;
}
Document crew(const Job& job) {
  const auto meter = layout::pango_meter();
  auto made = make_crew_sheet(job.plan(), {paper(job.sample.site.settings.units)}, *meter);
  EXPECT_TRUE(made.ok());
  return made ? std::move(made).value() : Document{};
}
Document owner(const Job& job) {
  const auto meter = layout::pango_meter();
  auto made = make_owner_sheet(job.plan(), {paper(job.sample.site.settings.units)}, *meter);
  EXPECT_TRUE(made.ok());
  return made ? std::move(made).value() : Document{};
}

// Boxes of everything drawn, cut at its window.
std::vector<Rect> drawn(const Page& page) {
  std::vector<Rect> boxes;
  for (const layout::Element& e : page.elements) {
    if (e.clip) {
      boxes.push_back(*e.clip);
    } else if (const auto* path = std::get_if<layout::Path>(&e.what)) {
      boxes.push_back(bounds_of(*path));
    } else if (const auto* disc = std::get_if<layout::Disc>(&e.what)) {
      const double r = disc->radius;
      boxes.push_back({disc->centre.x - r, disc->centre.y - r, 2 * r, 2 * r});
    }
  }
  return boxes;
}

std::vector<layout::Colour> colours_of(const Page& page) {
  std::vector<layout::Colour> colours;
  for (const layout::Element& e : page.elements) {
    if (const auto* text = std::get_if<Text>(&e.what)) colours.push_back(text->style.colour);
    if (const auto* path = std::get_if<layout::Path>(&e.what))
      colours.insert(colours.end(), {path->stroke.colour, path->fill.colour});
    if (const auto* disc = std::get_if<layout::Disc>(&e.what))
      colours.insert(colours.end(), {disc->stroke.colour, disc->fill.colour});
  }
  return colours;
}

void expect_tidy(const Page& page) {
  for (const std::string& pair : overlapping_texts(page)) ADD_FAILURE() << pair;
  for (const std::string& text : texts_off_sheet(page)) ADD_FAILURE() << text;
  for (const Rect& box : drawn(page))
    EXPECT_TRUE(page.sheet().shrunk(5).contains(box)) << box.x << " " << box.y;
  for (const auto* text : all_of<Text>(page)) {
    EXPECT_GE(text->style.points, 9) << text->text;
    EXPECT_GT(text->box.w, 0) << text->text;
  }
}

void expect_plain_words(const Document& document) {
  const std::string text = text_of(document);
  for (const char* word : {"safe", "score", "P90", "DBH", "RPA", "anchorage", "vitality"})
    EXPECT_EQ(text.find(word), std::string::npos) << word;
  EXPECT_NE(text.find("INVENTED DATA"), std::string::npos);
  for (const char* caution : {"screening aid", "by hand or air", "arborist", "Local law",
                              "services located", "Keep people clear"})
    EXPECT_NE(text.find(caution), std::string::npos) << caution;
}

class OnePageSheets : public ::testing::TestWithParam<Variant> {
 protected:
  const Job& job_ = job_of(GetParam());
};

// The first page is the sheet; where it has no room for every stretch, pages follow behind it.
TEST_P(OnePageSheets, crew_pages_are_tidy_and_each_carries_the_cautions) {
  const Document made = crew(job_);
  ASSERT_FALSE(made.pages.empty());
  for (const Page& page : made.pages) {
    expect_tidy(page);
    EXPECT_EQ(all_of<Text>(page, "cautions").size(), 1u);
    EXPECT_EQ(all_of<Text>(page, "demo").size(), 1u);
  }
}

TEST_P(OnePageSheets, owner_fits_one_page) {
  const Document made = owner(job_);
  ASSERT_EQ(made.pages.size(), 1u);
  expect_tidy(made.pages[0]);
}

TEST_P(OnePageSheets, keep_their_parts_apart) {
  const Document made = crew(job_);
  const Page& page = made.pages.at(0);
  std::vector<Rect> parts;
  for (const char* name : {"picture-frame", "extract-frame", "stop-box", "call-box"})
    for (const auto* path : all_of<layout::Path>(page, name)) parts.push_back(bounds_of(*path));
  ASSERT_EQ(parts.size(), 6u);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    EXPECT_GT(parts[i].h, 25);
    for (std::size_t j = i + 1; j < parts.size(); ++j)
      EXPECT_FALSE(parts[i].overlaps(parts[j])) << i << " " << j;
  }
  for (const auto* text : all_of<Text>(page, "detail")) {
    const Rect frame = bounds_of(*all_of<layout::Path>(page, "extract-frame")[0]);
    EXPECT_LT(text->box.bottom(), frame.y);
  }
}

TEST_P(OnePageSheets, crew_needs_no_colour) {
  for (const layout::Colour& c : colours_of(crew(job_).pages.at(0))) {
    EXPECT_EQ(c.red, c.green);
    EXPECT_EQ(c.green, c.blue);
    EXPECT_TRUE(c.red == 0 || c.red == 1) << "grey is lost on a copier";
  }
}

TEST_P(OnePageSheets, crew_has_three_rules_in_large_type) {
  const auto made = crew(job_);
  const auto rules = all_of<Text>(made.pages.at(0), "rule");
  ASSERT_EQ(rules.size(), 3u);
  for (const auto* rule : rules) EXPECT_GE(rule->style.points, 20);
}

TEST_P(OnePageSheets, speak_plainly_and_carry_the_cautions) {
  expect_plain_words(crew(job_));
  expect_plain_words(owner(job_));
}

TEST_P(OnePageSheets, keep_to_one_system_of_units) {
  const bool us = GetParam().units == UnitSystem::us_customary;
  for (const Document& made : {crew(job_), owner(job_)}) {
    for (const auto* text : all_of<Text>(made.pages.at(0), "measure"))
      EXPECT_EQ(text->text.find(us ? "\u00A0m" : "\u00A0ft"), std::string::npos) << text->text;
  }
}

INSTANTIATE_TEST_SUITE_P(jobs, OnePageSheets,
                         ::testing::Values(Variant{"one", 1, UnitSystem::metric},
                                           Variant{"twelve", 12, UnitSystem::metric},
                                           Variant{"sixty", 60, UnitSystem::metric},
                                           Variant{"one_us", 1, UnitSystem::us_customary},
                                           Variant{"twelve_us", 12, UnitSystem::us_customary},
                                           Variant{"sixty_us", 60, UnitSystem::us_customary}),
                         [](const auto& variant) { return variant.param.name; });

const Job& twelve() {
  return job_of(Variant{"twelve", 12, UnitSystem::metric});
}

TEST(CrewSheet, takes_its_thickness_from_the_standard_chosen) {
  const auto said = [](const Job& job) { return text_of(crew(job)); };
  EXPECT_NE(said(job_of(3, UnitSystem::metric, "din18920-2014")).find("20\u00A0mm"),
            std::string::npos);
  EXPECT_NE(said(job_of(3, UnitSystem::metric, "bs5837-2012")).find("25\u00A0mm"),
            std::string::npos);
  EXPECT_NE(said(job_of(3, UnitSystem::us_customary)).find("2\u00A0in"), std::string::npos);
}

TEST(CrewSheet, lists_every_stretch_once_in_front_or_behind) {
  const Job& job = twelve();
  ASSERT_TRUE(job.advice.protection);
  const auto& protection = *job.advice.protection;
  ASSERT_FALSE(protection.digs.empty());
  std::size_t listed = 0;
  for (const Page& page : crew(job).pages) listed += all_of<Text>(page, "stretch:").size();
  EXPECT_EQ(listed, protection.digs.size() + protection.root_cuts.size() +
                        protection.no_dig.size() + protection.bores.size());
}

TEST(CrewSheet, cuts_no_length_off_on_the_pages_behind) {
  const auto made = crew(job_of(Variant{"sixty", 60, UnitSystem::metric}));
  ASSERT_GT(made.pages.size(), 1u);
  for (std::size_t i = 1; i < made.pages.size(); ++i) {
    for (const auto* text : all_of<Text>(made.pages[i], "measure"))
      EXPECT_EQ(text->text.find("…"), std::string::npos) << text->text;
  }
}

// The mark of the share of roots that go along is that of its own trail.
TEST(OwnerSheet, marks_the_roots_moved_as_their_figure_says) {
  for (const Status status : {Status::common_practice, Status::assumption}) {
    Job job = job_of(3, UnitSystem::metric);
    Tree& tree = job.sample.site.trees.front();
    tree.intent = Intent::move;
    Figure share;
    share.name = "transplant.roots-in-ball";
    share.from.status = status;
    TransplantAdvice move;
    move.roots_moved = Range{0.1, 0.2, 0.3};
    move.figures = {share};
    for (TreeAdvice& advice : job.advice.trees)
      if (advice.tree == tree.id) advice.move = move;
    const auto lines = owner_lines(job.plan());
    const auto line = std::find_if(lines.begin(), lines.end(),
                                   [&](const OwnerLine& one) { return one.tree == tree.id; });
    ASSERT_NE(line, lines.end());
    EXPECT_NE(line->health.find(mark(status) + " of its roots"), std::string::npos) << line->health;
  }
  EXPECT_NE(mark(Status::common_practice), mark(Status::assumption));
}

TEST(CrewSheet, cuts_no_tree_name_off) {
  for (const std::size_t trees : {3U, 12U, 60U}) {
    const auto made = crew(job_of(Variant{trees == 60   ? "sixty"
                                          : trees == 12 ? "twelve-named"
                                                        : "three-named",
                                          trees, UnitSystem::metric}));
    std::size_t named = 0;
    for (const Page& page : made.pages) {
      for (const auto* text : all_of<Text>(page, "stretch-trees")) {
        EXPECT_EQ(text->text.find("…"), std::string::npos) << text->text;
        ++named;
      }
      for (const std::string& pair : overlapping_texts(page)) ADD_FAILURE() << pair;
    }
    EXPECT_GT(named, 0u) << trees;
  }
}

TEST(CrewSheet, names_who_is_called_and_leaves_a_line_for_the_number) {
  Job job = twelve();
  EXPECT_NE(text_of(crew(job)).find("Tel. ____"), std::string::npos);
  job.sample.site.settings.other[std::string(kTelephoneKey)] = "000 1234";
  EXPECT_NE(text_of(crew(job)).find("Tel. 000 1234"), std::string::npos);
  EXPECT_NE(text_of(crew(job)).find("R. Alder"), std::string::npos);
}

TEST(OwnerSheet, keeps_the_two_answers_apart_for_every_tree_listed) {
  const auto made = owner(job_of(Variant{"one", 1, UnitSystem::metric}));
  EXPECT_EQ(all_of<Text>(made.pages.at(0), "tree-line").size(), 4u);
  const std::string text = text_of(made);
  EXPECT_NE(text.find("Health: leaves and growth"), std::string::npos);
  EXPECT_NE(text.find("Hold in the ground"), std::string::npos);
}

TEST(OwnerSheet, gives_water_in_the_rounds_of_the_report) {
  const Job job = twelve();
  const std::string text = text_of(owner(job));
  ASSERT_NE(text.find(" litres a week ("), std::string::npos);
  std::size_t told = 0;
  for (const TreeAdvice& tree : job.advice.trees) {
    if (!tree.water || !tree.water->amounts) continue;
    const double days = std::floor(tree.water->amounts->days_between.best);
    const std::string every =
        days < 2 ? " litres every day" : " litres every " + std::to_string(int(days)) + " days";
    told += text.find(every) != std::string::npos;
  }
  EXPECT_GT(told, 0u);
  EXPECT_EQ(text.find("once a week"), std::string::npos);
}

TEST(OwnerSheet, says_what_is_moved_and_removed) {
  const std::string text = text_of(owner(twelve()));
  EXPECT_NE(text.find("\nmoved\n"), std::string::npos);
  EXPECT_NE(text.find("\nremoved\n"), std::string::npos);
}

TEST(OwnerSheet, of_many_trees_says_how_many_more) {
  const auto made = owner(job_of(Variant{"sixty", 60, UnitSystem::metric}));
  const std::size_t listed = all_of<Text>(made.pages.at(0), "tree-line").size() / 4;
  ASSERT_LT(listed, 60u);
  EXPECT_GE(listed, 5u);
  EXPECT_NE(text_of(made).find("and " + std::to_string(60 - listed) + " more in the report"),
            std::string::npos);
}

TEST(OnePageSheet, without_advice_is_refused_with_a_sentence) {
  Job job = twelve();
  Plan plan = job.plan();
  plan.advice = nullptr;
  const auto meter = layout::pango_meter();
  EXPECT_EQ(make_crew_sheet(plan, {}, *meter).error().code, Code::wrong_use);
  EXPECT_EQ(make_owner_sheet(plan, {}, *meter).error().code, Code::wrong_use);
}

TEST(OnePageSheet, is_written_as_a_file) {
  const TempFolder folder;
  for (const char* name : {"one", "twelve", "sixty"}) {
    const std::size_t trees = name == std::string("one") ? 1 : name[0] == 't' ? 12 : 60;
    const Job& job = job_of(Variant{name, trees, UnitSystem::metric});
    const char* keep = std::getenv("ROOTSTEAD_KEEP");
    const std::filesystem::path where = keep ? std::filesystem::path(keep) : folder.path();
    const auto one = where / (std::string("crew-") + name + ".pdf");
    const auto two = where / (std::string("owner-") + name + ".pdf");
    ASSERT_TRUE(write_crew_sheet(job.plan(), {}, one).ok());
    ASSERT_TRUE(write_owner_sheet(job.plan(), {}, two).ok());
    EXPECT_GT(std::filesystem::file_size(one), 5000u);
    EXPECT_GT(std::filesystem::file_size(two), 5000u);
  }
  EXPECT_EQ(write_crew_sheet(twelve().plan(), {}, folder.path() / "no" / "such.pdf").error().code,
            Code::file_unwritable);
}

}  // namespace
}  // namespace rootstead::test
