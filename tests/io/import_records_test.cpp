// Flares, intents, vehicles, covers, particle sizes, boundary and gates out of tables and maps.
#include "tests/io/import_support.hpp"

namespace rootstead::io {
namespace {

using ImportRecords = Sources;

ImportOptions as(const std::string& what) {
  ImportOptions options;
  options.as = what;
  return options;
}

TEST_F(ImportRecords, reads_what_is_known_of_a_tree_and_its_flare) {
  const auto import = read(
      "trees.csv",
      "tag,x,y,dbh (cm),history,disposition,clear trunk (ft),flare signs,taper,transplant,"
      "flare found depth (mm),first main root (in),girdled (%),excavation radius (m),flare date,"
      "flare seen by\n"
      "T1,530000,180000,45,nursery,relocate,,no flare; girdling root;mulch heaped,"
      "\"0.1 m: 62 cm; 12 in: 22.8 in\",yes,120,6,25,0.6,2026-05-04,A. Person\n"
      "T2,530009,180000,45,from seed in place,,12,,,yes,,,,,,\n"
      "T3,530018,180000,45,,retain,,,,no,,,,,,\n",
      as("trees"));
  ASSERT_TRUE(import) << import.error().sentence();
  EXPECT_EQ(sentences(*import), "");
  ASSERT_EQ(import->trees.size(), 3U);
  const Tree& first = import->trees[0];
  EXPECT_EQ(first.history, GrowthHistory::planted_from_nursery);
  EXPECT_EQ(first.intent, Intent::move);
  EXPECT_EQ(first.flare.signs,
            (std::vector<FlareSign>{FlareSign::no_flare_all_round, FlareSign::roots_round_trunk,
                                    FlareSign::soil_or_mulch_heaped}));
  ASSERT_EQ(first.flare.taper.size(), 2U);
  EXPECT_EQ(to_text(first.flare.taper[0].height), "0.1 m");
  EXPECT_EQ(to_text(first.flare.taper[0].diameter), "62 cm");
  EXPECT_EQ(to_text(first.flare.taper[1].height), "12 in");
  EXPECT_EQ(to_text(first.flare.taper[1].diameter), "22.8 in");
  ASSERT_TRUE(first.flare.found);
  EXPECT_EQ(to_text(*first.flare.found->flare_depth), "120 mm");
  EXPECT_EQ(to_text(*first.flare.found->first_main_root), "6 in");
  EXPECT_NEAR(*first.flare.found->girdled_share, 0.25, 1e-12);
  EXPECT_EQ(to_text(*first.flare.found->excavation_radius), "0.6 m");
  EXPECT_EQ(first.flare.found->date, "2026-05-04");
  EXPECT_EQ(first.flare.found->seen_by, "A. Person");
  EXPECT_EQ(import->trees[1].history, GrowthHistory::from_seed_in_place);
  EXPECT_EQ(import->trees[1].intent, Intent::move);
  EXPECT_EQ(to_text(*import->trees[1].clear_trunk), "12 ft");
  EXPECT_FALSE(import->trees[1].flare.found);
  EXPECT_EQ(import->trees[2].intent, Intent::keep);
}

TEST_F(ImportRecords, reads_the_records_of_works) {
  const auto import =
      read("works.csv",
           "id,kind,state,depth (mm),wkt,date,seen,wet,vehicle,gross mass (t),wheel load (kN),"
           "contact pressure (psi),contact width (mm),contact length (m),passes,cover,chips (cm),"
           "plate width (mm),plate length (m),fill texture\n"
           "W1,traffic,proposed,,\"POLYGON ((530000 180000,530010 180000,530010 180010,530000 "
           "180000))\","
           ",,yes,8 t excavator,8,39,6.5,450,2.1,40,mats on chips,20,1000,2,\n"
           "W2,fill,existing,300,\"POLYGON ((530000 180000,530010 180000,530010 180010,530000 "
           "180000))\",2026-04,bark buried,no,,,,,,,,,,,,sandy loam\n",
           as("works"));
  ASSERT_TRUE(import) << import.error().sentence();
  EXPECT_EQ(sentences(*import), "");
  ASSERT_EQ(import->works.size(), 2U);
  const Work& traffic = import->works[0];
  EXPECT_TRUE(traffic.wet);
  ASSERT_TRUE(traffic.vehicle);
  EXPECT_EQ(traffic.vehicle->name, "8 t excavator");
  EXPECT_EQ(traffic.vehicle->gross_mass, 8000);
  EXPECT_EQ(traffic.vehicle->wheel_load, 39);
  EXPECT_NEAR(*traffic.vehicle->contact_pressure, 6.5 * 6.894757, 1e-4);
  EXPECT_EQ(to_text(*traffic.vehicle->contact_width), "450 mm");
  EXPECT_EQ(to_text(*traffic.vehicle->contact_length), "2.1 m");
  EXPECT_EQ(traffic.vehicle->passes, 40);
  ASSERT_TRUE(traffic.cover);
  EXPECT_EQ(traffic.cover->name, "mats on chips");
  EXPECT_EQ(to_text(*traffic.cover->chips), "20 cm");
  EXPECT_EQ(to_text(*traffic.cover->plate_width), "1000 mm");
  EXPECT_EQ(to_text(*traffic.cover->plate_length), "2 m");
  const Work& fill = import->works[1];
  EXPECT_EQ(fill.date, "2026-04");
  EXPECT_EQ(fill.seen, "bark buried");
  EXPECT_EQ(fill.fill_texture, SoilTexture::loam);
  EXPECT_FALSE(fill.wet);
  EXPECT_FALSE(fill.vehicle);
  EXPECT_FALSE(fill.cover);
}

TEST_F(ImportRecords, reads_loads_in_the_units_of_cell_or_header) {
  const std::string shape =
      "\"POLYGON ((530000 180000,530010 180000,530010 180010,530000 180000))\"";
  const auto import = read("works.csv",
                           "id,kind,wkt,gross mass,wheel load (lb),contact pressure\n"
                           "W1,traffic," +
                               shape +
                               ",10000 lb,1000,2 bar\n"
                               "W2,traffic," +
                               shape + ",3500 kg,1 t,0.3 MPa\n",
                           as("works"));
  ASSERT_TRUE(import) << import.error().sentence();
  EXPECT_EQ(sentences(*import), "");
  EXPECT_NEAR(*import->works.at(0).vehicle->gross_mass, 4535.9237, 1e-9);
  EXPECT_NEAR(*import->works.at(0).vehicle->wheel_load, 4.4482216, 1e-6);
  EXPECT_NEAR(*import->works.at(0).vehicle->contact_pressure, 200, 1e-9);
  EXPECT_EQ(import->works.at(1).vehicle->gross_mass, 3500);
  EXPECT_NEAR(*import->works.at(1).vehicle->wheel_load, 9.80665, 1e-12);
  EXPECT_NEAR(*import->works.at(1).vehicle->contact_pressure, 300, 1e-9);
}

TEST_F(ImportRecords, reads_particle_sizes_as_percent_or_shares) {
  for (const char* table : {"bottom (cm),sand (%),silt (%),clay (%),organic matter (%),water (%)\n"
                            "30,45,35,20,4,25\n",
                            "bottom (cm),sand,silt,clay,organic matter,water\n"
                            "30,0.45,0.35,0.2,0.04,0.25\n",
                            "bottom (cm),sand_pct,silt percent,clay,om,water content\n"
                            "30,45,35,20 %,4 %,25 %\n"}) {
    const auto import = read("log.csv", table, as("soil"));
    ASSERT_TRUE(import) << import.error().sentence();
    EXPECT_EQ(sentences(*import), "") << table;
    ASSERT_EQ(import->soil->layers.size(), 1U);
    const SoilLayer& layer = import->soil->layers[0];
    EXPECT_NEAR(layer.sand.value_or(0), 0.45, 1e-12) << table;
    EXPECT_NEAR(layer.silt.value_or(0), 0.35, 1e-12) << table;
    EXPECT_NEAR(layer.clay.value_or(0), 0.20, 1e-12) << table;
    EXPECT_NEAR(layer.organic_matter.value_or(0), 0.04, 1e-12) << table;
    EXPECT_NEAR(layer.water.value_or(0), 0.25, 1e-12) << table;
  }
}

TEST_F(ImportRecords, takes_bare_particle_sizes_that_add_up_to_100_for_percent_and_says_so) {
  const auto import =
      read("log.csv", "bottom (cm),sand,silt,clay\n30,45,35,20\n60,30,30,38\n", as("soil"));
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->soil->layers.size(), 2U);
  EXPECT_NEAR(*import->soil->layers[0].sand, 0.45, 1e-12);
  EXPECT_NEAR(*import->soil->layers[1].clay, 0.38, 1e-12);
  EXPECT_EQ(count_of(*import, NoteCode::assumed_in_reading), 1U) << sentences(*import);
}

const char* const kSquare =
    "\"POLYGON ((530000 180000,530050 180000,530050 180040,530000 180040,"
    "530000 180000))\"";

TEST_F(ImportRecords, reads_boundary_and_gates_from_tables) {
  const auto boundary = read("site.csv", std::string("wkt\n") + kSquare + "\n", as("boundary"));
  ASSERT_TRUE(boundary) << boundary.error().sentence();
  EXPECT_EQ(boundary->kind, "boundary");
  ASSERT_EQ(boundary->boundary.size(), 1U);
  EXPECT_EQ(boundary->boundary[0].outer.size(), 4U);
  const auto gates =
      read("gates.csv", "id,x,y,width (m)\nmain,530000,180010,4.5\n,530050,180020,\n", as("gates"));
  ASSERT_TRUE(gates) << gates.error().sentence();
  EXPECT_EQ(gates->kind, "gates");
  ASSERT_EQ(gates->gates.size(), 2U);
  EXPECT_EQ(gates->gates[0].id, "main");
  EXPECT_EQ(gates->gates[0].at, (Point{530000, 180010}));
  EXPECT_EQ(to_text(gates->gates[0].width), "4.5 m");
  EXPECT_EQ(gates->gates[1].id, "row-3");
  EXPECT_EQ(to_text(gates->gates[1].width), "4 m");
}

TEST_F(ImportRecords, reads_boundary_and_gates_by_the_kind_in_their_row) {
  const auto import =
      read("plan.csv",
           std::string("id,kind,wkt,width (m),depth (m)\n") + "B,boundary," + kSquare +
               ",,\n"
               "G,gate,\"LINESTRING (530000 180010,530000 180016)\",,\n"
               "W1,trench,\"LINESTRING (530010 180010,530030 180010)\",0.6,0.9\n",
           as("works"));
  ASSERT_TRUE(import) << import.error().sentence();
  EXPECT_EQ(sentences(*import), "");
  EXPECT_EQ(import->boundary.size(), 1U);
  ASSERT_EQ(import->gates.size(), 1U);
  EXPECT_EQ(import->gates[0].at, (Point{530000, 180013}));
  EXPECT_EQ(to_text(import->gates[0].width), "6 m");
  EXPECT_EQ(import->works.size(), 1U);
}

TEST_F(ImportRecords, reads_boundary_and_gates_of_a_map_by_the_names_of_its_layers) {
  const std::string text =
      R"({"type":"FeatureCollection","name":"Site boundary","crs":{"type":"name","properties":
{"name":"urn:ogc:def:crs:EPSG::27700"}},"features":[{"type":"Feature","properties":{},"geometry":
{"type":"Polygon","coordinates":[[[530000,180000],[530050,180000],[530050,180040],[530000,180000]]]
}}]})";
  const auto import = read("site.geojson", text);
  ASSERT_TRUE(import) << import.error().sentence();
  EXPECT_EQ(import->boundary.size(), 1U) << sentences(*import);
  EXPECT_TRUE(import->surfaces.empty());
}

