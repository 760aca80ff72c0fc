#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "engine/geom/circle_area.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "tests/engine/losses/zone_fixture.hpp"

namespace rootstead {
namespace {

using namespace rootstead::test;

double segment(double radius, double distance) {
  return segment_area(Length::metres(radius), Length::metres(distance)).square_metres();
}

// ---- published and closed-form values -----------------------------------------------------------

TEST(ZoneLoss, AStraightCutAt8245DiametersTakesTenPercentOfATwelveDiameterCircle) {
  // Plane geometry on the 12-diameter circle of AS 4970-2009, clause 3.2, for its 10 % line.
  const double d = 0.5;
  const Site site = SiteBuilder().tree("T1", {0, 0}, d).pit("W1", ground_north_of(8.245 * d), 1);
  EXPECT_NEAR(loss_of(circle_zone({0, 0}, 12 * d), site).share, 0.1000, 5e-5);
}

TEST(ZoneLoss, StraightCutsOnAHalfMetreStemTakeThePublishedShares) {
  // Segment shares of the 6 m circle: cut at 4.5 m 7.215 %, at 3.0 m 19.550 %.
  const Zone zone = circle_zone({0, 0}, 6);
  for (const auto& [at, share] : {std::pair{4.5, 0.07215}, {3.0, 0.19550}, {0.0, 0.5}}) {
    const Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).pit("W1", ground_north_of(at), 1);
    EXPECT_NEAR(loss_of(zone, site).share, share, 5e-6) << at;
  }
}

TEST(ZoneLoss, ThirtySquareMetresPavedToday) {
  // BS 5837:2012 clause 7.4.2.3 on a 113.097 m2 area with 30 m2 paved: limit 16.619 m2.
  const Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).surface("S1", rectangle(-3, -5, 3, 0));
  const ZoneLoss loss = loss_of(circle_zone({0, 0}, 6), site);
  EXPECT_NEAR(loss.unsurfaced.square_metres() * 0.2, 16.619, 5e-4);
}

TEST(ZoneLoss, ALongTrenchHidesTheSegmentBehindIt) {
  const Site site =
      SiteBuilder().tree("T1", {0, 0}, 0.5).trench("W1", {{-50, 3.3}, {50, 3.3}}, 0.6, 1);
  const ZoneLoss loss = loss_of(circle_zone({0, 0}, 6), site);
  EXPECT_NEAR(loss.affected.square_metres(), segment(6, 3.0) - segment(6, 3.6), 1e-9);
  EXPECT_NEAR(loss.beyond->square_metres(), segment(6, 3.6), 1e-9);
  EXPECT_NEAR(loss.by_work.front().nearest.metres(), 3.0, 1e-9);
}

TEST(ZoneLoss, AShortTrenchHidesAWedge) {
  // Seen from the stem, a near edge of half-length a at distance d fills 2 atan(a/d): what it takes
  // and hides is that sector less the triangle before it.
  const double a = 2, d = 2, w = 0.5, r = 6;
  const Site site =
      SiteBuilder().tree("T1", {0, 0}, 0.5).trench("W1", {{-a, d + w / 2}, {a, d + w / 2}}, w, 1);
  const ZoneLoss loss = loss_of(circle_zone({0, 0}, r), site);
  const double taken = 2 * a * w;
  EXPECT_NEAR(loss.affected.square_metres(), taken, 1e-9);
  EXPECT_NEAR(loss.beyond->square_metres(), r * r * std::atan(a / d) - a * d - taken, 1e-9);
}

TEST(ZoneLoss, ATrenchAllRoundHidesEverythingOutside) {
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 0.5)
                        .trench("W1", {{-2, -2}, {2, -2}, {2, 2}, {-2, 2}, {-2, -2}}, 0.4, 1);
  const ZoneLoss loss = loss_of(circle_zone({0, 0}, 6), site);
  EXPECT_NEAR(loss.affected.square_metres(), 4.4 * 4.4 - 3.6 * 3.6, 1e-9);
  EXPECT_NEAR(loss.beyond->square_metres(), 36 * std::numbers::pi - 4.4 * 4.4, 1e-9);
}

