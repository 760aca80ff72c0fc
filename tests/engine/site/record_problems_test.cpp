// Bad records of flares, vehicles, soil, climate, boundary and gates: one clear sentence each.
#include <gtest/gtest.h>

#include <functional>
#include <limits>

#include "engine/site/dates.hpp"
#include "engine/site/site.hpp"

namespace rootstead {
namespace {

EnteredLength metres(double value) {
  return {value, LengthUnit::metre};
}
EnteredLength centimetres(double value) {
  return {value, LengthUnit::centimetre};
}

Polygon rectangle(double left, double bottom, double right, double top) {
  return {{{left, bottom}, {right, bottom}, {right, top}, {left, top}}, {}};
}

Tree sound_tree() {
  Tree tree;
  tree.id = tree.tag = "T1";
  tree.botanical_name = "Quercus robur";
  tree.form = GrowthForm::broadleaf;
  tree.stems.resize(1);
  tree.stems[0].size = centimetres(50);
  tree.height = metres(16);
  tree.crown = Crown{};
  tree.crown->radius = {{metres(5), metres(5), metres(5), metres(5)}};
  tree.position = Position{{20, 20}, "total station", {}};
  tree.ownership = "client";
  tree.history = GrowthHistory::planted_from_nursery;
  tree.intent = Intent::move;
  tree.flare.taper = {{centimetres(10), centimetres(62)}, {centimetres(30), centimetres(56)}};
  tree.flare.signs = {FlareSign::no_flare_all_round};
  tree.flare.found = FlareRecord{"2026-05-04", "A. Person", centimetres(12), centimetres(15), 0.2,
                                 metres(0.6),  ""};
  tree.origin = {"survey.csv", "row 2"};
  return tree;
}

Work sound_traffic() {
  Work work;
  work.id = "W1";
  work.kind = WorkKind::traffic;
  work.shape.areas = {rectangle(5, 5, 15, 15)};
  work.vehicle = Vehicle{"8 t excavator", 8000, 39, 45, metres(0.45), metres(2.1), 40};
  work.cover = GroundCover{"mats on chips", centimetres(20), metres(1), metres(2)};
  work.date = "2027-01";
  work.origin = {"works.csv", "row 2"};
  return work;
}

Work sound_trench() {
  Work work;
  work.id = "W2";
  work.state = WorkState::existing;
  work.shape.lines = {{{5, 30}, {25, 30}}};
  work.width = metres(0.6);
  work.depth = metres(1);
  work.date = "2026-04";
  work.seen = "three roots torn";
  work.origin = {"works.csv", "row 3"};
  return work;
}

Site sound_site() {
  Site site;
  site.settings.date = "2026-11-25";
  site.trees = {sound_tree()};
  site.works = {sound_traffic(), sound_trench()};
  SoilLayer layer;
  layer.bottom = centimetres(40);
  layer.sand = 0.4;
  layer.silt = 0.4;
  layer.clay = 0.2;
  layer.organic_matter = 0.04;
  layer.water = 0.25;
  site.soil.layers = {layer};
  site.boundary = {rectangle(0, 0, 50, 50)};
  site.gates = {{"G1", {0, 25}, metres(4)}};
  site.climate = {8, 51.5, 30, std::vector<double>(12, 2.0), std::vector<double>(12, 1.8), "map"};
  return site;
}

struct BadRecord {
  const char* what;
  std::function<void(Site&)> spoil;
  bool blocks;
  NoteCode code;
  const char* sentence;
};

Flare& flare(Site& site) {
  return site.trees[0].flare;
}
Vehicle& vehicle(Site& site) {
  return *site.works[0].vehicle;
}

const std::vector<BadRecord>& bad_records() {
  static const std::vector<BadRecord> kBad{
      {"short texture", [](Site& s) { s.soil.layers[0].sand = 0.2; }, true, NoteCode::soil_doubtful,
       "soil: the shares of sand, silt and clay of layer 1 add up to 80 %, not to 100; correct "
       "them, or leave them out."},
      {"long texture", [](Site& s) { s.soil.layers[0].clay = 0.3; }, true, NoteCode::soil_doubtful,
       "soil: the shares of sand, silt and clay of layer 1 add up to 110 %, not to 100; correct "
       "them, or leave them out."},
      {"two shares above all",
       [](Site& s) {
         s.soil.layers[0].silt.reset();
         s.soil.layers[0].sand = 0.9;
       },
       true, NoteCode::soil_doubtful,
       "soil: the shares of sand, silt and clay of layer 1 add up to 110 %, not to 100; correct "
       "them, or leave them out."},
      {"percent for a share", [](Site& s) { s.soil.layers[0].sand = 40; }, true,
       NoteCode::soil_doubtful,
       "soil: the share of sand of layer 1, 40, is none that a soil has; enter a number from 0 to "
       "1, or leave it out."},
      {"negative organic matter", [](Site& s) { s.soil.layers[0].organic_matter = -0.1; }, true,
       NoteCode::soil_doubtful,
       "soil: the share of organic matter of layer 1, -0.1, is none that a soil has; enter a "
       "number from 0 to 1, or leave it out."},
      {"wet as water", [](Site& s) { s.soil.layers[0].water = 1.4; }, true, NoteCode::soil_doubtful,
       "soil: the share of water of layer 1, 1.4, is none that a soil has; enter a number from 0 "
       "to 1, or leave it out."},
      {"high taper", [](Site& s) { flare(s).taper[1].height = metres(2.5); }, false,
       NoteCode::flare_doubtful,
       "survey.csv row 2, tree T1: the taper reading of 56 cm at 2.5 m lies above 2 m, where it "
       "says nothing of the flare; check the unit of its height."},
      {"taper below ground", [](Site& s) { flare(s).taper[0].height = metres(-0.1); }, true,
       NoteCode::flare_doubtful,
       "survey.csv row 2, tree T1: the taper reading of 62 cm at -0.1 m lies below ground; enter "
       "its height above the ground as it is today."},
      {"taper without diameter", [](Site& s) { flare(s).taper[1].diameter = centimetres(0); }, true,
       NoteCode::flare_doubtful,
       "survey.csv row 2, tree T1: the taper reading of 0 cm at 30 cm has no diameter above zero; "
       "enter the diameter, or take the reading out."},
      {"widening upward", [](Site& s) { flare(s).taper[1].diameter = centimetres(70); }, false,
       NoteCode::flare_doubtful,
       "survey.csv row 2, tree T1: the trunk is said to widen upward, from 62 cm at 10 cm to 70 "
       "cm at 30 cm; check that heights and diameters are not exchanged."},
      {"flare above ground", [](Site& s) { flare(s).found->flare_depth = centimetres(-5); }, true,
       NoteCode::flare_doubtful,
       "survey.csv row 2, tree T1: the depth of the flare of -5 cm is negative; enter depths "
       "downward and radii outward as positive."},
      {"very deep flare", [](Site& s) { flare(s).found->flare_depth = metres(12); }, false,
       NoteCode::flare_doubtful,
       "survey.csv row 2, tree T1: a flare found at 12 m is very deep; check the unit and the "
       "reading."},
      {"flare deeper than dug",
       [](Site& s) {
         Evidence pit;
         pit.id = "P1";
         pit.tree = "T1";
         pit.shape.points = {{20.4, 20}};
         pit.depth = centimetres(10);
         s.evidence = {pit};
       },
       false, NoteCode::flare_doubtful,
       "survey.csv row 2, tree T1: its flare is said to be found at 12 cm, deeper than was dug "
       "beside it, 10 cm; correct one of the two depths."},
      {"girdled in percent", [](Site& s) { flare(s).found->girdled_share = 20; }, true,
       NoteCode::flare_doubtful,
       "survey.csv row 2, tree T1: a girdled share of 20 is none of a circumference; enter a share "
       "from 0 to 1."},
      {"flare uncovered after the report", [](Site& s) { flare(s).found->date = "2026-12-01"; },
       false, NoteCode::date_doubtful,
       "survey.csv row 2, tree T1: the date its flare was uncovered \"2026-12-01\" is later than "
       "the date of the report, 2026-11-25; correct one of the two."},
      {"clear trunk of an oak", [](Site& s) { s.trees[0].clear_trunk = metres(4); }, false,
       NoteCode::clear_trunk_doubtful,
       "survey.csv row 2, tree T1: a clear trunk of 4 m is given for a broadleaf; it is measured "
       "on palms only; check the growth form, or enter it as the base of the crown."},
      {"clear trunk above the palm",
       [](Site& s) {
         s.trees[0].form = GrowthForm::palm;
         s.trees[0].clear_trunk = metres(20);
       },
       false, NoteCode::clear_trunk_doubtful,
       "survey.csv row 2, tree T1: a clear trunk of 20 m is more than the height of 16 m; check "
       "both readings and their units."},
      {"wheel heavier than the vehicle", [](Site& s) { vehicle(s).wheel_load = 90; }, true,
       NoteCode::vehicle_doubtful,
       "works.csv row 2, traffic W1: the wheel load of 90 kN is more than the whole weight of 8000 "
       "kg, 78.5 kN; check the units of both: the load of one wheel or track is wanted."},
      {"tonnes for kilograms",
       [](Site& s) {
         vehicle(s).gross_mass = 8;
         vehicle(s).wheel_load.reset();
       },
       false, NoteCode::vehicle_doubtful,
       "works.csv row 2, traffic W1: a gross mass of 8 kg is hardly possible; check its unit; "
       "usual are 50 to 150000 kg."},
      {"pressure in pascals", [](Site& s) { vehicle(s).contact_pressure = 45000; }, false,
       NoteCode::vehicle_doubtful,
       "works.csv row 2, traffic W1: a contact pressure of 45000 kPa is hardly possible; check its "
       "unit; usual are 5 to 2000 kPa."},
      {"no pressure", [](Site& s) { vehicle(s).contact_pressure = 0; }, true,
       NoteCode::vehicle_doubtful,
       "works.csv row 2, traffic W1: the contact pressure of 0 kPa is not above zero; enter it as "
       "it is on the data plate, or leave it out."},
      {"negative passes", [](Site& s) { vehicle(s).passes = -3; }, true, NoteCode::vehicle_doubtful,
       "works.csv row 2, traffic W1: -3 passes are impossible; enter how often it drives there in "
       "all."},
      {"no contact width", [](Site& s) { vehicle(s).contact_width = metres(0); }, true,
       NoteCode::vehicle_doubtful,
       "works.csv row 2, traffic W1: the contact width of 0 m is not above zero; enter it as it "
       "was measured, or leave it out."},
      {"thick chips", [](Site& s) { s.works[0].cover->chips = metres(20); }, false,
       NoteCode::vehicle_doubtful,
       "works.csv row 2, traffic W1: a layer of chips of 20 m is very thick; check the unit of its "
       "thickness."},
      {"unreadable date", [](Site& s) { s.works[1].date = "last spring"; }, false,
       NoteCode::date_doubtful,
       "works.csv row 3, trench W2: the date \"last spring\" is no date; write it as 2026-11-25."},
      {"date of the future", [](Site& s) { s.works[1].date = "2027-02"; }, false,
       NoteCode::date_doubtful,
       "works.csv row 3, trench W2: the date \"2027-02\" is later than the date of the report, "
       "2026-11-25; correct one of the two."},
      {"damage without a date", [](Site& s) { s.works[1].date.clear(); }, false,
       NoteCode::date_missing,
       "works.csv row 3, trench W2: damage was seen, and no date says when the work was done; "
       "enter the date, if only the year and month: what can still be done depends on it."},
      {"client's tree outside",
       [](Site& s) {
         s.trees[0].position->at = {20, 53};
       },
       false, NoteCode::outside_boundary,
       "survey.csv row 2, tree T1: it is said to be the client's and stands 3 m outside the "
       "boundary; check whose it is, its position and the boundary."},
      {"work outside", [](Site& s) { s.works[0].shape.areas = {rectangle(40, 10, 55, 20)}; }, false,
       NoteCode::outside_boundary,
       "works.csv row 2, traffic W1: 45.0 m2 of it lie outside the boundary of the ground the "
       "client may use; check the boundary, or agree the work with the neighbour."},
      {"gate elsewhere",
       [](Site& s) {
         s.gates[0].at = {-30, 25};
       },
       false, NoteCode::gate_doubtful,
       "gate G1: it lies 30 m outside the boundary; check its position and the boundary."},
      {"gate without width", [](Site& s) { s.gates[0].width = metres(0); }, true,
       NoteCode::gate_doubtful,
       "gate G1: the width of 0 m is not above zero; enter the clear width of the gate."},
      {"gate in millimetres", [](Site& s) { s.gates[0].width = metres(4000); }, false,
       NoteCode::gate_doubtful,
       "gate G1: the width of 4000 m is very wide; check the unit and the reading."},
      {"gates at one place",
       [](Site& s) {
         s.gates.push_back({"G2", {0, 25}, metres(3)});
       },
       false, NoteCode::gate_doubtful,
       "gate G2: it stands where gate G1 stands; take one of them out."},
      {"crossed boundary",
       [](Site& s) { std::swap(s.boundary[0].outer[0], s.boundary[0].outer[1]); }, false,
       NoteCode::shape_doubtful,
       "boundary: an outline crosses itself or another; draw it again without crossings."},
      {"zone 14", [](Site& s) { s.climate.hardiness_zone = 14; }, true, NoteCode::climate_doubtful,
       "climate: there is no hardiness zone 14; set climate.hardiness_zone from 1 to 13."},
      {"latitude", [](Site& s) { s.climate.latitude = 515; }, true, NoteCode::climate_doubtful,
       "climate: a latitude of 515 degrees is impossible; set climate.latitude from -90 to 90, "
       "north positive."},
      {"elevation", [](Site& s) { s.climate.elevation = 9000; }, false, NoteCode::climate_doubtful,
       "climate: an elevation of 9000 m is where no trees grow; check its unit."},
      {"monthly for daily", [](Site& s) { s.climate.evapotranspiration[6] = 120; }, true,
       NoteCode::climate_doubtful,
       "climate: the evapotranspiration of month 7, 120 mm a day, is impossible; set climate.et0 "
       "in mm a day, from 0 to 20."},
      {"negative rain", [](Site& s) { s.climate.rain[0] = -1; }, true, NoteCode::climate_doubtful,
       "climate: the rain of month 1, -1 mm a day, is impossible; set climate.rain in mm a day, "
       "from 0 to 120."},
      {"eleven months", [](Site& s) { s.climate.rain.pop_back(); }, true,
       NoteCode::climate_doubtful,
       "climate: the rain has 11 months, not 12; set climate.rain to twelve numbers, January to "
       "December."},
  };
  return kBad;
}

TEST(RecordProblems, ASoundSiteHasNone) {
  for (const Problem& problem : problems_of(sound_site())) ADD_FAILURE() << problem.sentence();
}

TEST(RecordProblems, EachBadRecordIsToldInOneSentence) {
  for (const BadRecord& bad : bad_records()) {
    Site site = sound_site();
    bad.spoil(site);
    std::string told;
    std::size_t matching = 0;
    for (const Problem& problem : problems_of(site)) {
      told += problem.sentence() + "\n";
      const bool same = problem.sentence() == bad.sentence && problem.blocks == bad.blocks &&
                        problem.code == bad.code;
      matching += same ? 1 : 0;
    }
    EXPECT_EQ(matching, 1U) << bad.what << ": " << told;
  }
}

TEST(RecordProblems, OnlyTheCrossedBoundaryTellsOfOtherThingsToo) {
  for (const BadRecord& bad : bad_records()) {
    Site site = sound_site();
    bad.spoil(site);
    const std::string what = bad.what;
    if (what == "crossed boundary") continue;
    EXPECT_EQ(problems_of(site).size(), 1U) << what;
  }
}

TEST(RecordProblems, WhatIsAtTheEdgeIsFine) {
  Site site = sound_site();
  site.soil.layers[0].sand = 0.39;  // 99 % in all: laboratories round
  site.trees[0].position->at = {20, 50.4};
  site.works[0].shape.areas = {rectangle(40, 10, 50.4, 20)};
  site.gates[0].at = {-9, 25};
  flare(site).taper[1].diameter = centimetres(63);  // within the error of the tape
  vehicle(site).passes = 0;
  site.climate.latitude = -90;
  site.works[1].date = "2026-11";  // the month of the report
  for (const Problem& problem : problems_of(site)) ADD_FAILURE() << problem.sentence();
}

TEST(RecordProblems, OthersTreesAndExistingWorksMayLieOutside) {
  Site site = sound_site();
  site.trees[0].ownership = "neighbour";
  site.trees[0].position->at = {20, 60};
  site.works[1].shape.lines = {{{5, 60}, {25, 60}}};
  for (const Problem& problem : problems_of(site)) ADD_FAILURE() << problem.sentence();
}

TEST(Dates, AreAfterOneAnotherOnlyInEveryReading) {
  EXPECT_TRUE(certainly_after("2026-12-01", "2026-11-30"));
  EXPECT_TRUE(certainly_after("2026-12", "30 Nov 2026"));
  EXPECT_TRUE(certainly_after("May 2027", "2026-12-31"));
  EXPECT_FALSE(certainly_after("2026-11-30", "2026-11-30"));
  EXPECT_FALSE(certainly_after("2026-11", "2026-11-01"));
  EXPECT_FALSE(certainly_after("03/12/2026", "2026-11-25"));  // may be the twelfth of March
  EXPECT_TRUE(certainly_after("13/12/2026", "2026-11-25"));
  EXPECT_FALSE(certainly_after("soon", "2026-11-25"));
  EXPECT_FALSE(certainly_after("2026-12-01", ""));
}

}  // namespace
}  // namespace rootstead
