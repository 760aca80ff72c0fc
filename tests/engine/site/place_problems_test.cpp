// What is wrong with where things are.
#include "engine/base/random.hpp"
#include "tests/engine/site/problem_site.hpp"

namespace rootstead {
namespace {

MultiPolygon square_round(const Point& p, double half) {
  return {{{{p.x - half, p.y - half},
            {p.x + half, p.y - half},
            {p.x + half, p.y + half},
            {p.x - half, p.y + half}},
           {}}};
}

TEST(Problems, ATreeInsideABuildingOrPavingIsTold) {
  Site site = sound_site();
  Barrier house;
  house.id = "B7";
  house.kind = BarrierKind::building;
  house.depth = metres(1);
  house.shape.areas = square_round(site.trees[0].position->at, 2);
  site.barriers.push_back(house);
  expect_only(
      site, false, NoteCode::tree_inside_building,
      "survey.csv row 1, tree 1: the stem stands inside building B7; check the position and "
      "the outline of the building.");
  site.barriers.clear();
  Surface path;
  path.id = "P1";
  path.area = square_round(site.trees[1].position->at, 2);
  site.surfaces.push_back(path);
  expect_only(site, false, NoteCode::tree_inside_paving,
              "survey.csv row 2, tree 2: the stem stands inside paving P1; draw the tree pit, or "
              "check the position.");
}

TEST(Problems, ATreeInsideAProposedBuildingIsAVerdictNotAProblem) {
  Site site = sound_site();
  Work extension;
  extension.id = "W2";
  extension.kind = WorkKind::building;
  extension.depth = metres(1);
  extension.shape.areas = square_round(site.trees[0].position->at, 2);
  site.works.push_back(extension);
  EXPECT_TRUE(problems_of(site).empty());
  site.works.back().state = WorkState::existing;
  EXPECT_EQ(with_code(site, NoteCode::tree_inside_building).size(), 1u);
}

TEST(Problems, APositionTooVagueForAWorkIsTold) {
  Site site = sound_site();
  site.trees[0].position->error = metres(0.9);  // the trench is 9.7 m away
  EXPECT_TRUE(problems_of(site).empty());
  site.trees[0].position->error = metres(3);
  expect_only(site, false, NoteCode::position_error_large,
              "survey.csv row 1, tree 1: the position is good to 3 m, too vague for the trench W1 "
              "9.7 m away; measure the distance to that work by tape or instrument.");
}

TEST(Problems, ExchangedCoordinatesBlockAndFarThingsAreTold) {
  Site site = sound_site();
  std::swap(site.trees[2].position->at.x, site.trees[2].position->at.y);
  std::swap(site.trees[3].position->at.x, site.trees[3].position->at.y);
  const auto swapped = with_code(site, NoteCode::coordinates_swapped);
  ASSERT_EQ(swapped.size(), 2u);
  EXPECT_TRUE(swapped[0].blocks);
  EXPECT_EQ(
      swapped[0].sentence(),
      "survey.csv row 3, tree 3: it lies far from all others, and among them once easting and "
      "northing change places; exchange the two coordinates.");
  site = sound_site();
  site.trees[5].position->at.x *= 10;  // a slip of a digit
  site.trees[6].position->at = {0, 0};
  const auto far = with_code(site, NoteCode::outside_site);
  ASSERT_EQ(far.size(), 2u);
  EXPECT_FALSE(far[0].blocks);
}

TEST(Problems, AnyOfTwentyExchangedTreesIsFound) {
  for (std::size_t i = 0; i < 20; ++i) {
    Site site = sound_site();
    std::swap(site.trees[i].position->at.x, site.trees[i].position->at.y);
    EXPECT_EQ(with_code(site, NoteCode::coordinates_swapped).size(), 1u) << i;
  }
}

TEST(Problems, ASiteSpreadOverATownIsOneSite) {
  Site site = sound_site();
  for (int i = 0; i < 30; ++i)
    site.trees.push_back(sound_tree("far " + std::to_string(i), 431000 + 9000.0 * i, 122000));
  EXPECT_TRUE(with_code(site, NoteCode::outside_site).empty());
}

TEST(Problems, ACityOfTreesIsCheckedWhole) {
  Site site;
  RandomStream random(1, "city");
  for (int i = 0; i < 30'000; ++i) {
    Tree tree = sound_tree(std::to_string(i), random.uniform(480'000, 500'000),
                           random.uniform(5'450'000, 5'460'000));
    tree.crown.reset();
    site.trees.push_back(tree);
  }
  for (int i = 0; i < 300; ++i) {
    Surface surface;
    surface.id = "S" + std::to_string(i);
    surface.area = square_round(site.trees[static_cast<std::size_t>(i)].position->at, 0.5);
    site.surfaces.push_back(surface);
  }
  EXPECT_EQ(with_code(site, NoteCode::crown_missing).size(), 1u);
  EXPECT_GE(with_code(site, NoteCode::tree_inside_paving).size(), 300u);
  EXPECT_TRUE(with_code(site, NoteCode::outside_site).empty());
}

}  // namespace
}  // namespace rootstead
