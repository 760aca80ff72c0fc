// What is wrong with trees.
#include <limits>

#include "tests/engine/site/problem_site.hpp"

namespace rootstead {
namespace {

TEST(Problems, ASoundSiteHasNone) {
  const std::vector<Problem> found = problems_of(sound_site());
  EXPECT_TRUE(found.empty()) << found.front().sentence();
  EXPECT_TRUE(problems_of(Site{}).empty());
}

// --- trees ---

TEST(Problems, AMissingPositionBlocks) {
  Site site = sound_site();
  site.trees[4].position.reset();
  expect_only(site, true, NoteCode::position_missing,
              "survey.csv row 5, tree 5: no position, so no work can be weighed against it; "
              "measure the stem's position and enter it.");
  site.trees[4].position = Position{{std::numeric_limits<double>::quiet_NaN(), 1}, "", {}};
  EXPECT_EQ(with_code(site, NoteCode::position_missing).size(), 1u);
}

TEST(Problems, AMissingOrZeroDiameterBlocks) {
  Site site = sound_site();
  site.trees[0].stems.clear();
  expect_only(site, true, NoteCode::diameter_missing,
              "survey.csv row 1, tree 1: no stem diameter; measure the diameter or girth of each "
              "stem and enter it.");
  site.trees[0].stems = {stem_of(centimetres(0))};
  expect_only(site, true, NoteCode::diameter_missing,
              "survey.csv row 1, tree 1: the stem's diameter is 0 cm; enter a diameter above zero, "
              "or remove the stem.");
  site.trees[0].stems = {stem_of(centimetres(40)), stem_of(centimetres(-3), Stem::Read::girth)};
  expect_only(site, true, NoteCode::diameter_missing,
              "survey.csv row 1, tree 1: stem 2's girth is -3 cm; enter a girth above zero, or "
              "remove the stem.");
}

TEST(Problems, APalmNeedsNoDiameter) {
  Site site = sound_site();
  site.trees[0].form = GrowthForm::palm;
  site.trees[0].stems.clear();
  ASSERT_EQ(problems_of(site).size(), 1u);
  EXPECT_FALSE(problems_of(site)[0].blocks);
}

TEST(Problems, ImpossibleAndRareDiametersAreTold) {
  Site site = sound_site();
  site.trees[0].height.reset();
  site.trees[0].stems = {stem_of(centimetres(870))};
  expect_only(site, true, NoteCode::diameter_doubtful,
              "survey.csv row 1, tree 1: the stem's diameter of 870 cm is impossible; check the "
              "unit and the reading.");
  site.trees[0].stems = {stem_of({435, LengthUnit::inch})};
  EXPECT_TRUE(problems_of(site).at(0).blocks);
  site.trees[0].stems = {stem_of(centimetres(250))};
  ASSERT_EQ(problems_of(site).size(), 1u);
  EXPECT_FALSE(problems_of(site)[0].blocks);
  site.trees[0].stems = {stem_of(centimetres(250), Stem::Read::girth)};
  EXPECT_TRUE(problems_of(site).empty());
}

TEST(Problems, AGirthEnteredAsDiameterIsSuspected) {
  Site site = sound_site();
  site.trees[0].stems = {stem_of(centimetres(188))};  // 60 cm is plausible for 12 m
  site.trees[0].height = metres(12);
  expect_only(
      site, false, NoteCode::girth_suspected,
      "survey.csv row 1, tree 1: the stem's diameter of 188 cm is too stout for a height of "
      "12 m and may be its girth; if it is, enter it as girth: the diameter is then 59.8 "
      "cm.");
  site.trees[0].stems = {stem_of(centimetres(188), Stem::Read::girth)};
  EXPECT_TRUE(problems_of(site).empty());
  site.trees[0].stems = {stem_of(centimetres(188))};
  site.trees[0].form = GrowthForm::palm;  // stout palms are common
  EXPECT_TRUE(problems_of(site).empty());
}

TEST(Problems, ProportionsThatNeitherReadingExplainsAreDoubtful) {
  Site site = sound_site();
  site.trees[0].stems = {stem_of(centimetres(150))};
  site.trees[0].height = metres(4);
  EXPECT_EQ(with_code(site, NoteCode::diameter_doubtful).size(), 1u);
  site.trees[0].stems = {stem_of({16, LengthUnit::millimetre})};  // inches taken for millimetres
  site.trees[0].height = metres(12);
  EXPECT_EQ(with_code(site, NoteCode::diameter_doubtful).size(), 1u);
}

TEST(Problems, ImpossibleAndRareHeightsAreTold) {
  Site site = sound_site();
  site.trees[0].height = metres(127.7);
  expect_only(site, true, NoteCode::height_doubtful,
              "survey.csv row 1, tree 1: the height of 127.7 m is more than any living tree's; "
              "check the unit and the reading.");
  site.trees[0].stems = {stem_of(centimetres(150))};
  site.trees[0].height = metres(70);
  EXPECT_FALSE(problems_of(site).at(0).blocks);
  site.trees[0].height = metres(0);
  EXPECT_TRUE(problems_of(site).at(0).blocks);
}

TEST(Problems, CrownsAreLookedAt) {
  Site site = sound_site();
  site.trees[0].crown.reset();
  EXPECT_EQ(with_code(site, NoteCode::crown_missing).size(), 1u);
  site = sound_site();
  site.trees[0].crown->radius[Crown::east] = metres(17);
  EXPECT_EQ(with_code(site, NoteCode::crown_doubtful).size(), 1u);  // wider than the tree is high
  site.trees[0].crown->radius[Crown::east] = metres(26);
  EXPECT_EQ(with_code(site, NoteCode::crown_doubtful).size(), 1u);
  site.trees[0].crown->radius[Crown::east] = metres(-1);
  EXPECT_TRUE(with_code(site, NoteCode::crown_doubtful).at(0).blocks);
}

TEST(Problems, StateAndNamesAreToldWithoutBlocking) {
  Site site = sound_site();
  Tree& tree = site.trees[0];
  tree.condition = Condition::dead;
  tree.flare.state = Flare::State::buried;
  tree.flare.buried_by = centimetres(20);
  tree.tag.clear();
  tree.botanical_name.clear();
  tree.form = GrowthForm::unknown;
  for (const NoteCode code : {NoteCode::tree_dead, NoteCode::flare_buried, NoteCode::tag_missing,
                              NoteCode::species_missing, NoteCode::form_unknown})
    EXPECT_EQ(with_code(site, code).size(), 1u) << static_cast<int>(code);
  for (const Problem& problem : problems_of(site)) EXPECT_FALSE(problem.blocks);
  EXPECT_EQ(with_code(site, NoteCode::flare_buried)[0].message,
            "the root flare is buried by 20 cm");
}

TEST(Problems, ADoubleTagBlocksAndNamesTheFirst) {
  Site site = sound_site();
  site.trees[7].tag = "3";
  site.trees[7].id = "3";
  expect_only(
      site, true, NoteCode::tag_duplicate,
      "survey.csv row 8, tree 3: the id 3 is already that of survey.csv row 3, tree 3; give "
      "each tree its own id.");
}

TEST(Problems, ADoubleTagIsFoundWhereIdsDiffer) {
  Site site = sound_site();
  site.trees[7].tag = "3";
  EXPECT_EQ(with_code(site, NoteCode::tag_duplicate).size(), 1u);
  site.trees[7].tag.clear();
  site.trees[7].id = "3";
  EXPECT_EQ(with_code(site, NoteCode::tag_duplicate).size(), 1u);
}

TEST(Problems, WhatAWholeFileLacksIsToldOnce) {
  Site site = sound_site();
  for (Tree& tree : site.trees) tree.crown.reset();
  expect_only(site, false, NoteCode::crown_missing,
              "survey.csv, all 20 trees: no crown radius, so rules by the crown cannot be used; "
              "measure the crown in four directions.");
  site.trees[0].crown = sound_tree("1", 0, 0).crown;
  EXPECT_EQ(with_code(site, NoteCode::crown_missing).size(), 19u);
}

}  // namespace
}  // namespace rootstead
