#include <rapidcheck/gtest.h>

#include "io/import_fields.hpp"
#include "tests/io/import_support.hpp"

namespace rootstead::io {
namespace {

std::string field_of(const std::string& header) {
  const ColumnMap map = propose_columns({header});
  return map.fields.empty() ? "" : map.fields.begin()->first;
}

std::optional<LengthUnit> unit_of(const std::string& header) {
  const ColumnMap map = propose_columns({header});
  return map.fields.empty() ? std::nullopt : map.fields.begin()->second.unit;
}

TEST(ColumnMap, knows_header_words_of_five_languages) {
  const std::pair<const char*, const char*> kKnown[] = {
      {"DBH", "stem_diameter"},
      {"Trunk Diameter", "stem_diameter"},
      {"BHD", "stem_diameter"},
      {"Stammdurchmesser", "stem_diameter"},
      {"DHP", "stem_diameter"},
      {"diam\xC3\xA8tre du tronc", "stem_diameter"},
      {"DAP", "stem_diameter"},
      {"stamdiameter", "stem_diameter"},
      {"Girth", "stem_girth"},
      {"Stammumfang", "stem_girth"},
      {"circonf\xC3\xA9rence", "stem_girth"},
      {"per\xC3\xADmetro", "stem_girth"},
      {"stamomtrek", "stem_girth"},
      {"Tree Height", "height"},
      {"Baumh\xC3\xB6he", "height"},
      {"hauteur", "height"},
      {"altura", "height"},
      {"boomhoogte", "height"},
      {"Crown Spread", "crown_diameter"},
      {"Kronenradius", "crown_radius"},
      {"Baumart", "botanical_name"},
      {"nom scientifique", "botanical_name"},
      {"especie", "botanical_name"},
      {"Latijnse naam", "botanical_name"},
      {"nombre com\xC3\xBAn", "common_name"},
      {"Zustand", "condition"},
      {"\xC3\xA9tat sanitaire", "condition"},
      {"Rechtswert", "easting"},
      {"Hochwert", "northing"},
      {"longitud", "longitude"},
      {"Breitengrad", "latitude"},
      {"lat/lon", "lat_lon"},
      {"TreeID", "id"},
      {"Tree No.", "tag"},
      {"Eigent\xC3\xBCmer", "ownership"},
      {"Bemerkungen", "notes"},
      {"stem_count", "stem_count"},
      {"life stage", "stage"}};
  for (const auto& [header, field] : kKnown) EXPECT_EQ(field_of(header), field) << header;
}

TEST(ColumnMap, does_not_take_columns_that_only_look_like_one) {
  for (const char* header : {"height_range_id", "date_measured", "lidar_height_err_m", "dbh_date",
                             "neighbourhood", "plant_area", "street_side"}) {
    EXPECT_EQ(field_of(header), "") << header;
  }
}

TEST(ColumnMap, finds_units_in_headers) {
  EXPECT_EQ(unit_of("dbh_cm"), LengthUnit::centimetre);
  EXPECT_EQ(unit_of("DBH (in)"), LengthUnit::inch);
  EXPECT_EQ(unit_of("DBH (\")"), LengthUnit::inch);
  EXPECT_EQ(unit_of("diameter_in"), LengthUnit::inch);
  EXPECT_EQ(unit_of("height (ft)"), LengthUnit::foot);
  EXPECT_EQ(unit_of("Umfang [cm]"), LengthUnit::centimetre);
  EXPECT_EQ(unit_of("DBH in mm"), LengthUnit::millimetre);
  EXPECT_EQ(unit_of("DBHcm"), LengthUnit::centimetre);
  EXPECT_EQ(unit_of("easting us ft"), LengthUnit::us_survey_foot);
  EXPECT_EQ(unit_of("dbh"), std::nullopt);
}

TEST(ColumnMap, reads_type_as_growth_form_of_trees_and_kind_of_works) {
  EXPECT_TRUE(propose_columns({"type"}).fields.contains("form"));
  EXPECT_TRUE(propose_columns({"type"}, "works").fields.contains("kind"));
}

TEST(ColumnMap, prefers_the_grid_to_degrees) {
  const ColumnMap map = propose_columns({"lat", "lon", "easting", "northing"});
  EXPECT_TRUE(map.fields.contains("easting"));
  EXPECT_FALSE(map.fields.contains("latitude"));
}

TEST(ColumnMap, reads_its_toml) {
  const auto map = column_map_from_text(R"(
crs = "EPSG:4326"
[columns]
tag = "Baum Nr"
stem_diameter = { column = "BHD", unit = "cm" }
[values]
depth = "900 mm"
[layers]
KERB = "kerb"
"V-TREE" = "trees"
)",
                                        "map.toml");
  ASSERT_TRUE(map) << map.error().sentence();
  EXPECT_EQ(map->crs, "EPSG:4326");
  EXPECT_EQ(map->fields.at("tag").column, "Baum Nr");
  EXPECT_EQ(map->fields.at("stem_diameter").unit, LengthUnit::centimetre);
  EXPECT_EQ(map->values.at("depth"), "900 mm");
  EXPECT_EQ(map->layer_kinds.at("V-TREE"), "trees");
}

TEST(ColumnMap, names_the_line_of_each_mistake) {
  const std::pair<const char*, const char*> kMistakes[] = {
      {"crs = 27700\n", "m.toml line 1: crs is not a text; put the value in quotation marks."},
      {"\ncolour = \"red\"\n",
       "m.toml line 2: there is no key \"colour\"; use crs, [columns], [values] or [layers]."},
      {"[columns]\nstem = \"DBH\"\n",
       "m.toml line 2: there is no field \"stem\"; use one of the fields listed in "
       "docs/formats/column-map.md, such as stem_diameter."},
      {"[columns]\nheight = { column = \"H\", unit = \"cubits\" }\n",
       "m.toml line 2: \"cubits\" is no unit of length; use m, cm, mm, in, ft or us-ft."},
      {"[columns]\nheight = { unit = \"m\" }\n",
       "m.toml line 2: the name of the column is missing; add column = \"...\"."},
      {"columns = 3\n",
       "m.toml line 1: columns is not a section; write [columns] on a line of its own."},
  };
  for (const auto& [text, sentence] : kMistakes) {
    const auto map = column_map_from_text(text, "m.toml");
    ASSERT_FALSE(map) << text;
    EXPECT_EQ(map.error().sentence(), sentence);
  }
  const auto section = column_map_from_text("\n [ %olumns]\n", "m.toml");
  ASSERT_FALSE(section);
  EXPECT_EQ(section.error().sentence(),
            "m.toml line 2: the name of the section is no name; start it with a letter, as in "
            "[columns].");
  const auto accent =
      column_map_from_text("# H\xC3\xB6he\n[layers]\nH\xC3\xB6he = \"kerb\"\n", "m.toml");
  ASSERT_FALSE(accent);
  EXPECT_EQ(accent.error().sentence(),
            "m.toml line 3: a letter beyond a to z stands outside a text; put the name or text in "
            "quotation marks.");
  EXPECT_TRUE(column_map_from_text("[layers]\n\"H\xC3\xB6he\" = \"kerb\"\n", "m.toml"));
  const auto broken = column_map_from_text("crs = \"EPSG:1\n", "m.toml");
  ASSERT_FALSE(broken);
  EXPECT_EQ(broken.error().code, Code::format_broken);
  EXPECT_EQ(broken.error().subject, "m.toml line 1");
}

RC_GTEST_PROP(ColumnMap, toml_reads_back_to_the_same_map, ()) {
  const auto text = rc::gen::container<std::string>(
      rc::gen::element('a', 'Z', ' ', '"', '\'', '\\', '=', '[', '\t', '#'));
  ColumnMap map;
  map.crs = *rc::gen::element<std::string>("", "EPSG:27700", "EPSG:4326");
  for (const std::size_t index : *rc::gen::container<std::vector<std::size_t>>(
           rc::gen::inRange<std::size_t>(0, kFieldCount))) {
    ColumnMap::Column column{*text, {}};
    if (*rc::gen::arbitrary<bool>())
      column.unit =
          *rc::gen::element(LengthUnit::inch, LengthUnit::metre, LengthUnit::us_survey_foot);
    map.fields[std::string(name_of(static_cast<Field>(index)))] = column;
  }
  map.values["depth"] = *text;
  map.layer_kinds[*rc::gen::nonEmpty(text)] =
      *rc::gen::element<std::string>("trees", "kerb", "skip");
  const auto again = column_map_from_text(to_toml(map), "map.toml");
  RC_ASSERT(again.ok());
  RC_ASSERT(again->crs == map.crs);
  RC_ASSERT(again->values == map.values);
  RC_ASSERT(again->layer_kinds == map.layer_kinds);
  RC_ASSERT(again->fields.size() == map.fields.size());
  for (const auto& [field, column] : map.fields) {
    RC_ASSERT(again->fields.at(field).column == column.column);
    RC_ASSERT(again->fields.at(field).unit == column.unit);
  }
}

}  // namespace
}  // namespace rootstead::io
