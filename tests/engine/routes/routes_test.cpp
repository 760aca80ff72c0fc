// Routes over sites with trees: what is told of them comes from the whole model.
#include "engine/routes/routes.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/routes/methods.hpp"
#include "tests/support/loaded_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using namespace rootstead::test;

constexpr double kWithin = 0.02;

RouteWishes quick() {
  RouteWishes wishes;
  wishes.how = {1, 0};
  wishes.cell = Length::metres(0.6);
  return wishes;
}

RoutePrices shipped() {
  return route_prices(loaded_tables());
}

RouteAnswer routes(const Site& site, const RouteWishes& wishes = quick(),
                   const RoutePrices& prices = shipped()) {
  auto answer = least_loss_routes(site, "W1", loaded_tables(), prices, wishes);
  if (!answer) ADD_FAILURE() << answer.error().sentence();
  return std::move(answer).value();
}

// A drain past one large tree, drawn through its roots.
SiteBuilder past_a_tree() {
  return SiteBuilder().tree("T1", {20, 2}, 0.6).trench("W1", {{0, 0}, {40, 0}}, 0.6, 1.2);
}

double best(const RouteAnswer& answer) {
  return answer.routes.empty() ? answer.drawn.appraisal.total()
                               : answer.routes.front().appraisal.total();
}

TEST(Routes, GoRoundATreeAndAreNeverWorseThanDrawn) {
  const RouteAnswer answer = routes(past_a_tree());
  ASSERT_GE(answer.routes.size(), 3U);
  for (const Route& route : answer.routes)
    EXPECT_LE(route.appraisal.total(), answer.drawn.appraisal.total());
  for (std::size_t i = 1; i < answer.routes.size(); ++i) {
    EXPECT_GE(answer.routes[i].appraisal.total(), answer.routes[i - 1].appraisal.total());
    EXPECT_GE(answer.routes[i].apart, answer.apart_share);
  }
  EXPECT_LT(answer.routes.front().appraisal.roots_lost, answer.drawn.appraisal.roots_lost);
}

TEST(Routes, WithoutTreesAreStraightAndCostWhatTheyMeasure) {
  Site site = past_a_tree();
  site.trees.front().position->at = {20, 500};
  const RouteAnswer answer = routes(site);
  EXPECT_NEAR(best(answer), 40 * shipped().open, 1e-6);
  EXPECT_TRUE(answer.drawn.appraisal.trees.empty());
}

TEST(Routes, TellWhatAssessSays) {
  const RouteAnswer answer = routes(past_a_tree());
  Site site = past_a_tree();
  AssessOptions options;
  options.simulation = {1, 0};
  const auto drawn = assess(site, loaded_tables(), options);
  ASSERT_EQ(answer.drawn.appraisal.trees.size(), 1U);
  EXPECT_DOUBLE_EQ(answer.drawn.appraisal.trees.front().loss.best,
                   drawn->trees.front().roots->all.best);
  EXPECT_DOUBLE_EQ(answer.drawn.appraisal.trees.front().kept->best,
                   drawn->trees.front().anchorage->kept.best);
  for (const Route& route : answer.routes) {
    if (route.by_method[1] > 0) continue;  // hand digging is credited
    site.works = route.design.works;
    const auto again = assess(site, loaded_tables(), options);
    const double loss = again->trees.front().roots->all.best;
    EXPECT_NEAR(route.appraisal.roots_lost, loss, 1e-12) << route.name;
  }
}

TEST(Routes, MidwayBetweenTwoEqualTreesIsFoundAgain) {
  // The best line between two equal trees is the straight one midway, by symmetry; drawn off it.
  const Site site = SiteBuilder()
                        .tree("T1", {20, 7}, 0.4)
                        .tree("T2", {20, -7}, 0.4)
                        .trench("W1", {{0, 0}, {20, 3}, {40, 0}}, 0.5, 1.0);
  RouteWishes wishes = quick();
  wishes.margin = Length::metres(4);  // no way round
  wishes.allowed = {true, false, false};
  const RouteAnswer answer = routes(site, wishes);
  Site midway = site;
  midway.works.front().shape.lines = {{{0, 0}, {40, 0}}};
  const double known = routes(midway, wishes).drawn.appraisal.total();
  EXPECT_LE(best(answer), known * (1 + kWithin));
}

TEST(Routes, BoreWhereAWallOfTreesLeavesNoOtherWay) {
  SiteBuilder builder;
  for (int i = -3; i <= 3; ++i) builder.tree("T" + std::to_string(i + 4), {20, 5.0 * i}, 0.6);
  builder.trench("W1", {{0, 2.5}, {40, 2.5}}, 0.6, 1.5);
  RouteWishes wishes = quick();
  wishes.margin = Length::metres(6);
  const RouteAnswer answer = routes(builder, wishes);
  ASSERT_FALSE(answer.routes.empty());
  EXPECT_GT(answer.routes.front().by_method[2], 5);
  RoutePrices dear = shipped();
  dear.bore = 20000;
  EXPECT_EQ(routes(builder, wishes, dear).routes.front().by_method[2], 0);
}

