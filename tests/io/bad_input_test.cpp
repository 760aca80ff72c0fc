// Wrong files, columns, units and values, each with the sentence it gets.
#include <zlib.h>

#include <set>

#include "tests/io/import_support.hpp"

namespace rootstead::io {
namespace {

struct Bad {
  const char* file;
  std::string content;
  const char* sentence;  // the whole of it, or its telling part
  ImportOptions options = {};
  bool blocks = false;  // must it?
};

ImportOptions as(const std::string& kind) {
  ImportOptions options;
  options.as = kind;
  return options;
}

ImportOptions mapped(const std::string& field, const std::string& column) {
  ImportOptions options;
  options.columns = ColumnMap{};
  options.columns->fields[field] = {column, {}};
  return options;
}

ImportOptions in_system(const std::string& crs) {
  ImportOptions options;
  options.columns = propose_columns({"tag", "x", "y"});
  options.columns->crs = crs;
  return options;
}

ImportOptions of_layer(const std::string& layer) {
  ImportOptions options;
  options.layer = layer;
  return options;
}

std::string dxf(const std::string& header, const std::string& entities) {
  return "0\nSECTION\n2\nHEADER\n" + header + "0\nENDSEC\n0\nSECTION\n2\nENTITIES\n" + entities +
         "0\nENDSEC\n0\nEOF\n";
}
const std::string kMetres = "9\n$INSUNITS\n70\n6\n";
const std::string kLine = "0\nLINE\n8\nKERB\n10\n400000\n20\n300000\n11\n400010\n21\n300000\n";

std::string geojson(const std::string& geometry, const std::string& properties = "{}") {
  return R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":)" + properties +
         R"(,"geometry":)" + geometry + "}]}";
}

std::string pits(const std::string& row) {
  return "kind,tree,x,y,width (m),depth (m),root diameter (mm),root depth (mm),root x,root y,"
         "alive\n" +
         row + "\n";
}

std::string layers(const std::string& row) {
  return "bottom (cm),texture,bulk density,air,resistance,water table (m),drainage,compacted\n" +
         row + "\n";
}

class BadInput : public Sources {};

// Sources that cannot be read: one error, nothing half done.
TEST_F(BadInput, of_whole_sources_is_refused_with_one_sentence) {
  const std::string trees = "tag,x,y\n1,430000,300000\n";
  const Bad kBad[] = {
      {"empty.csv", "", "empty.csv: the file is empty; export it again."},
      {"blank.csv", "\n\n\n", "blank.csv: the file is empty; export it again."},
      {"header.csv", "tag,x,y\n",
       "header.csv: there is a header and no row; export the table with its rows."},
      {"binary.csv", std::string("tag,x\0y\n", 8),
       "binary.csv: this is not a text file; export the table as CSV."},
      {"quote.csv", "tag,x,y\n1,430000,300000\n\"2,430000,300000\n",
       "quote.csv row 3: a quotation mark opens here and never closes; close it, or remove it from "
       "the cell."},
      {"twice.csv", "tag,x,x,y\n1,2,3,4\n",
       "twice.csv row 1: two columns are called \"x\"; rename one of them."},
      {"numbers.csv", "1,430000,300000\n2,430001,300000\n",
       "numbers.csv row 1: the first row holds numbers where the column names should stand; put a "
       "row of column names above."},
      {"nowhere.csv", "tag,dbh_cm\n1,40\n",
       "nowhere.csv: no coordinate columns are found; map easting and northing"},
      {"half.csv", "tag,easting\n1,430000\n",
       "half.csv: one of the two coordinate columns is missing; map easting and northing"},
      {"halflat.csv", "tag,lat\n1,52\n",
       "halflat.csv: one of the two coordinate columns is missing"},
      {"unit.csv", "tag,dbh,x,y\n1,40,430000,300000\n",
       "unit.csv column \"dbh\": the numbers have no unit; answer with --length-unit, or in a "
       "column map: stem_diameter = { column = \"dbh\", unit = \"cm\" }."},
      {"unit2.csv", "tag,height,x,y\n1,12,430000,300000\n",
       "unit2.csv column \"height\": the numbers have no unit"},
      {"unit3.csv", "tag,crown spread,x,y\n1,12,430000,300000\n",
       "unit3.csv column \"crown spread\": the numbers have no unit"},
      {"unit4.csv", "kind,depth,wkt\ntrench,900,\"LINESTRING (0 0, 1 1)\"\n",
       "unit4.csv column \"depth\": the numbers have no unit"},
      {"map.csv", trees,
       "map.csv: there is no column \"BHD\" for stem_diameter; correct the column map; the columns "
       "are tag, x, y.",
       mapped("stem_diameter", "BHD")},
      {"field.csv", trees,
       "field.csv: the column map has an unknown field \"dbh\"; use the field names of "
       "docs/formats/column-map.md.",
       mapped("dbh", "tag")},
      {"crs.csv", trees,
       "crs.csv: the coordinate system \"EPSG:999999\" is not known; name it as EPSG:n",
       in_system("EPSG:999999")},
      {"crs2.csv", trees, "crs2.csv: the coordinate system \"Gauss\" is not known",
       in_system("Gauss")},
      {"as.csv", trees,
       "--as shrubs: this is nothing a source can be read as; use trees, works, barriers, "
       "ground, evidence, soil, boundary or gates.",
       as("shrubs")},
      {"plan.dwg", "AC1027", "plan.dwg: this kind of file is not read; save the drawing as DXF."},
      {"sheet.xlsx", "PK", "sheet.xlsx: this kind of file is not read; save the sheet as CSV."},
      {"sheet.ods", "PK", "sheet.ods: this kind of file is not read; save the sheet as CSV."},
      {"plan.pdf", "%PDF",
       "plan.pdf: this kind of file is not read; ask for the drawing as DXF; a PDF has no true "
       "coordinates."},
      {"places.kml", "<kml/>",
       "places.kml: this kind of file is not read; export it as GeoJSON or GeoPackage."},
      {"pack.zip", "PK",
       "pack.zip: this kind of file is not read; unpack it and name the file inside."},
      {"photo.jpg", "x", "photo.jpg: this kind of file is not read; give .csv, .txt or .tsv"},
      {"broken.geojson", "{\"type\":\"FeatureCollection\",",
       "broken.geojson: the file cannot be read as what its ending says"},
      {"list.geojson", "[1,2,3]", "list.geojson: the file cannot be read as what its ending says"},
      {"fake.gpkg", "not a database", "fake.gpkg: the file cannot be read as what its ending says"},
      {"fake.fgb", "not a database", "fake.fgb: the file cannot be read as what its ending says"},
      {"lonely.shp", "x",
       "lonely.shp: its index file lonely.shx is missing; copy all parts of the shapefile: .shp, "
       ".shx, .dbf and .prj."},
      {"things.geojson", geojson(R"({"type":"LineString","coordinates":[[-2,53],[-2.1,53]]})"),
       "things.geojson: nothing says what its layers hold (things); say it with --as trees, works, "
       "barriers, ground, evidence, boundary or gates, or in [layers] of a column map."},
      {"layer.geojson", geojson("null"),
       "layer.geojson: there is no layer \"roads\"; use one of: layer.", of_layer("roads")},
      {"text.dxf", "hello", "text.dxf: this is not a DXF drawing; save it again as DXF (ASCII)."},
      {"pairs.dxf", "1\n2\n3\n4\n", "pairs.dxf: this is not a DXF drawing"},
      {"binary.dxf", "AutoCAD Binary DXF\r\n\x1a",
       "binary.dxf: this is a binary DXF; save it as DXF (ASCII)."},
      {"renamed.dxf", "AC1032",
       "renamed.dxf: this is a DWG drawing, whatever its ending says; save it as DXF (ASCII)."},
      {"damaged.dxf", "0\nSECTION\n2\nENTITIES\n0\nLINE\nxx\n1\n",
       "damaged.dxf line 7: a group code should stand here; the file is damaged: save it again as "
       "DXF (ASCII)."},
      {"unitless.dxf", dxf("", kLine),
       "unitless.dxf: the drawing does not say its unit ($INSUNITS is missing or 0); measure a "
       "known distance in it and answer with --length-unit m, mm, cm, ft, us-ft or in."},
      {"zero.dxf", dxf("9\n$INSUNITS\n70\n0\n", kLine),
       "zero.dxf: the drawing does not say its unit ($INSUNITS is missing or 0)"},
      {"lightyears.dxf", dxf("9\n$INSUNITS\n70\n19\n", kLine),
       "lightyears.dxf: its unit ($INSUNITS 19) is none a site is drawn in"},
      {"pits.csv", "pit,x,y,root diameter\nP1,430000,300000,35\n",
       "pits.csv column \"root diameter\": the numbers have no unit; answer with --length-unit",
       as("evidence")},
      {"pits2.csv", "pit,root diameter (mm)\nP1,35\n",
       "pits2.csv: no coordinate columns are found; map easting and northing", as("evidence")},
      {"soil.csv", "bottom,texture\n30,clay\n",
       "soil.csv column \"bottom\": the numbers have no unit", as("soil")},
      {"soil.geojson", geojson("null"),
       "soil.geojson: the soil is not read from a file of shapes; give its layers as a table",
       as("soil")},
      {"soil.dxf", dxf(kMetres, kLine), "soil.dxf: the soil is not read from a file of shapes",
       as("soil")},
      {"layer.dxf", dxf(kMetres, kLine),
       "layer.dxf: there is no layer \"WALL\" with anything on it; use one of: KERB.",
       of_layer("WALL")},
  };
  std::set<std::string> names;
  for (const Bad& bad : kBad) {
    EXPECT_TRUE(names.insert(bad.file).second) << bad.file;
    const auto import = read(bad.file, bad.content, bad.options);
    ASSERT_FALSE(import) << bad.file;
    const std::string sentence = import.error().sentence();
    EXPECT_NE(sentence.find(bad.sentence), std::string::npos) << bad.file << ": " << sentence;
    EXPECT_EQ(sentence.find('\n'), std::string::npos);
    EXPECT_FALSE(import.error().remedy.empty()) << bad.file;
  }
}

TEST_F(BadInput, of_missing_files_folders_and_damaged_archives_is_refused) {
  const auto missing = read_source(folder_ / "none.csv", {}, system());
  ASSERT_FALSE(missing);
  EXPECT_NE(missing.error().sentence().find(
                "none.csv: there is no such file; check the name and the folder."),
            std::string::npos);
  const auto folder = read_source(folder_, {}, system());
  ASSERT_FALSE(folder);
  EXPECT_NE(folder.error().sentence().find("this is a folder; name one file inside it."),
            std::string::npos);
  const auto file = folder_ / "cut.csv.gz";
  gzFile zipped = gzopen(file.c_str(), "wb");
  for (int i = 0; i < 20000; ++i) gzprintf(zipped, "%d,%d\n", i, (i * 7919) % 4999);
  gzclose(zipped);
  std::filesystem::resize_file(file, std::filesystem::file_size(file) / 2);
  const auto cut = read_source(file, {}, system());
  ASSERT_FALSE(cut);
  EXPECT_NE(cut.error().sentence().find("cut.csv.gz: the file is damaged"), std::string::npos);
}

// Values that are wrong in a source that can be read: every row is kept, each fault has its row.
TEST_F(BadInput, of_single_values_is_reported_by_row) {
  const std::string head =
      "tag,dbh_cm,height_m,crown radius m,lean,stems,condition,life stage,columnar,x,y\n";
  const auto row = [&](const std::string& cells) { return head + cells + "\n"; };
  const std::string at = ",430000,300000";
  const Bad kBad[] = {
      {"a.csv", row("1,0,,,,,,," + at),
       "a.csv row 2, tree 1: the stem diameter is 0; measure it, or leave the cell empty."},
      {"a.csv", row("1,-5,,,,,,," + at),
       "a.csv row 2, tree 1: the stem size \"-5\" cannot be read; column \"dbh_cm\": write a "
       "number above 0 with its unit, such as 45 cm."},
      {"a.csv", row("1,thick,,,,,,," + at),
       "a.csv row 2, tree 1: the stem size \"thick\" cannot be read"},
      {"a.csv", row("1,50-60,,,,,,," + at), "the stem size \"50-60\" cannot be read"},
      {"a.csv", row("1,>130,,,,,,," + at), "the stem size \">130\" cannot be read"},
      {"a.csv", row("1,12.05.2023,,,,,,," + at),
       "the stem size \"12.05.2023\" cannot be read; it looks like a date that a spreadsheet made "
       "of it"},
      {"a.csv", row("1,5-Mar,,,,,,," + at), "it looks like a date that a spreadsheet made of it"},
      {"a.csv", row("1,150,,,,,,," + at),
       "a.csv row 2, tree 1: stem diameter 150 cm is rare for a diameter and common for a girth"},
      {"a.csv", row("1,489,,,,,,," + at),
       "a.csv row 2, tree 1: stem diameter 489 cm is hardly possible; check the value and the unit "
       "of column \"dbh_cm\"."},
      {"a.csv", row("1,4350,,,,,,," + at), "no tree is that thick: stem diameter 4350 cm"},
      {"a.csv", row("1,,,,,,,," + at),
       "a.csv row 2, tree 1: no stem diameter is read; measure the stem"},
      {"a.csv", row("1,40,127.7,,,,,," + at),
       "a.csv row 2, tree 1: the height 127.7 m is impossible; check the value and the unit of "
       "column \"height_m\"."},
      {"a.csv", row("1,40,0,,,,,," + at), "the height 0 m is impossible"},
      {"a.csv", row("1,40,-3,,,,,," + at), "the height -3 m is impossible"},
      {"a.csv", row("1,40,tall,,,,,," + at),
       "the height \"tall\" cannot be read; column \"height_m\": write a number with its unit, "
       "such as 45 cm."},
      {"a.csv", row("1,40,,45,,,,," + at), "the crown radius 45 m is impossible"},
      {"a.csv", row("1,40,,-4,,,,," + at), "the crown radius -4 m is impossible"},
      {"a.csv", row("1,40,,,steep,,,," + at),
       "the lean \"steep\" cannot be read; column \"lean\": write degrees, such as 15."},
      {"a.csv", row("1,40,,,120,,,," + at),
       "the lean \"120\" cannot be read; column \"lean\": write degrees from the vertical, 0 to "
       "90."},
      {"a.csv", row("1,40,,,,many,,," + at), "the number of stems \"many\" cannot be read"},
      {"a.csv", row("1,40,,,,2.5,,," + at),
       "the number of stems \"2.5\" cannot be read; column \"stems\": write a whole number such as "
       "3."},
      {"a.csv", row("1,40,,,,3,,," + at),
       "the number of stems is 3, sizes are given for 1; write all of them in the cell"},
      {"a.csv", row("1,40,,,,,splendid,," + at),
       "a.csv row 2: \"splendid\" in column \"condition\" is no word known for the condition; it "
       "is kept in the notes"},
      {"a.csv", row("1,40,,,,,,middling," + at),
       "\"middling\" in column \"life stage\" is no word known for the life stage"},
      {"a.csv", row("1,40,,4,,,,,perhaps,430000,300000"),
       "the word for columnar \"perhaps\" cannot be read; column \"columnar\": write yes or no."},
      {"a.csv", row("1,40,,,,,,,,,"),
       "a.csv row 2, tree 1: the tree has no position; give its coordinates, or place it on the "
       "plan."},
      {"a.csv", row("1,40,,,,,,,,0,0"),
       "a.csv row 2, tree 1: the coordinates are 0, 0; give its coordinates, or leave the cells "
       "empty."},
      {"a.csv", row("1,40,,,,,,,,here,300000"),
       "the coordinate \"here\" cannot be read; column \"x\": write a plain number such as "
       "430035.12."},
      {"a.csv", row("1,40,,,,,,,,430000,"), "the coordinate \"\" cannot be read; column \"y\""},
      {"a.csv", row("1,40,,,,,,,,43000000,300000"),
       "a.csv row 2, tree 1: the position lies outside the area of the project's coordinate "
       "system"},
      {"a.csv", row(",40,,,,,,," + at),
       "a.csv row 2: the tree has no id and no tag; give it the tag that is on its label."},
      {"a.csv", row("1,40,,,,,,," + at) + "1,40,,,,,,,,430001,300000\n",
       "a.csv row 3: \"1\" is used before, in row 2; it is called \"1-2\" here; give each its own "
       "tag in the source."},
      {"a.csv", row("1,40,430000"),
       "a.csv row 2: the row has 3 cells, the header 11; look for a missing or an unquoted "
       "delimiter."},
      {"a.csv", "tag,x,y\n1,430000,300000,oops\n",
       "a.csv row 2: the row has 4 cells, the header 3"},
      {"a.csv", "tag,x,y,orchard\n1,430000,300000,7\n",
       "a.csv: column orchard is not read; name what is needed in a column map."},
      {"a.csv", "tag,x,y,crown n (m),crown e (m)\n1,430000,300000,4,5\n",
       "the crown is given in 2 of four directions; give all four, or one radius or spread for "
       "all."},
      {"a.csv", "tag,coordinates\n1,by the gate\n",
       "a.csv row 2, tree 1: the position \"by the gate\" cannot be read; column \"coordinates\": "
       "write \"49.2595, -123.2488\"."},
      {"a.csv", "tag,wkt\n1,POINT 3 4\n",
       "the position \"POINT 3 4\" cannot be read; column \"wkt\": write POINT (x y).",
       as("trees")},
      {"a.csv", "tag,lat,lon\n1,-2.0,53.0\n2,-2.0,53.1\n3,-2.1,53.0\n",
       "a.csv: latitude and longitude look exchanged: as written most points lie outside the area "
       "of EPSG:27700, the other way round inside; exchange the two columns in a column map."},
      {"b\xFC.csv", "tag,x,y\n\xE4,430000,300000\n",
       "the text is read as Windows-1252; check names with accents; save as UTF-8 if they look "
       "wrong."},
      {"w.csv", "kind,wkt\ntrench,LINESTRING 0 0\n",
       "w.csv row 2: the shape is not well-known text; the row is not taken; write it like "
       "LINESTRING (0 0, 10 5)"},
      {"w.csv", "kind,wkt\ntrench,\n",
       "w.csv row 2: it has no shape and is not taken; draw it, or give its shape in a column of "
       "well-known text (wkt)."},
      {"w.csv", "kind,wkt\nfolly,\"LINESTRING (0 0, 9 0)\"\n",
       "w.csv row 2: \"folly\" is no kind of work or barrier; it is read as a trench; say it in a "
       "column mapped to kind"},
      {"w.csv",
       "kind,depth_m,wkt\ntrench,deep,\"LINESTRING (0 0, 9 0)\"\n",
       "w.csv row 2: the depth \"deep\" cannot be read; column \"depth_m\": write a number with "
       "its unit, such as 900 mm, or leave it empty, and add the source again with --replace.",
       {},
       true},
      {"w.csv",
       "id,kind,depth_m,wkt\nW1,trench,-0.9,\"LINESTRING (0 0, 9 0)\"\n",
       "w.csv row 2, W1: the depth \"-0.9\" cannot be read; column \"depth_m\": write a number",
       {},
       true},
      {"w.csv",
       "id,kind,width_m,wkt\nW1,trench,-0.6,\"LINESTRING (0 0, 9 0)\"\n",
       "w.csv row 2, W1: the width \"-0.6\" cannot be read; column \"width_m\"",
       {},
       true},
      {"w.csv", "kind,width_m,wkt\nwall,thin,\"LINESTRING (0 0, 9 0)\"\n",
       "w.csv row 2: the width \"thin\" cannot be read", as("barriers"), true},
      {"w.csv",
       "kind,gross mass (t),wkt\ntraffic,heavy,\"LINESTRING (0 0, 9 0)\"\n",
       "w.csv row 2: the gross mass \"heavy\" cannot be read; column \"gross mass (t)\": write a "
       "number such as 8000 kg or 8 t, or leave it empty, and add the source again with --replace.",
       {},
       true},
      {"works.geojson",
       geojson(R"({"type":"LineString","coordinates":[[-2,53],[-2.001,53]]})",
               R"({"id":"W1","kind":"trench","depth_m":-0.9})"),
       "works.geojson feature 0, W1: the depth \"-0.9\" cannot be read; column \"depth_m\": write "
       "a "
       "number with its unit, such as 900 mm, or leave it empty",
       as("works"), true},
      {"w.csv", "kind,method,wkt\ntrench,magic,\"LINESTRING (0 0, 9 0)\"\n",
       "w.csv row 2: \"magic\" is no word known for the way of digging; it is kept in the notes"},
      {"w.csv", "kind,wkt\npit,\"LINESTRING (0 0, 9 0, 9 9)\"\n",
       "w.csv row 2: the outline of the pit is open; close it in the source."},
      {"w.csv", "kind,wkt\ntrench,\"POLYGON ((0 0, 9 0, 9 1, 0 0))\"\n",
       "w.csv row 2: a trench drawn as an outline is read as a pit; draw its centre line and give "
       "its width."},
      {"g.csv", "wkt\n\"LINESTRING (0 0, 9 0)\"\n",
       "g.csv row 2: a surface needs an area and is not taken; draw it as a polygon or a closed "
       "line.",
       as("ground")},
      {"p.csv", pits("pit,T1,430000,300000,wide,,,,,,"),
       "p.csv row 2, opening row-2: the width \"wide\" cannot be read; column \"width (m)\": write "
       "a "
       "number with its unit, such as 900 mm.",
       as("evidence")},
      {"p.csv", pits("pit,T1,430000,300000,,-1,,,,,"),
       "p.csv row 2, opening row-2: the depth \"-1\" cannot be read", as("evidence")},
      {"p.csv", pits("pit,T1,430000,300000,,,thin,,,,"),
       "the root diameter \"thin\" cannot be read and the root is not taken; column \"root "
       "diameter "
       "(mm)\": write a number with its unit, such as 35 mm.",
       as("evidence")},
      {"p.csv", pits("pit,T1,430000,300000,,,-35,,,,"),
       "the root diameter \"-35\" cannot be read and the root is not taken", as("evidence")},
      {"p.csv", pits("pit,T1,430000,300000,,,35,deep,,,"),
       "p.csv row 2, opening row-2: the depth of the root \"deep\" cannot be read", as("evidence")},
      {"p.csv", pits("pit,T1,430000,300000,,,,200,,,"),
       "p.csv row 2, opening row-2: a root without a diameter is not taken; write its diameter in "
       "column \"root diameter (mm)\".",
       as("evidence")},
      {"p.csv", pits("pit,T1,430000,300000,,,35,,here,300000,"),
       "p.csv row 2: the place of the root \"here\", \"300000\" cannot be read; it is taken as "
       "somewhere "
       "in the opening",
       as("evidence")},
      {"p.csv", pits("pit,T1,430000,300000,,,35,,,,maybe"),
       "\"maybe\" does not say whether the root was alive; it is taken as alive and kept in the "
       "notes",
       as("evidence")},
      {"p.csv", pits("burrow,T1,430000,300000,,,35,,,,"),
       "p.csv row 2: \"burrow\" is no kind of opening; it is read as a pit; write pit, air trench "
       "or "
       "dug root",
       as("evidence")},
      {"p.csv", pits("pit,T1,here,300000,,,35,,,,"),
       "p.csv row 2: the coordinate \"here\" cannot be read; column \"x\"", as("evidence")},
      {"s.csv", layers("30,clay,14.5,,,,,"),
       "s.csv row 2: the bulk density \"14.5\" is none that a soil has, and is not taken; column "
       "\"bulk density\": write a number such as 1.45 g/cm3.",
       as("soil")},
      {"s.csv", layers("30,clay,heavy,,,,,"),
       "s.csv row 2: the bulk density \"heavy\" cannot be read", as("soil")},
      {"s.csv", layers("30,clay,1.4 stone,,,,,"),
       "s.csv row 2: the bulk density \"1.4 stone\" cannot be read", as("soil")},
      {"s.csv", layers("30,clay,,12,,,,"),
       "s.csv row 2: the air-filled share \"12\" is none that a soil has, and is not taken",
       as("soil")},
      {"s.csv", layers("30,clay,,,250,,,"),
       "s.csv row 2: the penetration resistance \"250\" is none that a soil has", as("soil")},
      {"s.csv", layers("30,marble,,,,,,"),
       "s.csv row 2: \"marble\" is no word known for the texture; it is left open; column "
       "\"texture\": write sand, loam, silt or clay.",
       as("soil")},
      {"s.csv", layers("-30,clay,,,,,,"),
       "s.csv row 2: the depth of the underside \"-30\" cannot be read; column \"bottom (cm)\": "
       "write "
       "a number with its unit, such as 300 mm.",
       as("soil")},
      {"s.csv", layers(",clay,1.4,,,,,"),
       "s.csv row 2: it does not say how deep its layer goes and the layer is not taken",
       as("soil")},
      {"s.csv", layers("30,clay,,,,low,,"),
       "s.csv row 2: the depth of the water table \"low\" cannot be read", as("soil")},
      {"s.csv", layers("30,clay,,,,,sometimes,"),
       "s.csv row 2: \"sometimes\" is no word known for the drainage", as("soil")},
      {"s.csv", layers("30,clay,,,,,,sometimes"),
       "s.csv row 2: \"sometimes\" is no word known for the compaction", as("soil")},
      {"s.csv", layers("30,clay,,,,1.5,,") + "60,clay,,,,1.9,,\n",
       "s.csv row 3: the depth of the water table is not that of an earlier row; the first is kept",
       as("soil")},
      {"s.csv", "top (cm),bottom (cm)\n0,30\n40,60\n",
       "s.csv row 3: the layer begins at 40 cm where the one above ends at 30 cm; it is read from "
       "there",
       as("soil")},
      {"paving.geojson",
       geojson(
           R"({"type":"Polygon","coordinates":[[[-2,53],[-2.001,53.001],[-2,53.001],[-2.001,53],[-2,53]]]})"),
       "paving.geojson feature 0: a polygon crosses itself; its area is read by even and odd"},
      {"trees.geojson", geojson("null", R"({"tag":"T1"})"),
       "trees.geojson feature 0, tree T1: the tree has no position"},
      {"text.dxf", dxf(kMetres, kLine + "0\nTEXT\n8\nKERB\n1\nhello\n"),
       "text.dxf: 1 TEXT not taken: text is not read"},
      {"far.dxf", dxf(kMetres, "0\nLINE\n8\nKERB\n10\n4e7\n20\n3e6\n11\n4.1e7\n21\n3e6\n"),
       "far.dxf: the drawing lies outside the area of EPSG:27700; it may be drawn about an origin "
       "of its own, or in another unit"},
      {"open.dxf",
       dxf(kMetres, "0\nLINE\n8\nEXCAVATION\n10\n400000\n20\n300000\n11\n400010\n21\n300000\n"),
       "open.dxf layer EXCAVATION: 1 open lines not taken: an area is needed; close the outlines "
       "in the drawing."},
  };
  for (const Bad& bad : kBad) {
    const auto import = read(bad.file, bad.content, bad.options);
    ASSERT_TRUE(import) << bad.file << ": " << import.error().sentence();
    const auto all = sentences(*import);
    EXPECT_NE(all.find(bad.sentence), std::string::npos) << bad.sentence << "\n-- got:\n" << all;
    const bool blocks =
        std::any_of(import->problems.begin(), import->problems.end(), [&](const Problem& p) {
          return p.blocks && p.sentence().find(bad.sentence) != std::string::npos;
        });
    EXPECT_TRUE(blocks || !bad.blocks) << bad.sentence << " does not block";
  }
}

TEST_F(BadInput, of_girths_under_a_diameter_header_is_seen_in_the_whole_column) {
  std::string table = "tag,dbh_cm,x,y\n";
  for (int i = 0; i < 20; ++i)
    table += std::to_string(i) + "," + std::to_string(95 + 4 * i) + ",430000,300000\n";
  const auto import = read("a.csv", table);
  ASSERT_TRUE(import);
  EXPECT_TRUE(
      says(*import, NoteCode::girth_suspected, "a.csv: half of the stem diameters are above"));
  EXPECT_EQ(import->trees[0].stems[0].read, Stem::Read::diameter);  // never converted silently
}

}  // namespace
}  // namespace rootstead::io
