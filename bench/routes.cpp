// Least-loss routes over a site of 200 by 200 m with cells of 0.25 m: the cost field of sixty
// trees, one search by one method against skimage.graph.route_through_array on the same costs in
// the same run, one with all three methods, and a whole answer. Processor time, best of several
// rounds.
//
//   cmake --preset release -DROOTSTEAD_BENCH=ON
//   ninja -C build/release bench_routes && build/release/bin/bench_routes
#include "engine/routes/routes.hpp"

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <fstream>

#include "engine/base/random.hpp"
#include "engine/geom/measure.hpp"
#include "io/project.hpp"
#include "io/tables.hpp"

namespace {

using namespace rootstead;

constexpr double kSide = 200, kCell = 0.25;
constexpr int kCells = static_cast<int>(kSide / kCell), kTrees = 60, kRounds = 3;

double now() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

Site park() {
  RandomStream random(1, "routes bench");
  Site site;
  for (int i = 0; i < kTrees; ++i) {
    Tree tree;
    tree.id = "T" + std::to_string(i + 1);
    tree.form = GrowthForm::broadleaf;
    tree.stems = {{Stem::Read::diameter, {random.uniform(0.2, 0.9), LengthUnit::metre}, {}}};
    tree.position = Position{{random.uniform(5, 195), random.uniform(5, 195)}, "bench", {}};
    site.trees.push_back(tree);
  }
  Work drain;
  drain.id = "W1";
  drain.shape.lines = {{{0.4, 100.1}, {199.6, 100.1}}};
  drain.width = {0.6, LengthUnit::metre};
  drain.depth = {1.2, LengthUnit::metre};
  site.works = {drain};
  return site;
}

// The mean over all directions, as the peer knows only one cost a cell.
std::vector<double> even_costs(const CostField& field) {
  std::vector<double> costs;
  for (std::size_t cell = 0; cell < field.grid().count(); ++cell) {
    double sum = 0;
    for (int axis = 0; axis < kAxes; ++axis)
      sum += static_cast<double>(field.along(RouteMethod::open, cell, axis));
    costs.push_back(sum / kAxes);
  }
  return costs;
}

bool peer(const std::vector<double>& costs, double& seconds, double& cost) {
  const auto folder = std::filesystem::temp_directory_path() /
                      ("rootstead-bench-routes-" + std::to_string(getpid()));
  std::filesystem::create_directory(folder);
  std::ofstream(folder / "costs", std::ios::binary)
      .write(reinterpret_cast<const char*>(costs.data()),
             static_cast<std::streamsize>(costs.size() * sizeof(double)));
  const std::string command = "/usr/bin/python3 " ROOTSTEAD_BENCH_FOLDER "/routes_peer.py " +
                              (folder / "costs").string() + " " + std::to_string(kCells) + " " +
                              std::to_string(kRounds);
  std::FILE* const output = popen(command.c_str(), "r");
  const bool read = output != nullptr && std::fscanf(output, "%lf %lf", &seconds, &cost) == 2;
  const bool ended = output != nullptr && pclose(output) == 0;
  std::filesystem::remove_all(folder);
  return read && ended;
}

// A work of a project: what is found, and how long it takes.
int of_project(const char* file, const char* work, const Tables& tables) {
  const auto project = io::Project::open(file);
  if (!project) return std::printf("%s\n", project.error().sentence().c_str()), 1;
  const auto site = project->read();
  if (!site) return std::printf("%s\n", site.error().sentence().c_str()), 1;
  const double started = now();
  const auto answer = least_loss_routes(*site, work, tables, route_prices(tables), {});
  if (!answer) return std::printf("%s\n", answer.error().sentence().c_str()), 1;
  const auto print = [](const Route& route) {
    const Appraisal& a = route.appraisal;
    std::printf(
        "%-9s %6.1f m (open %.1f, hand %.1f, bore %.1f), %d bends, %d pits, apart %.0f %%: "
        "building %.0f, in sum %.0f; fine roots %.1f %%, anchorage %.1f %% of one tree's\n",
        route.name.c_str(), a.length, route.by_method[0], route.by_method[1], route.by_method[2],
        route.bends, route.pits, 100 * route.apart, a.building, a.total(), 100 * a.roots_lost,
        100 * a.hold_lost);
  };
  print(answer->drawn);
  for (const Route& route : answer->routes) print(route);
  std::printf("%d ways in %.1f s of processor time, cells of %.2f m\n", answer->looked_at,
              now() - started, answer->cell.metres());
  return 0;
}

}  // namespace

// Without arguments the comparison; with a project file and a work the routes of that work.
int main(int argc, char** argv) {
  const auto tables = io::load_tables();
  if (!tables.ok()) return 1;
  if (argc == 3) return of_project(argv[1], argv[2], *tables);
  const Site site = park();
  const RoutePrices prices = route_prices(*tables);
  const LineSize size = line_size_of(site.works.front(), *tables);
  const PlanGrid grid{{0, 0}, kCell, kCells, kCells};
  double started = now();
  const CostField field(grid, site, *tables, prices, size, {});
  std::printf("%d x %d cells of %.2f m, %d trees: cost field in %.2f s\n", kCells, kCells, kCell,
              kTrees, now() - started);

  const std::vector<double> costs = even_costs(field);
  const std::vector<float> even(costs.begin(), costs.end());
  const std::vector<float> none(even.size(), kNoWay);
  const CostField plain(grid, even, none, none, prices);
  const Point from = grid.centre(1, kCells / 2), to = grid.centre(kCells - 2, kCells / 2);
  double best = HUGE_VAL, best_smooth = HUGE_VAL, cost = 0;
  for (int i = 0; i < kRounds; ++i) {
    started = now();
    const auto way = lattice_way(plain, from, to, {true, false, false});
    best = std::min(best, now() - started);
    started = now();
    const RouteWay smooth = smoothed(way->way, plain, {});
    best_smooth = std::min(best_smooth, now() - started);
    RoutePrices nothing = prices;
    nothing.bend = 0;
    cost = cost_of(smooth, CostField(grid, even, none, none, nothing), {});
  }
  std::printf("one method, cost the same in all directions: search %.2f s, smoothing %.2f s\n",
              best, best_smooth);
  double theirs = 0, their_cost = 0;
  if (peer(costs, theirs, their_cost))
    std::printf(
        "route_through_array %.2f s: %.1f times our search, %.1f times search and smoothing; its "
        "way costs %.1f %% more\n",
        theirs, theirs / best, theirs / (best + best_smooth),
        100 * (their_cost * kCell / cost - 1));
  else
    std::printf("no comparison: python3-skimage is not installed\n");

  started = now();
  const auto all = lattice_way(field, from, to, {true, true, true});
  const double search = now() - started;
  started = now();
  if (all) smoothed(all->way, field, {});
  std::printf("three methods, cost by direction: search %.2f s, smoothing %.2f s\n", search,
              now() - started);

  RouteWishes wishes;
  wishes.within = {{{{0, 0}, {kSide, 0}, {kSide, kSide}, {0, kSide}}, {}}};
  for (const double cell : {1.0, 0.5, kCell}) {
    wishes.cell = Length::metres(cell);
    started = now();
    const auto answer = least_loss_routes(site, "W1", *tables, prices, wishes);
    if (!answer) return 1;
    std::printf("whole answer, cells of %.2f m: %.1f s, %d ways assessed, best %.0f, drawn %.0f\n",
                cell, now() - started, answer->looked_at,
                answer->routes.empty() ? 0 : answer->routes.front().appraisal.total(),
                answer->drawn.appraisal.total());
  }
  return 0;
}
