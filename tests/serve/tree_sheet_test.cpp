// The sheet of a tree says what `rootstead why` prints, and what the report advises.
#include "serve/tree_sheet.hpp"

#include "engine/advice/told_figure.hpp"
#include "tests/serve/a_standing.hpp"

namespace rootstead::test {
namespace {

using io::Json;

constexpr const char* kPath = "/api/trees/{id}";

// As `why` works it out: the tree alone, assessed and advised.
Json as_why_prints(const serve::Standing& standing, const std::string& id) {
  Site site = standing.site;
  site.trees = {Tree(*site.tree(id))};
  AssessOptions how;
  how.simulation = standing.assessment.simulation;
  const Assessment assessment = std::move(assess(site, loaded_tables(), how)).value();
  AdviceOptions options;
  options.simulation = how.simulation;
  const Advice advice = std::move(advise(site, loaded_tables(), assessment, options)).value();
  Json list = Json::array();
  for (const ToldFigure& told : figures_told(assessment.trees.front(), advice))
    list.push_back(io::to_json(told, loaded_tables()));
  return list;
}

bool has_line(const Json& lines, const std::string& name, const std::string& text) {
  for (const Json& line : lines)
    if (line["name"].get<std::string>().find(name) != std::string::npos &&
        line["text"].get<std::string>().find(text) != std::string::npos)
      return true;
  return false;
}

TEST(TreeSheet, TellsTheFiguresThatWhyPrints) {
  const auto standing = street_standing();
  for (const char* id : {"T1", "P1"}) {
    const auto sheet = serve::tree_sheet(*standing, id);
    ASSERT_TRUE(sheet.ok()) << sheet.error().sentence();
    EXPECT_EQ(faults(kPath, *sheet), "");
    Json figures = (*sheet)["figures"];
    EXPECT_GT(figures.size(), 5U);
    for (Json& figure : figures) {
      EXPECT_EQ(figure["name"], figure["figure"]);
      figure.erase("name");
    }
    EXPECT_EQ(figures, as_why_prints(*standing, id));
  }
}

TEST(TreeSheet, ShowsWhatWasMeasuredWithTheUnitThatWasWritten) {
  Site site = street();
  site.trees[0].stems = {{Stem::Read::girth, {62, LengthUnit::inch}, {}}};
  site.trees[0].flare.signs = {FlareSign::no_flare_all_round};
  const auto sheet = serve::tree_sheet(*standing_of(site), "T1");
  ASSERT_TRUE(sheet.ok());
  EXPECT_TRUE(has_line((*sheet)["measured"], "Stem", "girth 62 in"));
  EXPECT_TRUE(has_line((*sheet)["measured"], "Seen at the base", "no flare all round"));
  EXPECT_TRUE(has_line((*sheet)["derived"], "Diameter by", "0.50 m"));
}

TEST(TreeSheet, PutsNoPalmThroughARuleOfStems) {
  const auto sheet = serve::tree_sheet(*street_standing(), "P1");
  ASSERT_TRUE(sheet.ok());
  EXPECT_FALSE(has_line((*sheet)["derived"], "Diameter by", ""));
}

TEST(TreeSheet, AsksForAnotherWayOnlyWhereItLeavesMore) {
  const auto sheet = serve::tree_sheet(*street_standing(), "T1");
  ASSERT_TRUE(sheet.ok());
  const Json& remedies = (*sheet)["remedies"];
  bool bored = false, undug = false;
  for (const Json& remedy : remedies) {
    EXPECT_LE(remedy["after"]["best"], remedy["before"]["best"]) << remedy["text"];
    bored = bored || remedy["text"].get<std::string>().starts_with("Bore W1 drain");
    undug = undug || remedy["text"].get<std::string>().find("without digging") != std::string::npos;
  }
  EXPECT_TRUE(bored) << remedies.dump();
  EXPECT_TRUE(undug) << remedies.dump();
}

TEST(TreeSheet, AdvisesOnlyThisTree) {
  const auto standing = street_standing();
  const auto sheet = serve::tree_sheet(*standing, "T1");
  ASSERT_TRUE(sheet.ok());
  EXPECT_TRUE(has_line((*sheet)["advice"], "root cut", ""));
  const auto far = serve::tree_sheet(
      *standing_of(SiteBuilder().rules({"bs5837-2012"}).tree("T1", {0, 0}, 0.5)), "T1");
  ASSERT_TRUE(far.ok());
  EXPECT_FALSE(has_line((*far)["advice"], "root cut", ""));
  EXPECT_EQ(serve::tree_sheet(*standing, "none").error().code, Code::unknown_name);
}

TEST(TreeSheet, OfATreeWithoutAPlaceSaysWhatItCan) {
  Site site = street();
  site.trees[0].position.reset();
  const auto sheet = serve::tree_sheet(*standing_of(site), "T1");
  ASSERT_TRUE(sheet.ok()) << sheet.error().sentence();
  EXPECT_EQ(faults(kPath, *sheet), "");
}

}  // namespace
}  // namespace rootstead::test