TEST(Routes, KeepFixedPointsCorridorAndAvoidedGround) {
  RouteWishes wishes = quick();
  wishes.through = {{20, -9}};
  wishes.avoid = rectangle(8, -3, 12, 30);
  wishes.within = rectangle(-1, -12, 41, 12);
  const RouteAnswer answer = routes(past_a_tree(), wishes);
  ASSERT_FALSE(answer.routes.empty());
  for (const Route& route : answer.routes) {
    const Line line = line_of(route.way);
    EXPECT_NEAR(distance_between(Point{20, -9}, line).metres(), 0, 1e-9);
    for (double t = 0; t < 1; t += 0.01) {
      for (std::size_t i = 1; i < line.size(); ++i) {
        const Point at{line[i - 1].x + t * (line[i].x - line[i - 1].x),
                       line[i - 1].y + t * (line[i].y - line[i - 1].y)};
        EXPECT_FALSE(at.x > 8.01 && at.x < 11.99 && at.y > -2.99) << at.x << ' ' << at.y;
        EXPECT_LE(std::abs(at.y), 12);
      }
    }
  }
}

TEST(Routes, KeepTheLeastRadius) {
  RouteWishes wishes = quick();
  wishes.least_radius = Length::metres(5);
  const RouteAnswer answer = routes(past_a_tree(), wishes);
  ASSERT_FALSE(answer.routes.empty());
  EXPECT_TRUE(answer.routes.front().radius_kept);
}

TEST(Routes, AddingATreeNeverLowersTheBestCost) {
  // Within what the search promises: fixed seeds.
  RouteWishes wishes = quick();
  wishes.cell = Length::metres(1);
  wishes.margin = Length::metres(10);
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    RandomStream random(seed, "routes");
    SiteBuilder builder;
    builder.trench("W1", {{0, 0}, {30, 0}}, 0.6, 1.2);
    double before = 0;
    for (int i = 0; i < 3; ++i) {
      builder.tree("T" + std::to_string(i), {random.uniform(3, 27), random.uniform(-8, 8)},
                   random.uniform(0.2, 0.7));
      const double now = best(routes(builder, wishes));
      EXPECT_GE(now, before * (1 - kWithin)) << "seed " << seed << ", tree " << i;
      before = now;
    }
  }
}

TEST(Routes, SayWhatCannotBeDone) {
  Site site = past_a_tree();
  const RouteWishes wishes = quick();
  const auto code = [&](const std::string& id) {
    return least_loss_routes(site, id, loaded_tables(), shipped(), wishes).error().code;
  };
  EXPECT_EQ(code("W9"), Code::unknown_name);
  site.works.front().shape.lines.push_back({{0, 1}, {1, 1}});
  EXPECT_EQ(code("W1"), Code::outside_rule_domain);
  site.works.front().shape.lines.pop_back();
  site.works.front().kind = WorkKind::fence_posts;
  EXPECT_EQ(code("W1"), Code::outside_rule_domain);
  site.works.front().kind = WorkKind::trench;
  RouteWishes shut = wishes;
  shut.avoid = rectangle(15, -400, 16, 400);
  EXPECT_EQ(least_loss_routes(site, "W1", loaded_tables(), shipped(), shut).error().code,
            Code::invalid_geometry);
}

TEST(Routes, PricesAreTheUsers) {
  RoutePrices prices = shipped();
  EXPECT_TRUE(set_price(prices, "open=95.5"));
  EXPECT_DOUBLE_EQ(prices.open, 95.5);
  EXPECT_EQ(prices.own, std::vector<std::string>{"open"});
  EXPECT_EQ(set_price(prices, "opne=1").error().code, Code::unknown_name);
  EXPECT_EQ(set_price(prices, "open=-1").error().code, Code::value_invalid);
  EXPECT_EQ(set_price(prices, "open").error().code, Code::value_invalid);
}

TEST(Methods, OfALineAreLaidSideBySide) {
  const auto answer = methods_side_by_side(past_a_tree(), "W1", loaded_tables(), shipped(), {1, 0});
  ASSERT_TRUE(answer);
  ASSERT_EQ(answer->methods.size(), 5U);
  const auto lost = [&](int i) {
    return answer->methods[static_cast<std::size_t>(i)].appraisal.roots_lost;
  };
  for (const MethodOutcome& one : answer->methods)
    EXPECT_TRUE(one.made.applies) << one.made.why_not;
  EXPECT_TRUE(answer->methods[0].made.as_drawn);
  EXPECT_GT(lost(0), lost(1));  // less of the same is severed
  EXPECT_GT(lost(0), lost(2));
  EXPECT_GT(lost(0), lost(3));
  EXPECT_DOUBLE_EQ(answer->methods[0].appraisal.building, 40 * shipped().open);
}

TEST(Methods, OfAnAreaLeaveOutTheBore) {
  Site site = SiteBuilder().tree("T1", {20, 12}, 0.6).paving("W1", rectangle(10, 0, 30, 8));
  const auto answer = methods_side_by_side(site, "W1", loaded_tables(), shipped(), {1, 0});
  ASSERT_TRUE(answer);
  EXPECT_FALSE(answer->methods[2].made.applies);
  EXPECT_FALSE(answer->methods[2].made.why_not.empty());
  EXPECT_GT(answer->methods[0].appraisal.roots_lost, answer->methods[4].appraisal.roots_lost);
  EXPECT_DOUBLE_EQ(answer->methods[4].appraisal.building, 160 * shipped().surface);
}

}  // namespace
}  // namespace rootstead
