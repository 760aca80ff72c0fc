// Full root assessment of 500 trees of 15 m extent on a 0.2 m grid, with 200 works and 40 barriers,
// 1,000 draws; beside it, in the same run, the field made anew for every draw (measured on a few
// trees and draws, scaled up). Then one work moved on the same site. Seconds of one core.
//   bench_roots [TREES]
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <string>

#include "engine/assess/live_assessment.hpp"
#include "engine/losses/losses.hpp"
#include "io/tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

constexpr int kWorks = 200, kBarriers = 40, kDraws = 1000;
constexpr double kTreeSpacing = 9, kDiameter = 0.75;  // m; the extent is then 15 m
constexpr double kExtents = 2;
constexpr std::uint64_t kSeed = 20261125;
constexpr int kSampledTrees = 5, kSampledDraws = 8;

// Of this process: everything runs on one thread, and whatever else the machine does is not ours.
double seconds() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

// Trees in rows as in a park; walls, kerbs and paved patches between them.
Site park(int trees) {
  const double side = kTreeSpacing * std::sqrt(static_cast<double>(trees));
  Site site = test::random_site(kSeed, trees, kWorks, side);
  for (Tree& tree : site.trees) {
    tree.stems.front().size = test::metres(kDiameter);
    tree.crown.reset();
  }
  RandomStream random(kSeed, "barriers");
  for (int i = 0; i < kBarriers; ++i) {
    const Point a{random.uniform(0, side), random.uniform(0, side)};
    if (i % 4 == 3) {
      Surface surface;
      surface.id = "P" + std::to_string(i);
      surface.area = {test::random_patch(random, a, 6, 6)};
      site.surfaces.push_back(surface);
      continue;
    }
    Barrier barrier;
    barrier.id = "B" + std::to_string(i);
    barrier.kind = i % 2 ? BarrierKind::wall : BarrierKind::kerb;
    barrier.depth = test::metres(i % 2 ? 0.9 : 0.4);
    barrier.shape.lines = {{a, {a.x + random.uniform(-25, 25), a.y + random.uniform(-25, 25)}}};
    site.barriers.push_back(barrier);
  }
  site.settings.rules = {"bs5837-2012"};
  return site;
}

std::vector<GroundTaking> takings_of(const Tree& tree, const RootModel& model,
                                     const WorkMap& works) {
  return takings_near(tree, model.likely_extent() * kExtents, works);
}

double assess_all(const Site& site, const Tables& tables, const WorkMap& works) {
  const double start = seconds();
  double sum = 0;
  for (const Tree& tree : site.trees) {
    const auto model = root_model(tree, site, tables);
    sum += (*model)->loss(takings_of(tree, **model, works), {kSeed, kDraws}).all.best;
  }
  const double taken = seconds() - start;
  std::printf("%zu trees, %d draws each: %.2f s, %.1f ms a tree; mean loss %.3f\n",
              site.trees.size(), kDraws, taken,
              1000 * taken / static_cast<double>(site.trees.size()),
              sum / static_cast<double>(site.trees.size()));
  return taken;
}

// One draw at a time, nothing kept: the ground, the ways and the field made anew.
double a_field_for_every_draw(const Site& site, const Tables& tables, const WorkMap& works) {
  const double start = seconds();
  const std::size_t step = site.trees.size() / kSampledTrees;
  for (std::size_t i = 0; i < kSampledTrees; ++i)
    for (std::uint64_t draw = 0; draw < kSampledDraws; ++draw) {
      const Tree& tree = site.trees[i * step];
      const auto model = root_model(tree, site, tables);
      (*model)->loss(takings_of(tree, **model, works), {kSeed + draw, 1});
    }
  const double each = (seconds() - start) / (kSampledTrees * kSampledDraws);
  const double all = each * kDraws * static_cast<double>(site.trees.size());
  std::printf("a field for every draw: %.1f ms each (%d trees, %d draws), so %.0f s for all\n",
              1000 * each, kSampledTrees, kSampledDraws, all);
  return all;
}

void move_a_work(const Site& site, const Tables& tables) {
  AssessOptions options;
  options.threads = 1;
  const double start = seconds();
  auto live = LiveAssessment::start(site, tables, options);
  const double whole = seconds() - start;
  const int moves = 10;
  std::size_t trees = 0;
  const double before = seconds();
  for (int i = 0; i < moves; ++i) {
    Work work = live->site().works[static_cast<std::size_t>(i * 17)];
    for (Line& line : work.shape.lines)
      for (Point& p : line) p.x += 0.5;
    for (Polygon& polygon : work.shape.areas)
      for (Point& p : polygon.outer) p.x += 0.5;
    trees += live->put(std::move(work)).size();
  }
  const double each = (seconds() - before) / moves;
  std::printf("whole site: %.2f s; a moved work: %.1f ms, %.1f trees in reach: 1/%.0f\n", whole,
              1000 * each, static_cast<double>(trees) / moves, whole / each);
}

}  // namespace
}  // namespace rootstead

int main(int argc, char** argv) {
  using namespace rootstead;
  const auto tables = io::load_tables();
  if (!tables.ok()) {
    std::cerr << tables.error().sentence() << '\n';
    return 1;
  }
  const Site site = park(argc > 1 ? std::atoi(argv[1]) : 500);
  const WorkMap works(site);
  const double ours = assess_all(site, *tables, works);
  const double anew = a_field_for_every_draw(site, *tables, works);
  std::printf("ratio: %.0f\n", anew / ours);
  move_a_work(site, *tables);
  return 0;
}
