#include <gtest/gtest.h>

#include "engine/geom/measure.hpp"
#include "tests/engine/losses/zone_fixture.hpp"

namespace rootstead {
namespace {

using namespace rootstead::test;
using Effect = GroundTaking::Effect;

std::vector<GroundTaking> takings(const Site& site) {
  const WorkMap works(site);
  return takings_near(site.trees.front(), Length::metres(20), works);
}

TEST(Takings, ATrenchSeversToItsDepthAndItsWorkingRoomPresses) {
  const auto found = takings(SiteBuilder()
                                 .tree("T1", {0, 0}, 0.5)
                                 .trench("W1", {{-5, 4}, {5, 4}}, 0.6, 0.9)
                                 .with_work([](Work& work) { work.working_room = metres(1); }));
  ASSERT_EQ(found.size(), 2u);
  EXPECT_EQ(found[0].effect, Effect::severs);
  EXPECT_NEAR(found[0].depth.metres(), 0.9, 1e-12);
  EXPECT_NEAR(area_of(found[0].area).square_metres(), 6, 1e-9);
  EXPECT_EQ(found[1].effect, Effect::presses);
  EXPECT_GE(area_of(found[1].area).square_metres(), 20 - 1e-9);  // 1 m each side of 10 m
}

TEST(Takings, WheelsAndFillPress) {
  const auto found = takings(SiteBuilder()
                                 .tree("T1", {0, 0}, 0.5)
                                 .area("W1", WorkKind::traffic, rectangle(1, 1, 2, 2), 0)
                                 .area("W2", WorkKind::fill, rectangle(3, 1, 4, 2), 0.3));
  ASSERT_EQ(found.size(), 2u);
  EXPECT_EQ(found[0].effect, Effect::presses);
  EXPECT_EQ(found[1].effect, Effect::presses);
}

TEST(Takings, PavingSeversToItsConstructionDepthAndPressesBeneath) {
  const auto found =
      takings(SiteBuilder().tree("T1", {0, 0}, 0.5).paving("W1", rectangle(1, 1, 2, 2)));
  ASSERT_EQ(found.size(), 2u);
  EXPECT_EQ(found[0].effect, Effect::severs);
  EXPECT_NEAR(found[0].depth.metres(), 0.2, 1e-12);
  EXPECT_EQ(found[1].effect, Effect::presses);
}

TEST(Takings, ARootCutSevers) {
  const auto found =
      takings(SiteBuilder().tree("T1", {0, 0}, 0.5).root_cut("W1", {{-5, 4}, {5, 4}}, 0.6));
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].effect, Effect::severs);
}

TEST(Takings, ExistingAndFarWorksAreLeftOut) {
  EXPECT_TRUE(takings(SiteBuilder()
                          .tree("T1", {0, 0}, 0.5)
                          .pit("W1", rectangle(1, 1, 2, 2), 1)
                          .with_work([](Work& work) { work.state = WorkState::existing; })
                          .pit("W2", rectangle(100, 0, 101, 1), 1))
                  .empty());
}

TEST(WorksOnStem, AreThoseWhoseGroundMeetsTheTrunk) {
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 0.5)
                        .pit("W1", rectangle(0.2, -1, 2, 1), 1)
                        .pit("W2", rectangle(0.3, -1, 2, 1), 1)
                        .area("W3", WorkKind::fill, rectangle(-1, -1, 1, 1), 0.2);
  const WorkMap works(site);
  EXPECT_EQ(works_on_stem(site.trees.front(), Length::metres(0.25), works),
            (std::vector<std::string>{"W1", "W3"}));
}

}  // namespace
}  // namespace rootstead