TEST(ZoneLoss, AStemInsideAPitLosesAllRoundIt) {
  const Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).pit("W1", rectangle(-1, -1, 2, 2), 1);
  const ZoneLoss loss = loss_of(circle_zone({0, 0}, 6), site);
  EXPECT_NEAR(loss.affected.square_metres(), 9, 1e-9);
  EXPECT_NEAR(loss.beyond->square_metres(), 36 * std::numbers::pi - 9, 1e-9);
  EXPECT_EQ(loss.by_work.front().nearest, Length());
}

// ---- what counts --------------------------------------------------------------------------------

TEST(ZoneLoss, OverlappingWorksCountOnceTogetherAndFullyAlone) {
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 0.5)
                        .pit("W1", rectangle(1, 1, 3, 2), 1)
                        .pit("W2", rectangle(2, 1, 4, 2), 1);
  const ZoneLoss loss = loss_of(circle_zone({0, 0}, 6), site);
  EXPECT_NEAR(loss.affected.square_metres(), 3, 1e-9);
  ASSERT_EQ(loss.by_work.size(), 2u);
  EXPECT_NEAR(loss.by_work[0].affected.square_metres(), 2, 1e-9);
  EXPECT_NEAR(loss.by_work[1].affected.square_metres(), 2, 1e-9);
}

TEST(ZoneLoss, WorkingRoomIsAffectedAndTheFootprintIsGivenApart) {
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 0.5)
                        .trench("W1", {{-50, 4}, {50, 4}}, 0.6, 1)
                        .with_work([](Work& work) { work.working_room = metres(1); });
  const ZoneLoss loss = loss_of(circle_zone({0, 0}, 6), site);
  EXPECT_NEAR(loss.affected.square_metres(), segment(6, 2.7) - segment(6, 5.3), 1e-9);
  EXPECT_NEAR(loss.footprint.square_metres(), segment(6, 3.7) - segment(6, 4.3), 1e-9);
}

TEST(ZoneLoss, ExistingWorksAreListedButNoPartOfTheShare) {
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 0.5)
                        .pit("W1", rectangle(1, 1, 3, 2), 1)
                        .with_work([](Work& work) { work.state = WorkState::existing; })
                        .pit("W2", rectangle(2, 1, 4, 2), 1);
  const ZoneLoss loss = loss_of(circle_zone({0, 0}, 6), site);
  EXPECT_NEAR(loss.affected.square_metres(), 2, 1e-9);
  EXPECT_NEAR(loss.existing.square_metres(), 2, 1e-9);
  ASSERT_EQ(loss.by_work.size(), 2u);
  EXPECT_TRUE(loss.by_work[0].existing);
  EXPECT_FALSE(loss.by_work[1].existing);
}

TEST(ZoneLoss, ApprovedWorksCountLikeProposedOnes) {
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 0.5)
                        .pit("W1", rectangle(1, 1, 3, 2), 1)
                        .with_work([](Work& work) { work.state = WorkState::approved; });
  EXPECT_NEAR(loss_of(circle_zone({0, 0}, 6), site).affected.square_metres(), 2, 1e-9);
}

TEST(ZoneLoss, ExistingPavingAndBuildingsAreSurfacedToday) {
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 0.5)
                        .paving("W1", rectangle(1, 1, 3, 2))
                        .with_work([](Work& work) { work.state = WorkState::existing; })
                        .building("B1", rectangle(-3, -2, -1, -1))
                        .surface("S1", rectangle(2, 1, 4, 2));
  const ZoneLoss loss = loss_of(circle_zone({0, 0}, 6), site);
  EXPECT_NEAR(loss.unsurfaced.square_metres(), 36 * std::numbers::pi - 3 - 2, 1e-9);
}

TEST(ZoneLoss, NewSurfacingCountsOnlyGroundThatIsBareToday) {
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 0.5)
                        .paving("W1", rectangle(1, 1, 4, 2))
                        .surface("S1", rectangle(0, 0, 2, 3));
  EXPECT_NEAR(loss_of(circle_zone({0, 0}, 6), site).new_surfacing.square_metres(), 2, 1e-9);
}

TEST(ZoneLoss, ABoreCountsWithItsPitsOnly) {
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 0.5)
                        .area("W1", WorkKind::bore, {}, 1.2)
                        .with_work([](Work& work) {
                          work.shape.lines = {{{-20, 0}, {20, 0}}};
                          work.bore_pits = rectangle(3, -1, 4, 1);
                        });
  const ZoneLoss loss = loss_of(circle_zone({0, 0}, 6), site);
  EXPECT_NEAR(loss.affected.square_metres(), 2, 1e-9);
}

