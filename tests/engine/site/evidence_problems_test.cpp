// What is wrong with openings, soils and winds.
#include "tests/engine/site/problem_site.hpp"

namespace rootstead {
namespace {

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

}  // namespace
}  // namespace rootstead
