#include "engine/base/quantity.hpp"

#include <cmath>

#include "engine/base/units.hpp"

namespace rootstead {
namespace {

TEST(Quantity, AnInchIsTwentyFivePointFourMillimetres) {
  const EnteredLength inch{1, LengthUnit::inch};
  EXPECT_DOUBLE_EQ(inch.length().millimetres(), 25.4);
}

TEST(Quantity, TheTwoFeetDifferByTwoPartsInAMillion) {
  // NIST, 2022, "U.S. survey foot: revised unit conversion factors": 1 ft = 0.999998 survey ft.
  const double ratio = metres_per(LengthUnit::foot) / metres_per(LengthUnit::us_survey_foot);
  EXPECT_NEAR(ratio, 0.999998, 1e-9);
}

TEST(Quantity, LengthTimesLengthIsAnArea) {
  EXPECT_DOUBLE_EQ((Length::metres(2) * Length::metres(3)).square_metres(), 6.0);
}

TEST(Units, ReadsWhatPeopleWrite) {
  EXPECT_EQ(entered_length_from("500 mm"), (EnteredLength{500, LengthUnit::millimetre}));
  EXPECT_EQ(entered_length_from("1,5m"), (EnteredLength{1.5, LengthUnit::metre}));
  EXPECT_EQ(entered_length_from("5'6\""), (EnteredLength{66, LengthUnit::inch}));
  EXPECT_EQ(entered_length_from("5 ft 6 in"), (EnteredLength{66, LengthUnit::inch}));
  EXPECT_EQ(entered_length_from("12", LengthUnit::inch), (EnteredLength{12, LengthUnit::inch}));
  EXPECT_FALSE(entered_length_from("12"));
  EXPECT_FALSE(entered_length_from("12 elephants"));
  EXPECT_FALSE(entered_length_from("about 3 m"));
}

RC_GTEST_PROP(Units, WrittenLengthsReadBackToTheSameNumber, ()) {
  const double value = *rc::gen::inRange(-1000000000, 1000000000) / 997.0;
  const EnteredLength entered{value, LengthUnit::inch};
  const auto again = entered_length_from(to_text(entered));
  RC_ASSERT(again.has_value());
  RC_ASSERT(*again == entered);
}

}  // namespace
}  // namespace rootstead