TEST(ZoneLoss, PressingWorksHideNothing) {
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 0.5)
                        .area("W1", WorkKind::traffic, rectangle(-50, 3, 50, 4), 0);
  EXPECT_EQ(loss_of(circle_zone({0, 0}, 6), site).beyond.value(), Area());
}

TEST(ZoneLoss, AWorkThatOnlyTouchesTheZoneIsNotIn) {
  const Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).pit("W1", ground_north_of(6), 1);
  EXPECT_TRUE(loss_of(circle_zone({0, 0}, 6), site).by_work.empty());
}

TEST(ZoneLoss, AWorkWithoutShapeTakesNothing) {
  const Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).pit("W1", {}, 1);
  EXPECT_EQ(loss_of(circle_zone({0, 0}, 6), site).share, 0);
}

TEST(ZoneLoss, AnOutlineIsOverlaidAsItIs) {
  const Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).pit("W1", rectangle(1, -9, 9, 9), 1);
  const ZoneLoss loss = loss_of(outline_zone({0, 0}, rectangle(-2, -2, 2, 2), 16), site);
  EXPECT_NEAR(loss.affected.square_metres(), 4, 1e-9);
  EXPECT_NEAR(loss.share, 0.25, 1e-12);
  EXPECT_NEAR(loss.by_work.front().nearest.metres(), 1, 1e-12);
}

// ---- properties on random sites -----------------------------------------------------------------

struct Scene {
  Site site;
  Zone zone;
};

Scene random_scene() {
  const auto seed = *rc::gen::arbitrary<std::uint32_t>();
  const int works = *rc::gen::inRange(1, 9);
  RC_LOG() << "seed " << seed << ", works " << works << '\n';
  Site site = random_site(seed, 1, works, 20);
  const Point stem{10, 10};
  site.trees.front().position->at = stem;
  return {std::move(site), circle_zone(stem, *rc::gen::inRange(10, 120) / 10.0)};
}

RC_GTEST_PROP(ZoneLossProperty, NothingLostIsBelowZeroOrAboveTheZone, ()) {
  const Scene s = random_scene();
  const ZoneLoss loss = loss_of(s.zone, s.site);
  RC_ASSERT(loss.share >= 0 && loss.share <= 1);
  for (const Area area : {loss.affected, loss.footprint, *loss.beyond, loss.affected + *loss.beyond,
                          loss.unsurfaced, loss.new_surfacing}) {
    RC_ASSERT(area >= Area());
    RC_ASSERT(area <= s.zone.area * (1 + 1e-9));
  }
}

RC_GTEST_PROP(ZoneLossProperty, AddingAWorkNeverReducesALoss, ()) {
  const Scene s = random_scene();
  Site fewer = s.site;
  fewer.works.pop_back();
  const ZoneLoss less = loss_of(s.zone, fewer), more = loss_of(s.zone, s.site);
  RC_ASSERT(more.affected >= less.affected - s.zone.area * 1e-9);
  RC_ASSERT(more.affected + *more.beyond >= less.affected + *less.beyond - s.zone.area * 1e-9);
}

RC_GTEST_PROP(ZoneLossProperty, WideningATrenchNeverReducesALoss, ()) {
  const Scene s = random_scene();
  Site wider = s.site;
  for (Work& work : wider.works) {
    if (work.width) work.width->value *= 1.5;
    if (work.working_room) work.working_room->value += 0.25;
  }
  RC_ASSERT(loss_of(s.zone, wider).affected >=
            loss_of(s.zone, s.site).affected - s.zone.area * 1e-9);
}

RC_GTEST_PROP(ZoneLossProperty, PartsAddUpToAtLeastTheUnion, ()) {
  const Scene s = random_scene();
  const ZoneLoss loss = loss_of(s.zone, s.site);
  Area sum, largest;
  for (const auto& by : loss.by_work) {
    sum += by.affected;
    largest = std::max(largest, by.affected);
  }
  RC_ASSERT(sum >= loss.affected - s.zone.area * 1e-9);
  RC_ASSERT(loss.affected >= largest - s.zone.area * 1e-9);
}

