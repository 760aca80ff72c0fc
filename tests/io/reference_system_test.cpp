#include <cmath>
#include <numbers>
#include <string>

#include "engine/base/text.hpp"
#include "io/project.hpp"

namespace rootstead::io {
namespace {

std::string refusal(const std::string& code) {
  const auto system = reference_system(code);
  return system ? "accepted" : system.error().sentence();
}

bool mentions(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

TEST(ReferenceSystem, accepts_national_grids_in_metres) {
  const auto system = reference_system("EPSG:27700");
  ASSERT_TRUE(system) << system.error().sentence();
  EXPECT_EQ(system->code, "EPSG:27700");
  EXPECT_TRUE(mentions(system->name, "British National Grid")) << system->name;
  EXPECT_EQ(system->file_unit, LengthUnit::metre);
  EXPECT_FALSE(system->datum.empty());
}

TEST(ReferenceSystem, tells_the_two_kinds_of_foot_apart) {
  // Florida East in US survey feet, and Oregon North in international feet.
  EXPECT_EQ(reference_system("EPSG:2236")->file_unit, LengthUnit::us_survey_foot);
  EXPECT_EQ(reference_system("EPSG:2913")->file_unit, LengthUnit::foot);
}

TEST(ReferenceSystem, takes_bare_numbers_proj_text_and_systems_with_heights) {
  EXPECT_EQ(reference_system(" 32610 ")->code, "EPSG:32610");
  EXPECT_EQ(reference_system("EPSG:7405")->code, "EPSG:27700");  // national grid with heights
  const auto text = reference_system("+proj=utm +zone=33 +datum=WGS84 +units=m");
  ASSERT_TRUE(text) << text.error().sentence();
  EXPECT_TRUE(reference_system("EPSG:2193"));  // its axes are written north first
  EXPECT_TRUE(reference_system("EPSG:3035"));
  EXPECT_TRUE(reference_system("EPSG:5070"));
}

TEST(ReferenceSystem, refuses_degrees_with_the_reason_and_a_zone) {
  const std::string world = refusal("EPSG:4326");
  EXPECT_TRUE(mentions(world, "degrees are not lengths")) << world;
  EXPECT_TRUE(mentions(world, "UTM zone of the site")) << world;
  const std::string britain = refusal("EPSG:4277");
  EXPECT_TRUE(mentions(britain, "zone 30 north (EPSG:32630)")) << britain;
  EXPECT_EQ(reference_system("EPSG:4326").error().code, Code::crs_unsuitable);
}

TEST(ReferenceSystem, refuses_web_mercator_under_all_its_names) {
  for (const char* name : {"EPSG:3857", "EPSG:900913", "ESRI:102100", "EPSG:3785"}) {
    const std::string sentence = refusal(name);
    EXPECT_TRUE(mentions(sentence, "1/cos(latitude)")) << name << ": " << sentence;
    EXPECT_TRUE(mentions(sentence, "1.18 times at 32 degrees")) << sentence;
  }
  EXPECT_NEAR(1 / std::cos(32 * std::numbers::pi / 180), 1.18, 0.005);
}

TEST(ReferenceSystem, refuses_maps_of_the_world_and_what_is_no_plane) {
  for (const char* name : {"EPSG:3395", "EPSG:4087", "ESRI:54009"}) {
    EXPECT_TRUE(mentions(refusal(name), "maps of large regions")) << name << ": " << refusal(name);
  }
  EXPECT_TRUE(mentions(refusal("EPSG:4978"), "centre of the Earth"));
  EXPECT_TRUE(mentions(refusal("EPSG:5773"), "not a plane system"));
  EXPECT_TRUE(mentions(refusal("EPSG:2048"), "westward"));
  EXPECT_TRUE(mentions(refusal("LOCAL_CS[\"site grid\",UNIT[\"metre\",1]]"), "not a plane system"));
}

TEST(ReferenceSystem, refuses_units_that_are_neither_metre_nor_foot) {
  const std::string sentence =
      refusal("EPSG:24372");  // Kalianpur 1880 / India zone II, Indian yard
  EXPECT_TRUE(mentions(sentence, "yard")) << sentence;
}

TEST(ReferenceSystem, names_what_it_does_not_know) {
  for (const char* name : {"EPSG:1", "no such grid", "", "/etc/passwd"}) {
    const auto system = reference_system(name);
    ASSERT_FALSE(system) << name;
    EXPECT_EQ(system.error().code, Code::crs_unknown) << name;
    EXPECT_TRUE(mentions(system.error().sentence(), "EPSG:27700")) << system.error().sentence();
  }
}

// Published formula for a transverse Mercator projection, to first order: convergence = difference
// of longitude from the central meridian times the sine of the latitude.
TEST(Convergence, is_the_transverse_mercator_formula_to_first_order) {
  const auto grid = reference_system("EPSG:27700");
  // 530,000 E 180,000 N is about 51.504 N 0.128 W, 1.872 degrees east of the meridian 2 W.
  const double expected = 1.872 * std::sin(51.504 * std::numbers::pi / 180);
  EXPECT_NEAR(convergence_at(*grid, {530000, 180000}).degrees(), expected, 0.003);
  EXPECT_NEAR(convergence_at(*grid, {400000, 180000}).degrees(), 0, 1e-6);
  EXPECT_LT(convergence_at(*grid, {300000, 180000}).degrees(), 0);
}

TEST(Convergence, is_the_same_in_feet_and_in_metres) {
  const auto feet = reference_system("EPSG:2236");     // NAD83 / Florida East, US survey foot
  const auto metres = reference_system("EPSG:26958");  // the same in metres
  const Point miami{280000, 160000};
  EXPECT_NEAR(convergence_at(*feet, miami).degrees(), convergence_at(*metres, miami).degrees(),
              1e-7);
}

TEST(Convergence, is_zero_where_proj_cannot_tell) {
  ReferenceSystem unknown;
  unknown.code = "no such grid";
  EXPECT_EQ(convergence_at(unknown, {0, 0}).degrees(), 0);
}

}  // namespace
}  // namespace rootstead::io
