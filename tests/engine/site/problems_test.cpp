#include <algorithm>
#include <iostream>
#include <limits>

#include "engine/base/random.hpp"
#include "engine/site/site.hpp"

namespace rootstead {
namespace {

EnteredLength metres(double value) {
  return {value, LengthUnit::metre};
}
EnteredLength centimetres(double value) {
  return {value, LengthUnit::centimetre};
}

Stem stem_of(const EnteredLength& size, Stem::Read read = Stem::Read::diameter) {
  Stem stem;
  stem.read = read;
  stem.size = size;
  return stem;
}

// A tree with which nothing is wrong.
Tree sound_tree(const std::string& tag, double x, double y) {
  Tree tree;
  tree.id = tag;
  tree.tag = tag;
  tree.botanical_name = "Quercus robur";
  tree.form = GrowthForm::broadleaf;
  tree.stems = {stem_of(centimetres(50))};
  tree.height = metres(16);
  tree.crown = Crown{};
  tree.crown->radius = {{metres(5), metres(5), metres(5), metres(5)}};
  tree.condition = Condition::good;
  tree.position = Position{{x, y}, "total station", metres(0.05)};
  tree.origin = {"survey.csv", "row " + tag};
  return tree;
}

Work sound_trench(const std::string& id) {
  Work work;
  work.id = id;
  work.shape.lines = {{{431000, 122000}, {431040, 122000}}};
  work.width = metres(0.6);
  work.depth = metres(1);
  work.origin = {"works.dxf", "entity 3F"};
  return work;
}

SoilLayer layer_to(const EnteredLength& bottom) {
  SoilLayer layer;
  layer.bottom = bottom;
  return layer;
}

// Twenty sound trees on a grid in the British National Grid, and a sound trench.
Site sound_site() {
  Site site;
  for (int i = 0; i < 20; ++i)
    site.trees.push_back(sound_tree(std::to_string(i + 1), 431000 + 7 * i, 122010 + 3 * (i % 4)));
  site.works.push_back(sound_trench("W1"));
  return site;
}

std::vector<Problem> with_code(const Site& site, NoteCode code) {
  std::vector<Problem> found = problems_of(site);
  std::erase_if(found, [&](const Problem& problem) { return problem.code != code; });
  return found;
}

// The only problem of the site is this one.
void expect_only(const Site& site, bool blocks, NoteCode code, const std::string& sentence) {
  const std::vector<Problem> found = problems_of(site);
  ASSERT_EQ(found.size(), 1u) << (found.empty() ? "nothing"
                                                : found.front().sentence() + " ... " +
                                                      found.back().sentence());
  EXPECT_EQ(found[0].blocks, blocks);
  EXPECT_EQ(found[0].code, code);
  EXPECT_EQ(found[0].sentence(), sentence);
}

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

// --- places ---

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

// --- works, barriers and surfaces ---

TEST(Problems, AWorkWithoutShapeBlocks) {
  Site site = sound_site();
  site.works[0].shape = {};
  expect_only(site, true, NoteCode::shape_missing,
              "works.dxf entity 3F, trench W1: no shape, so it can take nothing; draw the work.");
  site.works[0].shape.lines = {{{431000, 122000}, {431000, 122000}}};
  expect_only(site, true, NoteCode::shape_missing,
              "works.dxf entity 3F, trench W1: the shape has neither length nor area; draw it "
              "again.");
}

TEST(Problems, DefaultsThatWillBeUsedAreTold) {
  Site site = sound_site();
  site.works[0].depth.reset();
  expect_only(site, false, NoteCode::depth_assumed,
              "works.dxf entity 3F, trench W1: no depth; 0.9 m is assumed; enter the depth of the "
              "work.");
  site = sound_site();
  site.works[0].width.reset();
  expect_only(site, false, NoteCode::width_assumed,
              "works.dxf entity 3F, trench W1: no width; 0.6 m is assumed; enter the width of the "
              "work.");
}

TEST(Problems, ImpossibleMeasuresOfWorksBlock) {
  for (const double depth : {0.0, -1.0}) {
    Site site = sound_site();
    site.works[0].depth = metres(depth);
    EXPECT_TRUE(with_code(site, NoteCode::measure_doubtful).at(0).blocks) << depth;
  }
  Site site = sound_site();
  site.works[0].width = metres(0);
  EXPECT_TRUE(with_code(site, NoteCode::measure_doubtful).at(0).blocks);
  site = sound_site();
  site.works[0].working_room = metres(-0.5);
  EXPECT_TRUE(with_code(site, NoteCode::measure_doubtful).at(0).blocks);
  site = sound_site();
  site.works[0].depth = metres(900);  // millimetres taken for metres
  EXPECT_FALSE(with_code(site, NoteCode::measure_doubtful).at(0).blocks);
}

TEST(Problems, ABoreWithoutPitsIsTold) {
  Site site = sound_site();
  site.works[0].kind = WorkKind::bore;
  site.works[0].bore_diameter = metres(0.2);
  const auto found = with_code(site, NoteCode::shape_missing);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_FALSE(found[0].blocks);
}

TEST(Problems, OutlinesThatCrossThemselvesAreTold) {
  const MultiPolygon bow_tie = {
      {{{431000, 122000}, {431002, 122002}, {431002, 122000}, {431000, 122002}}, {}}};
  Site site = sound_site();
  site.works[0].kind = WorkKind::pit;
  site.works[0].shape = {{}, bow_tie, {}};
  Barrier barrier;
  barrier.id = "B1";
  barrier.depth = metres(1);
  barrier.shape.areas = bow_tie;
  site.barriers.push_back(barrier);
  Surface surface;
  surface.id = "S1";
  surface.area = bow_tie;
  site.surfaces.push_back(surface);
  EXPECT_EQ(with_code(site, NoteCode::shape_doubtful).size(), 3u);
}

TEST(Problems, DoubleIdsOfWorksBlock) {
  Site site = sound_site();
  site.works.push_back(sound_trench("W1"));
  EXPECT_TRUE(with_code(site, NoteCode::tag_duplicate).at(0).blocks);
}

TEST(Problems, BarriersWithoutDepthAreToldOnceAFile) {
  Site site = sound_site();
  for (int i = 0; i < 300; ++i) {
    Barrier kerb;
    kerb.id = "K" + std::to_string(i);
    kerb.kind = BarrierKind::kerb;
    kerb.shape.lines = {{{431000, 122000}, {431010, 122000}}};
    kerb.origin = {"kerbs.shp", "feature " + std::to_string(i)};
    site.barriers.push_back(kerb);
  }
  expect_only(site, false, NoteCode::depth_assumed,
              "kerbs.shp, all 300 barriers: no depth; 0.3 m is assumed; enter the depth to its "
              "underside.");
}

Evidence sound_pit(const std::string& id) {
  Evidence pit;
  pit.id = id;
  pit.tree = "3";
  pit.shape.points = {{431016, 122014}};
  pit.depth = centimetres(70);
  pit.roots = {{centimetres(3.5), centimetres(25), Point{431016.1, 122014.1}, true},
               {centimetres(6), std::nullopt, std::nullopt, false}};
  pit.date = "2026-03-04";
  pit.origin = {"pits.csv", "row 2"};
  return pit;
}

Site site_with(const Evidence& opening) {
  Site site = sound_site();
  site.evidence = {opening};
  return site;
}

TEST(Problems, SoundEvidenceSoilAndWindHaveNone) {
  Site site = site_with(sound_pit("P1"));
  Evidence empty = sound_pit("P2");
  empty.roots.clear();
  empty.tree.clear();
  empty.date.clear();
  site.evidence.push_back(empty);
  site.soil.water_table = metres(1.4);
  site.soil.layers = {layer_to(centimetres(30)), layer_to(centimetres(90))};
  site.soil.layers[0].bulk_density = 1.3;
  site.soil.layers[0].air_filled = 0.15;
  site.soil.layers[0].resistance = 0.9;
  site.wind = {Wind::Standard::en1991, 24, "III", 50, 0};
  EXPECT_TRUE(problems_of(site).empty());
}

TEST(Problems, EvidenceOfATreeThatIsNotThereIsTold) {
  Evidence pit = sound_pit("P1");
  pit.tree = "99";
  expect_only(site_with(pit), false, NoteCode::evidence_tree_unknown,
              "pits.csv row 2, pit P1: its roots are said to be of the tree 99, which is not in "
              "the survey; correct the tree, or leave it out where it is not known.");
}

TEST(Problems, AnOpeningWithoutAPlaceIsTold) {
  Evidence pit = sound_pit("P1");
  pit.shape = {};
  expect_only(site_with(pit), false, NoteCode::shape_missing,
              "pits.csv row 2, pit P1: no place, so nothing can be learned from it; give its "
              "coordinates, or draw it.");
}

TEST(Problems, ARootDeeperThanItsOpeningIsTold) {
  Evidence pit = sound_pit("P1");
  pit.roots[0].depth = centimetres(80);
  expect_only(site_with(pit), false, NoteCode::root_doubtful,
              "pits.csv row 2, pit P1: root 1 of 3.5 cm at 80 cm is deeper than the opening, 70 "
              "cm; correct one of the two depths.");
  pit.depth.reset();
  pit.roots[0].depth = centimetres(65);
  expect_only(site_with(pit), false, NoteCode::root_doubtful,
              "pits.csv row 2, pit P1: root 1 of 3.5 cm at 65 cm is deeper than the opening, 0.6 "
              "m where nothing is said; correct one of the two depths.");
}

TEST(Problems, ImpossibleRootsBlock) {
  for (const double metres_thick : {0.0, -0.1, 1.2, 35.0}) {
    Evidence pit = sound_pit("P1");
    pit.roots[0].diameter = metres(metres_thick);
    const Site site = site_with(pit);
    ASSERT_EQ(problems_of(site).size(), 1u) << metres_thick;
    EXPECT_EQ(problems_of(site)[0].code, NoteCode::root_doubtful);
    EXPECT_TRUE(problems_of(site)[0].blocks);
  }
}

TEST(Problems, ARootThinnerThanCountedIsKeptAndTold) {
  Evidence pit = sound_pit("P1");
  pit.roots[0].diameter = centimetres(1);
  expect_only(site_with(pit), false, NoteCode::root_thinner_than_counted,
              "pits.csv row 2, pit P1: root 1 of 1 cm is thinner than the 20 mm from which roots "
              "were counted; it is kept; give the diameter from which every root was written "
              "down.");
}

TEST(Problems, ARootOutsideItsOpeningIsTold) {
  Evidence pit = sound_pit("P1");
  pit.roots[0].at = Point{431019, 122014};
  expect_only(site_with(pit), false, NoteCode::root_doubtful,
              "pits.csv row 2, pit P1: root 1 of 3.5 cm was found outside the opening; check the "
              "coordinates of both.");
}

TEST(Problems, OpeningsOfNoSizeAndDoubleIdsBlock) {
  Evidence pit = sound_pit("P1");
  pit.width = metres(0);
  EXPECT_EQ(with_code(site_with(pit), NoteCode::measure_doubtful).size(), 1u);
  Site site = site_with(sound_pit("P1"));
  site.evidence.push_back(sound_pit("P1"));
  ASSERT_EQ(problems_of(site).size(), 1u);
  EXPECT_EQ(problems_of(site)[0].code, NoteCode::tag_duplicate);
}

TEST(Problems, DatesThatAreNoneAreTold) {
  for (const char* date :
       {"2026-11-25", "2026-11", "25.11.2026", "25/11/2026", "11/25/2026", "25 Nov 2026",
        "November 25, 2026", "25. M\xC3\xA4rz 2026", "29.2.2024", "3 ao\xC3\xBBt 2026"}) {
    Evidence pit = sound_pit("P1");
    pit.date = date;
    EXPECT_TRUE(problems_of(site_with(pit)).empty()) << date;
  }
  for (const char* date : {"last week", "2026-13-01", "31.2.2026", "29.2.2025", "26", "25.11.26",
                           "yesterday 2026", "2026-11-25-3", "-"}) {
    Evidence pit = sound_pit("P1");
    pit.date = date;
    expect_only(site_with(pit), false, NoteCode::date_doubtful,
                "pits.csv row 2, pit P1: the date \"" + std::string(date) +
                    "\" is no date; write it as 2026-11-25.");
  }
}

TEST(Problems, SoilsThatCannotBeBlock) {
  Site site = sound_site();
  site.soil.layers = {layer_to(centimetres(60)), layer_to(centimetres(30))};
  expect_only(site, true, NoteCode::soil_doubtful,
              "soil: layer 2 ends at 30 cm, no deeper than what is above it; give the layers from "
              "the top down, each by its underside.");
  site.soil.layers = {layer_to(centimetres(60))};
  site.soil.layers[0].bulk_density = 2.9;
  expect_only(site, true, NoteCode::soil_doubtful,
              "soil: the bulk density of layer 1, 2.9 g/cm3, is none that a soil has; enter a "
              "number from 0.3 to 2.2, or leave it out.");
  site.soil.layers = {layer_to(centimetres(60))};
  site.soil.layers[0].air_filled = 12;
  EXPECT_EQ(with_code(site, NoteCode::soil_doubtful).size(), 1u);
  site.soil.layers = {layer_to(centimetres(60))};
  site.soil.layers[0].resistance = 900;
  EXPECT_EQ(with_code(site, NoteCode::soil_doubtful).size(), 1u);
  site.soil.layers.clear();
  site.soil.water_table = metres(-1);
  EXPECT_EQ(with_code(site, NoteCode::soil_doubtful).size(), 1u);
  site.soil.water_table = metres(0);
  site.soil.rooting_depth = metres(0);
  EXPECT_EQ(with_code(site, NoteCode::soil_doubtful).size(), 1u);
}

TEST(Problems, WindsThatDoNotFitTheirStandardAreTold) {
  Site site = sound_site();
  site.wind = {Wind::Standard::none, 0, "X", 0, 0};
  EXPECT_TRUE(problems_of(site).empty());
  site.wind = {Wind::Standard::en1991, 24, "C", 50, 0};
  expect_only(
      site, true, NoteCode::wind_doubtful,
      "wind: the terrain \"C\" is none of en1991; set wind.terrain to one of 0, I, II, III, "
      "IV.");
  site.wind = {Wind::Standard::asce7_22, 50, "", 50, 0};
  expect_only(site, true, NoteCode::wind_doubtful,
              "wind: no terrain of asce7-22; set wind.terrain to one of B, C, D.");
  site.wind = {Wind::Standard::asce7_16, 0, "B", 50, 0};
  expect_only(site, true, NoteCode::wind_doubtful,
              "wind: no basic wind speed for asce7-16; set wind.speed from the map of the "
              "standard.");
  for (const Wind& odd : {Wind{Wind::Standard::en1991, 240, "II", 50, 0},
                          Wind{Wind::Standard::en1991, 2.4, "II", 50, 0},
                          Wind{Wind::Standard::en1991, 24, "II", 1, 0},
                          Wind{Wind::Standard::asce7_22, 50, "C", 50, 9000}}) {
    site.wind = odd;
    EXPECT_EQ(with_code(site, NoteCode::wind_doubtful).size(), 1u);
  }
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