RC_GTEST_PROP(ZoneLossProperty, WorksApartFromEachOtherAddUpExactly, ()) {
  Scene s = random_scene();
  double shift = 0;  // apart: one work to a strip, strips 100 m apart, the zone spans none whole
  for (Work& work : s.site.works) {
    work.working_room.reset();
    move_shape(work.shape, [&](Point p) { return Point{p.x + shift, p.y}; });
    shift += 100;
  }
  const Zone wide = circle_zone(s.zone.centre, 1000);
  const ZoneLoss loss = loss_of(wide, s.site);
  Area sum;
  for (const auto& by : loss.by_work) sum += by.affected;
  RC_ASSERT(std::abs((sum - loss.affected) / loss.affected) < 1e-9);
}

void same(const ZoneLoss& a, const ZoneLoss& b, Area zone, double tolerance) {
  const auto close = [&](Area x, Area y) { return std::abs((x - y) / zone) < tolerance; };
  RC_ASSERT(close(a.affected, b.affected));
  RC_ASSERT(close(a.footprint, b.footprint));
  RC_ASSERT(close(*a.beyond, *b.beyond));
  RC_ASSERT(close(a.unsurfaced, b.unsurfaced));
  RC_ASSERT(close(a.new_surfacing, b.new_surfacing));
  RC_ASSERT(a.by_work.size() == b.by_work.size());
  for (std::size_t i = 0; i < a.by_work.size(); ++i) {
    RC_ASSERT(close(a.by_work[i].affected, b.by_work[i].affected));
    RC_ASSERT(std::abs((a.by_work[i].nearest - b.by_work[i].nearest).metres()) < 1e-6);
  }
}

RC_GTEST_PROP(ZoneLossProperty, MovingTheSiteAMillionMetresChangesNothing, ()) {
  const Scene s = random_scene();
  Zone zone = s.zone;
  zone.centre = {zone.centre.x + 532124.0, zone.centre.y + 5181232.0};
  same(loss_of(s.zone, s.site), loss_of(zone, shifted(s.site, 532124.0, 5181232.0)), zone.area,
       1e-7);
}

RC_GTEST_PROP(ZoneLossProperty, TurningTheSiteChangesNothing, ()) {
  const Scene s = random_scene();
  const int degrees = *rc::gen::inRange(0, 360);
  same(loss_of(s.zone, s.site), loss_of(s.zone, turned(s.site, degrees, s.zone.centre)),
       s.zone.area, 1e-8);
}

RC_GTEST_PROP(ZoneLossProperty, TheOrderOfCornersChangesNothing, ()) {
  const Scene s = random_scene();
  same(loss_of(s.zone, s.site), loss_of(s.zone, redrawn(s.site)), s.zone.area, 1e-9);
}

RC_GTEST_PROP(ZoneLossProperty, TheFastPathEqualsTheSlowOne, ()) {
  const auto seed = *rc::gen::arbitrary<std::uint32_t>();
  RC_LOG() << "seed " << seed << '\n';
  const Site site = random_site(seed, 2, 15, 40);
  const WorkMap map(site);
  std::vector<MultiPolygon> all;
  for (const Work& work : site.works) all.push_back(footprint(work, true));
  const MultiPolygon together = union_of(all);
  for (const Tree& tree : site.trees) {
    const Zone zone = circle_zone(tree.position->at, 6);
    const Area slow = common_area({zone.centre, zone.radius}, together);
    RC_ASSERT(std::abs((zone_loss(zone, map).affected - slow) / zone.area) < 1e-10);
    const Area facets =
        area_of(intersection_of({polygon_of({zone.centre, zone.radius}, 1024)}, together));
    RC_ASSERT(std::abs((slow - facets) / zone.area) < 1e-4);
  }
}

RC_GTEST_PROP(ZoneLossProperty, TheIndexFindsWhatALoopFinds, ()) {
  const auto seed = *rc::gen::arbitrary<std::uint32_t>();
  RC_LOG() << "seed " << seed << '\n';
  const Site site = random_site(seed, 1, 60, 100);
  const WorkMap map(site);
  const Point at = site.trees.front().position->at;
  std::vector<std::size_t> slow;
  for (std::size_t i = 0; i < map.entries().size(); ++i) {
    if (distance_between(at, map.entries()[i].with_room) <= Length::metres(15)) slow.push_back(i);
  }
  RC_ASSERT(map.near(at, Length::metres(15)) == slow);
}

}  // namespace
}  // namespace rootstead
