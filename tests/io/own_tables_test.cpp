// A user's own tables laid over the shipped ones.
#include <gtest/gtest.h>

#include <fstream>

#include "io/tables.hpp"
#include "tests/support/temp_folder.hpp"

namespace rootstead::io {
namespace {

class OwnTables : public ::testing::Test {
 protected:
  void write(const std::string& name, const std::string& text) {
    const auto file = folder_ / name;
    std::filesystem::create_directories(file.parent_path());
    std::ofstream(file) << text;
  }
  Tables loaded() {
    auto tables = load_tables(folder_.path());
    EXPECT_TRUE(tables.ok()) << tables.error().sentence();
    return tables.ok() ? *std::move(tables) : Tables{};
  }
  // The error without the folder, whose name differs each time.
  std::string sentence() {
    const auto tables = load_tables(folder_.path());
    EXPECT_FALSE(tables.ok());
    if (tables.ok()) return {};
    std::string text = tables.error().sentence();
    const std::string place = folder_.path().string() + "/";
    for (auto at = text.find(place); at != std::string::npos; at = text.find(place))
      text.erase(at, place.size());
    return text;
  }
  test::TempFolder folder_;
};

TEST_F(OwnTables, ReplaceAParameterCellByCellAndSayIt) {
  write("parameters/mine.csv", "id,low,best,high\nroots.radius_limit,12,16,30\n");
  const Tables tables = loaded();
  const Parameter& row = tables.parameter("roots.radius_limit");
  EXPECT_EQ(row.best, 16);
  EXPECT_EQ(row.unit, "m");  // as shipped
  EXPECT_EQ(row.spread, "lognormal 0.35");
  EXPECT_EQ(row.from.source, "own-tables");
  EXPECT_EQ(row.from.status, Status::assumption);
  EXPECT_TRUE(row.from.place.ends_with("mine.csv row 2, in place of rootstead")) << row.from.place;
  ASSERT_NE(tables.source("own-tables"), nullptr);
  EXPECT_EQ(tables.parameters.size(), load_tables()->parameters.size());
}

TEST_F(OwnTables, MayNameASourceOfTheirOwn) {
  write("sources.csv", "id,title\ntown-study,\"Our town, study of street trees, 2024\"\n");
  write("parameters/mine.csv",
        "id,low,best,high,source,place,status\n"
        "roots.radius_limit,12,16,30,town-study,page 4,published\n");
  const Tables tables = loaded();
  const Citation& from = tables.parameter("roots.radius_limit").from;
  EXPECT_EQ(from.source, "town-study");
  EXPECT_EQ(from.status, Status::published);
  EXPECT_TRUE(from.place.starts_with("page 4; ")) << from.place;
}

TEST_F(OwnTables, ReplaceAndAddSpecies) {
  write("species.csv",
        "botanical_name,form,tolerance\nquercus ROBUR,,good\nTetradium daniellii,broadleaf,\n");
  const Tables tables = loaded();
  const Species* oak = tables.species_of("Quercus robur");
  ASSERT_NE(oak, nullptr);
  EXPECT_EQ(oak->tolerance, Tolerance::good);
  EXPECT_EQ(oak->tolerance_from.source, "own-tables");
  EXPECT_EQ(oak->architecture, RootArchitecture::tap);  // as shipped
  EXPECT_EQ(oak->architecture_from.source, "kostler-1968");
  ASSERT_NE(tables.species_of("Tetradium daniellii"), nullptr);
  EXPECT_EQ(tables.species.size(), load_tables()->species.size() + 1);
}

TEST_F(OwnTables, ReplaceWoodAndCrowns) {
  write("wood_density.csv", "botanical_name,density_g_cm3\nFagus,0.68\nTetradium,0.52\n");
  write("crown_widths.csv",
        "botanical_name,constant_ft,ft_per_in,ft_per_in2\nTilia cordata,6,1.2,0\n");
  const Tables tables = loaded();
  EXPECT_EQ(tables.wood_density_of("Fagus sylvatica")->density, 0.68);
  EXPECT_EQ(tables.wood_density_of("Fagus")->from.source, "own-tables");
  EXPECT_NE(tables.wood_density_of("Tetradium daniellii"), nullptr);
  EXPECT_EQ(tables.crown_width_of("Tilia cordata")->ft_per_in, 1.2);
}

TEST_F(OwnTables, LeaveOtherFilesAlone) {
  write("survey-of-2024.csv", "tag,diameter\nT1,400\n");
  write("readme.txt", "hello");
  EXPECT_EQ(loaded().species.size(), load_tables()->species.size());
}

TEST_F(OwnTables, WithoutRowsChangeNothing) {
  write("species.csv", "botanical_name,tolerance\n");
  EXPECT_EQ(loaded().species.size(), load_tables()->species.size());
}

TEST_F(OwnTables, WithASlipInANameAreAskedAbout) {
  write("parameters/mine.csv", "id,low,best,high\nroots.radius_limits,12,16,30\n");
  EXPECT_EQ(sentence(),
            "parameters/mine.csv row 2: no parameter is called \"roots.radius_limits\"; perhaps "
            "\"roots.radius_limit\" is meant.");
}

TEST_F(OwnTables, WithASlipInAColumnAreAskedAbout) {
  write("species.csv", "botanical_name,tolerence\nQuercus robur,good\n");
  EXPECT_EQ(sentence(),
            "species.csv: the column \"tolerence\" is not known; perhaps \"tolerance\" is meant.");
}

TEST_F(OwnTables, WithASlipInAFileNameAreAskedAbout) {
  write("specie.csv", "botanical_name,tolerance\nQuercus robur,good\n");
  EXPECT_EQ(sentence(), "specie.csv: no table has this name; perhaps \"species.csv\" is meant.");
}

TEST_F(OwnTables, WithAWordForANumberAreRefused) {
  write("wood_density.csv", "botanical_name,density_g_cm3\nFagus,heavy\n");
  EXPECT_EQ(sentence(),
            "wood_density.csv row 2: density_g_cm3 is not a number; write it with a decimal "
            "point.");
}

TEST_F(OwnTables, WithAnUnknownWordAreRefused) {
  write("species.csv", "botanical_name,tolerance\nQuercus robur,great\n");
  EXPECT_EQ(sentence(), "species.csv row 2: \"great\" is not known as tolerance; check the word.");
}

TEST_F(OwnTables, WithUnorderedBoundsAreRefused) {
  write("parameters/mine.csv", "id,best\nroots.radius_limit,50\n");
  EXPECT_EQ(sentence(),
            "parameters/mine.csv row 2: low, best and high do not rise (10, 50, 40); order the "
            "three, or give all of them.");
}

TEST_F(OwnTables, WithANameTwiceAreRefused) {
  write("species.csv", "botanical_name,tolerance\nQuercus robur,good\nQuercus Robur,poor\n");
  EXPECT_EQ(sentence(),
            "species.csv row 3: \"Quercus Robur\" is there twice; keep one of the two.");
}

TEST_F(OwnTables, WithoutANameAreRefused) {
  write("species.csv", "botanical_name,tolerance\n,good\n");
  EXPECT_EQ(sentence(), "species.csv row 2: botanical_name is empty; name what the row is about.");
}

TEST_F(OwnTables, ThatAreImpossibleAreRefused) {
  write("wood_density.csv", "botanical_name,density_g_cm3\nFagus,680\n");
  EXPECT_EQ(sentence(),
            "wood_density.csv, Fagus: no wood has this density; give it in g/cm3, e.g. 0.58.");
}

TEST_F(OwnTables, OfASpreadNobodyKnowsAreRefused) {
  write("parameters/mine.csv", "id,spread\nroots.radius_limit,lognormal\n");
  EXPECT_EQ(
      sentence(),
      "data/parameters, roots.radius_limit: \"lognormal\" is no spread; write fixed, uniform, "
      "triangular, or normal or lognormal with its standard deviation.");
}

TEST_F(OwnTables, ThatCannotBeReadAsATableAreRefused) {
  write("species.csv", "botanical_name,tolerance\n\"Quercus robur,good\n");
  EXPECT_TRUE(sentence().starts_with("species.csv row 2")) << sentence();
}

}  // namespace
}  // namespace rootstead::io
