#include "serve/shape_json.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace rootstead::serve {
namespace {

std::string fault(const std::string& text) {
  const auto shape = shape_from(io::Json::parse(text));
  return shape.ok() ? "" : shape.error().message;
}

RC_GTEST_PROP(ShapeJson, ComesBackAsItWent, (std::vector<std::pair<int, int>> corners)) {
  RC_PRE(corners.size() >= 3u);
  Shape shape;
  for (const auto& [x, y] : corners) shape.points.push_back({x / 7.0, y / 3.0});
  shape.lines = {shape.points};
  shape.areas = {{shape.points, {shape.points}}};
  const auto back = shape_from(io::Json::parse(to_json(shape).dump()));
  RC_ASSERT(back.ok());
  RC_ASSERT(back->points == shape.points);
  RC_ASSERT(back->lines == shape.lines);
  RC_ASSERT(back->areas == shape.areas);
}

TEST(ShapeJson, SaysWhatIsWrong) {
  EXPECT_EQ(fault("[]"), "it is not an object");
  EXPECT_EQ(fault(R"({"lines":[],"areas":[]})"), "it has no points");
  EXPECT_EQ(fault(R"({"lines":[],"areas":[],"points":[]})"), "it is empty");
  EXPECT_EQ(fault(R"({"lines":[],"areas":[],"points":[],"more":1})"),
            "it has a key that is not known");
  EXPECT_EQ(fault(R"({"lines":3,"areas":[],"points":[]})"), "a list is missing");
  EXPECT_EQ(fault(R"({"lines":[3],"areas":[],"points":[]})"), "a line is not a list of positions");
  EXPECT_EQ(fault(R"({"lines":[[[0,0]]],"areas":[],"points":[]})"),
            "a line or ring has fewer than 2 positions");
  EXPECT_EQ(fault(R"({"lines":[],"areas":[[]],"points":[]})"), "an area has no ring");
  EXPECT_EQ(fault(R"({"lines":[],"areas":[[[[0,0],[1,1]]]],"points":[]})"),
            "a line or ring has fewer than 3 positions");
  EXPECT_EQ(fault(R"({"lines":[],"areas":[],"points":[[1,"2"]]})"),
            "a position is not a pair of numbers");
  EXPECT_EQ(fault(R"({"lines":[],"areas":[],"points":[[1,2,3]]})"),
            "a position is not a pair of numbers");
}

TEST(ShapeJson, HasALimit) {
  io::Json points = io::Json::array();
  for (std::size_t i = 0; i <= kMostPositions; ++i) points.push_back({0.5, 1.5});
  const io::Json json = {
      {"lines", io::Json::array()}, {"areas", io::Json::array()}, {"points", points}};
  ASSERT_FALSE(shape_from(json).ok());
  EXPECT_EQ(shape_from(json).error().message, "it has more than 10000 positions");
}

}  // namespace
}  // namespace rootstead::serve