TEST_F(ImportRecords, tells_each_bad_input_in_one_sentence_with_file_row_and_column) {
  const std::string area =
      "\"POLYGON ((530000 180000,530010 180000,530010 180010,530000 180000))\"";
  const std::string tree = "tag,x,y,dbh (cm),", works = "id,kind,wkt,";
  const std::string at = "T1,530000,180000,45,", traffic = "W1,traffic," + area + ",";
  const struct {
    std::string as, table, sentence;
  } bad[] = {
      {"trees", tree + "taper\n" + at + "0.1 m 62 cm\n",
       "bad.csv row 2, tree T1: the taper reading \"0.1 m 62 cm\" cannot be read; it is kept in "
       "the notes; column \"taper\": write height and diameter with their units, such as 0.1 m: "
       "62 cm; 0.3 m: 58 cm."},
      {"trees", tree + "taper\n" + at + "10: 62 cm\n",
       "bad.csv row 2, tree T1: the taper reading \"10: 62 cm\" cannot be read; it is kept in the "
       "notes; column \"taper\": write height and diameter with their units, such as 0.1 m: 62 cm; "
       "0.3 m: 58 cm."},
      {"trees", tree + "flare signs\n" + at + "no flare; looks sad\n",
       "bad.csv row 2: \"looks sad\" in column \"flare signs\" is no sign known of a buried flare; "
       "it is kept in the notes; write signs of docs/formats/column-map.md, separated by "
       "semicolons."},
      {"trees", tree + "disposition\n" + at + "sell\n",
       "bad.csv row 2: \"sell\" in column \"disposition\" is no word known for the intent; it is "
       "kept in the notes; write one of the words of docs/formats/column-map.md, or map another "
       "column."},
      {"trees", tree + "transplant\n" + at + "perhaps\n",
       "bad.csv row 2, tree T1: the word for transplanting \"perhaps\" cannot be read; column "
       "\"transplant\": write yes or no."},
      {"trees", tree + "intent,transplant\n" + at + "keep,yes\n",
       "bad.csv row 2, tree T1: \"yes\" for transplanting and the intent \"keep\" disagree; the "
       "intent is kept; column \"transplant\": correct one of the two."},
      {"trees", tree + "clear trunk (m)\n" + at + "tall\n",
       "bad.csv row 2, tree T1: the clear trunk \"tall\" cannot be read; column \"clear trunk "
       "(m)\": write a number with its unit, such as 45 cm."},
      {"trees", tree + "girdled (%)\n" + at + "130\n",
       "bad.csv row 2, tree T1: the girdled share \"130\" is no share of a circumference, and is "
       "not taken; column \"girdled (%)\": write a number such as 0.25 or 25 %."},
      {"trees", tree + "flare found depth (mm)\n" + at + "-50\n",
       "bad.csv row 2, tree T1: the depth the flare was found at \"-50\" cannot be read; column "
       "\"flare found depth (mm)\": write a number with its unit, such as 120 mm."},
      {"works", works + "passes\n" + traffic + "-3\n",
       "bad.csv row 2: the number of passes \"-3\" is no number of passes, and is not taken; "
       "column "
       "\"passes\": write a number such as 40, or leave it empty, and add the source again with "
       "--replace."},
      {"works", works + "wheel load (kN)\n" + traffic + "heavy\n",
       "bad.csv row 2: the wheel load \"heavy\" cannot be read; column \"wheel load (kN)\": write "
       "a "
       "number such as 25 kN, or leave it empty, and add the source again with --replace."},
      {"works", works + "wheel load\n" + traffic + "25 furlongs\n",
       "bad.csv row 2: the wheel load \"25 furlongs\" cannot be read; column \"wheel load\": write "
       "a number such as 25 kN, or leave it empty, and add the source again with --replace."},
      {"works", works + "gross mass (t)\n" + traffic + "-8\n",
       "bad.csv row 2: the gross mass \"-8\" is none that a vehicle has, and is not taken; column "
       "\"gross mass (t)\": write a number such as 8000 kg or 8 t, or leave it empty, and add the "
       "source again with --replace."},
      {"works", works + "wet\n" + traffic + "damp\n",
       "bad.csv row 2: \"damp\" is no word known for the wetness of the ground; it is kept in the "
       "notes; column \"wet\": use the words of docs/formats/column-map.md."},
      {"works", works + "chips (cm)\n" + traffic + "-20\n",
       "bad.csv row 2, W1: the thickness of the chips \"-20\" cannot be read; column \"chips "
       "(cm)\": "
       "write a number with its unit, such as 900 mm, or leave it empty, and add the source again "
       "with --replace."},
      {"works", works + "fill texture\n" + traffic + "marble\n",
       "bad.csv row 2: \"marble\" is no word known for the texture of the fill; it is kept in the "
       "notes; column \"fill texture\": use the words of docs/formats/column-map.md."},
      {"soil", "bottom (cm),sand (%)\n30,145\n",
       "bad.csv row 2: the share of sand \"145\" is none that a soil has, and is not taken; column "
       "\"sand (%)\": write a number such as 0.45 or 45 %."},
      {"soil", "bottom (cm),clay\n30,45\n",
       "bad.csv row 2: the share of clay \"45\" is none that a soil has, and is not taken; column "
       "\"clay\": write a number such as 0.20 or 20 %."},
      {"soil", "bottom (cm),organic matter\n30,much\n",
       "bad.csv row 2: the share of organic matter \"much\" cannot be read; column \"organic "
       "matter\": write a number such as 0.04 or 4 %."},
      {"boundary", "wkt\n\"LINESTRING (530000 180000,530010 180000)\"\n",
       "bad.csv row 2: a boundary needs an area and is not taken; draw it as a polygon or a closed "
       "line."},
      {"gates", "id,wkt\nG1," + area + "\n",
       "bad.csv row 2: an area is no gate and is not taken; draw each gate as a point, or as a "
       "line "
       "across it."},
      {"gates", "id,x,y,width (m)\nG1,530000,180000,wide\n",
       "bad.csv row 2, G1: the width \"wide\" cannot be read; column \"width (m)\": write a number "
       "with "
       "its unit, such as 900 mm, or leave it empty, and add the source again with --replace."},
  };
  for (const auto& input : bad) {
    const auto import = read("bad.csv", input.table, as(input.as));
    ASSERT_TRUE(import) << import.error().sentence();
    const std::string told = "\n" + sentences(*import);
    EXPECT_NE(told.find("\n" + input.sentence + "\n"), std::string::npos)
        << input.sentence << "\nbut: " << told;
  }
}

TEST_F(ImportRecords, asks_for_the_unit_of_taper_diameters) {
  const auto import =
      read("t.csv", "tag,x,y,dbh (cm),taper\nT1,530000,180000,45,0.1 m: 62\n", as("trees"));
  ASSERT_FALSE(import);
  EXPECT_EQ(import.error().code, Code::unit_missing);
  const auto with_unit =
      read("t.csv", "tag,x,y,dbh (cm),taper (cm)\nT1,530000,180000,45,0.1 m: 62\n", as("trees"));
  ASSERT_TRUE(with_unit) << with_unit.error().sentence();
  EXPECT_EQ(to_text(with_unit->trees.at(0).flare.taper.at(0).diameter), "62 cm");
}

}  // namespace
}  // namespace rootstead::io
