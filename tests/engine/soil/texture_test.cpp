// The USDA triangle on every triple of whole percents, and the step from the UK limit.
#include "engine/soil/texture.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <set>

#include "engine/base/text.hpp"
#include "tests/support/shared_data.hpp"

namespace rootstead {
namespace {

const std::map<std::string, TextureClass> kCodes = {
    {"s", TextureClass::sand},
    {"ls", TextureClass::loamy_sand},
    {"sl", TextureClass::sandy_loam},
    {"l", TextureClass::loam},
    {"sil", TextureClass::silt_loam},
    {"si", TextureClass::silt},
    {"scl", TextureClass::sandy_clay_loam},
    {"cl", TextureClass::clay_loam},
    {"sicl", TextureClass::silty_clay_loam},
    {"sc", TextureClass::sandy_clay},
    {"sic", TextureClass::silty_clay},
    {"c", TextureClass::clay},
};

TEST(Texture, IsThatOfTheAgencyForEveryTripleOfWholePercents) {
  ROOTSTEAD_NEEDS_DATA(file, "soil/usda_texture_lookup_5151.csv");
  std::ifstream in(file);
  std::string line;
  std::getline(in, line);
  int rows = 0;
  while (std::getline(in, line)) {
    const auto cells = split(trimmed(line), ',');
    ASSERT_EQ(cells.size(), 4u) << line;
    const auto share = [&](std::size_t i) { return *number_from(cells[i]) / 100; };
    const auto texture = usda_texture({share(0), share(1), share(2)});
    ASSERT_TRUE(texture.ok()) << line;
    EXPECT_EQ(*texture, kCodes.at(cells[3])) << line;
    ++rows;
  }
  EXPECT_EQ(rows, 5151);
}

TEST(Texture, OfEachClassHasItsName) {
  for (const auto& [code, texture] : kCodes)
    EXPECT_EQ(texture_class_from(to_text(texture)), texture) << code;
  EXPECT_EQ(texture_class_from("sandy_clay_loam"), TextureClass::sandy_clay_loam);
  EXPECT_FALSE(texture_class_from("mud"));
}

TEST(Texture, OfSharesThatDoNotSumIsRefusedWithASentence) {
  const auto refused = usda_texture({0.40, 0.40, 0.17});
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().sentence(),
            "texture: sand, silt and clay sum to 97.0 %, not to 100 %; check the three; stones and "
            "organic matter are not counted.");
  EXPECT_FALSE(usda_texture({-0.1, 0.6, 0.5}).ok());
  EXPECT_FALSE(usda_texture({0.4, std::nan(""), 0.2}).ok());
  EXPECT_TRUE(usda_texture({0.333, 0.333, 0.333}).ok());  // rounding
}

TEST(Texture, FigureCarriesTheClassAsItsWord) {
  const auto figure = texture_figure({0.40, 0.40, 0.20}, SandLimit::usda);
  ASSERT_TRUE(figure.ok());
  EXPECT_EQ(figure->word, "loam");
  EXPECT_EQ(figure->from.status, Status::published);
}

// Silt below 50 um of silt below 63 um: ln 25 / ln 31.5 = 3.21888 / 3.44999 = 0.93301.
TEST(Texture, OfTheUkLimitIsInterpolatedAndSaysSo) {
  const ParticleShares usda = usda_from_uk({0.15, 0.60, 0.25});
  EXPECT_NEAR(usda.silt, 0.60 * 0.93301, 1e-5);
  EXPECT_NEAR(usda.sand + usda.silt + usda.clay, 1, 1e-12);
  EXPECT_EQ(usda.clay, 0.25);
  // 82 % silt at 63 um is silt; 76.5 % at 50 um is silt loam.
  const auto figure = texture_figure({0.08, 0.82, 0.10}, SandLimit::uk);
  ASSERT_TRUE(figure.ok());
  EXPECT_EQ(figure->word, "silt loam");
  EXPECT_EQ(*usda_texture({0.08, 0.82, 0.10}), TextureClass::silt);
  EXPECT_EQ(figure->from.status, Status::assumption);
}

TEST(Texture, OfTheClaphamSamplesIsRead) {
  ROOTSTEAD_NEEDS_DATA(file, "soil/clapham_particle_size.csv");
  std::ifstream in(file);
  std::string line;
  std::getline(in, line);
  int rows = 0, moved = 0;
  std::set<TextureClass> seen;
  while (std::getline(in, line)) {
    const auto cells = split(trimmed(line), ',');
    const auto share = [&](std::size_t i) { return *number_from(cells[i]) / 100; };
    const ParticleShares uk{share(cells.size() - 3), share(cells.size() - 2),
                            share(cells.size() - 1)};
    const auto texture = usda_texture(usda_from_uk(uk));
    ASSERT_TRUE(texture.ok()) << line;
    seen.insert(*texture);
    ++rows;
    if (*texture != *usda_texture(uk)) ++moved;
  }
  EXPECT_EQ(rows, 72);
  EXPECT_TRUE(seen.contains(TextureClass::clay));  // a clay site
  EXPECT_LT(moved, rows / 4);                      // the limit matters near the lines only
}

}  // namespace
}  // namespace rootstead
