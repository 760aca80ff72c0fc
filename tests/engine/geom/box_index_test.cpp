#include "engine/geom/box_index.hpp"

#include <limits>

#include "engine/geom/measure.hpp"
#include "tests/engine/geom/random_shapes.hpp"

namespace rootstead {
namespace {

using test::Dice;

std::vector<Box> any_boxes(Dice& dice, int count) {
  std::vector<Box> boxes;
  for (int i = 0; i < count; ++i) {
    const double x = dice.between(0, 1000), y = dice.between(0, 1000);
    const double longest = dice.whole(0, 9) == 0 ? 400 : 10;  // a few as long as a pipeline
    boxes.push_back({x, y, x + dice.between(0, longest), y + dice.between(0, longest)});
  }
  return boxes;
}

TEST(BoxIndex, OfNothingFindsNothing) {
  EXPECT_TRUE(BoxIndex().near({0, 0}, Length::metres(1e9)).empty());
  EXPECT_TRUE(BoxIndex(std::vector<Box>{}).near({0, 0}, Length::metres(1e9)).empty());
}

TEST(BoxIndex, FindsABoxThatItsReachJustTouches) {
  const BoxIndex index({{3, -1, 5, 1}, {10, 10, 11, 11}});
  EXPECT_EQ(index.near({0, 0}, Length::metres(3)), std::vector<std::size_t>{0});
  EXPECT_TRUE(index.near({0, 0}, Length::metres(2.999)).empty());
  EXPECT_EQ(index.near({4, 0}, Length()), std::vector<std::size_t>{0});
  EXPECT_EQ(index.meeting({5, 1, 10, 10}), (std::vector<std::size_t>{0, 1}));
}

TEST(BoxIndex, NeverFindsAnEmptyOrBrokenBox) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const BoxIndex index({Box{}, {0, 0, 1, 1}, {nan, nan, nan, nan}});
  EXPECT_EQ(index.near({0, 0}, Length::metres(1e6)), std::vector<std::size_t>{1});
}

RC_GTEST_PROP(BoxIndex, FindsWhatLookingAtEveryBoxFinds, ()) {
  Dice dice(*rc::gen::arbitrary<std::uint32_t>());
  const std::vector<Box> boxes = any_boxes(dice, dice.whole(0, 700));
  const BoxIndex index(boxes);
  for (int i = 0; i < 20; ++i) {
    const Point at{dice.between(-100, 1100), dice.between(-100, 1100)};
    const Length reach = Length::metres(dice.between(0, 60));
    const Box window{at.x, at.y, at.x + dice.between(0, 90), at.y + dice.between(0, 90)};
    std::vector<std::size_t> near, meeting;
    for (std::size_t k = 0; k < boxes.size(); ++k) {
      if (distance(at, boxes[k]) <= reach) near.push_back(k);
      if (boxes[k].min_x <= window.max_x && window.min_x <= boxes[k].max_x &&
          boxes[k].min_y <= window.max_y && window.min_y <= boxes[k].max_y)
        meeting.push_back(k);
    }
    RC_ASSERT(index.near(at, reach) == near);
    RC_ASSERT(index.meeting(window) == meeting);
  }
}

}  // namespace
}  // namespace rootstead
