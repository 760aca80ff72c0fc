// Soil logs: layers from the top down, and what is said of the whole soil.
#include "tests/io/import_support.hpp"

namespace rootstead::io {
namespace {

class SoilSource : public Sources {
 protected:
  Import taken(const std::string& content, std::optional<LengthUnit> unit = {}) const {
    ImportOptions options;
    options.as = "soil";
    options.length_unit = unit;
    auto import = read("soil.csv", content, options);
    EXPECT_TRUE(import) << import.error().sentence();
    return import ? std::move(import).value() : Import{};
  }
};

TEST_F(SoilSource, gives_layers_and_what_is_of_the_whole_soil) {
  const Import import = taken(
      "from (cm),to (cm),texture,bulk density (g/cm3),air-filled porosity (%),"
      "penetration resistance (MPa),water table (m),drainage,notes\n"
      "0,30,loam,1.25,18,0.8,1.4,poor,dug by hand\n"
      "30,90,clay,1.62,6,2.4,,,\n");
  ASSERT_TRUE(import.soil) << sentences(import);
  EXPECT_EQ(import.kind, "soil");
  EXPECT_EQ(import.rows_read, 2U);
  const Soil& soil = *import.soil;
  ASSERT_EQ(soil.layers.size(), 2U);
  EXPECT_EQ(to_text(soil.layers[0].bottom), "30 cm");
  EXPECT_EQ(soil.layers[0].texture, SoilTexture::loam);
  EXPECT_EQ(soil.layers[0].bulk_density, 1.25);
  EXPECT_NEAR(*soil.layers[0].air_filled, 0.18, 1e-12);
  EXPECT_EQ(soil.layers[0].resistance, 0.8);
  EXPECT_EQ(soil.layers[1].texture, SoilTexture::clay);
  EXPECT_EQ(to_text(*soil.water_table), "1.4 m");
  EXPECT_EQ(soil.drainage, Drainage::poor);
  EXPECT_EQ(soil.notes, "dug by hand");
  EXPECT_TRUE(import.problems.empty()) << sentences(import);
}

TEST_F(SoilSource, of_one_row_without_depths_is_the_whole_soil) {
  const Import import = taken(
      "texture,drainage,rooting depth (mm),compacted,water table (mm)\nclay,free,600,yes,900\n");
  ASSERT_TRUE(import.soil);
  EXPECT_TRUE(import.soil->layers.empty());
  EXPECT_EQ(import.soil->texture, SoilTexture::clay);
  EXPECT_EQ(import.soil->drainage, Drainage::free);
  EXPECT_TRUE(import.soil->compacted);
  EXPECT_EQ(to_text(*import.soil->rooting_depth), "600 mm");
}

TEST_F(SoilSource, takes_units_of_header_cell_and_option) {
  const Soil by_header = *taken(
                              "bottom (cm),bulk density (kg/m3),resistance (kPa),air (%)\n"
                              "30,1450,800,12\n")
                              .soil;
  ASSERT_EQ(by_header.layers.size(), 1U);
  ASSERT_TRUE(by_header.layers[0].bulk_density && by_header.layers[0].resistance &&
              by_header.layers[0].air_filled);
  EXPECT_NEAR(*by_header.layers[0].bulk_density, 1.45, 1e-12);
  EXPECT_NEAR(*by_header.layers[0].resistance, 0.8, 1e-12);
  EXPECT_NEAR(*by_header.layers[0].air_filled, 0.12, 1e-12);
  const Soil by_cell = *taken(
                            "bottom,bulk density,resistance,air\n"
                            "30 cm,1450 kg/m\xC2\xB3,800 kPa,12 %\n")
                            .soil;
  EXPECT_EQ(by_cell.layers.at(0).bulk_density, by_header.layers[0].bulk_density);
  EXPECT_EQ(by_cell.layers[0].resistance, by_header.layers[0].resistance);
  EXPECT_EQ(by_cell.layers[0].air_filled, by_header.layers[0].air_filled);
  const Soil by_option = *taken("bottom\n30\n", LengthUnit::centimetre).soil;
  EXPECT_EQ(to_text(by_option.layers.at(0).bottom), "30 cm");
}

TEST_F(SoilSource, takes_both_depths_of_one_cell_and_headers_of_five_languages) {
  for (const char* table : {"depth (cm),texture\n0-30,loam\n30-60,clay\n",
                            "von (cm),bis (cm),Bodenart\n0,30,Lehm\n30,60,Ton\n",
                            "profondeur (cm),texture du sol\n0-30,terre franche\n30-60,argile\n",
                            "desde (cm),hasta (cm),textura\n0,30,franco\n30,60,arcilla\n",
                            "van (cm),tot (cm),grondsoort\n0,30,leem\n30,60,klei\n"}) {
    const Import import = taken(table);
    ASSERT_EQ(import.soil->layers.size(), 2U) << table << sentences(import);
    EXPECT_EQ(to_text(import.soil->layers[1].bottom), "60 cm") << table;
    EXPECT_EQ(import.soil->layers[0].texture, SoilTexture::loam) << table;
    EXPECT_EQ(import.soil->layers[1].texture, SoilTexture::clay) << table;
    EXPECT_EQ(count_of(import, NoteCode::value_unreadable), 0U) << sentences(import);
  }
}

TEST_F(SoilSource, says_how_a_compound_texture_is_read) {
  const Import import = taken("bottom (cm),texture\n30,sandy loam\n");
  EXPECT_EQ(import.soil->layers.at(0).texture, SoilTexture::loam);
  EXPECT_TRUE(says(import, NoteCode::assumed_in_reading, "\"sandy loam\" is read as loam"));
}

TEST_F(SoilSource, is_guessed_from_its_headers) {
  const auto import = read("soil.csv", "top (cm),bottom (cm),bulk density\n0,30,1.4\n");
  ASSERT_TRUE(import) << import.error().sentence();
  EXPECT_EQ(import->kind, "soil");
}

}  // namespace
}  // namespace rootstead::io
