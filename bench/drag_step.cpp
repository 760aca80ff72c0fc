// What one step of a drag costs the server: Desk::try_shape on invented sites, beside a full
// assessment in the same run.   bench_drag_step [PROJECT.gpkg]
//   bench_drag_step --invent FILE.gpkg TREES WORKS   leaves such a site there, for
//   web/bench/drag.mjs
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <iostream>

#include "io/tables.hpp"
#include "serve/desk.hpp"
#include "tests/support/site_builder.hpp"
#include "tests/support/temp_folder.hpp"

namespace rootstead {
namespace {

constexpr std::uint64_t kSeed = 20261127;
constexpr double kTreeSpacing = 9;  // m, as in a planted street or park
constexpr double kEast = 500000, kNorth = 5400000;
constexpr std::size_t kWorksDragged = 10;
constexpr int kSteps = 10;         // of one drag
constexpr double kStepWide = 0.4;  // m, along and across

template <class T>
T sound(Result<T> result) {
  if (result) return std::move(result).value();
  std::cerr << result.error().sentence() << '\n';
  std::exit(1);
}

// Of this process, summed over its threads: whatever else the machine does is not ours.
double seconds() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

// What the page waits for.
double waited() {
  using std::chrono::steady_clock;
  return std::chrono::duration<double>(steady_clock::now().time_since_epoch()).count();
}

struct StepTimes {
  std::vector<double> of_cores, waited;  // ms, rising
};

double part(const std::vector<double>& times, double share) {
  const auto place = static_cast<std::size_t>(share * static_cast<double>(times.size()));
  return times[std::min(times.size() - 1, place)];
}

io::Project invented(const std::filesystem::path& file, int trees, int works) {
  const double side = kTreeSpacing * std::sqrt(static_cast<double>(trees));
  const Site site = test::moved(test::random_site(kSeed, trees, works, side), [](Point at) {
    return Point{at.x + kEast, at.y + kNorth};
  });
  ProjectSettings settings;
  settings.title = "Invented";
  settings.demo = true;
  settings.rules = {"bs5837-2012", "as4970-2009"};
  io::Import import;
  import.source = "invented";
  import.trees = site.trees;
  import.works = site.works;
  io::Project project =
      sound(io::Project::create(file, sound(io::reference_system("EPSG:32632")), settings));
  sound(project.add(import, "2026-05-01T09:00:00Z"));
  return project;
}

double full_assessment(const Site& site, const Tables& tables, int draws) {
  AssessOptions options;
  options.simulation.draws = draws;
  const double start = seconds();
  sound(assess(site, tables, options));
  return seconds() - start;
}

// Works spread over the whole list, each dragged some metres and left.
StepTimes drag(serve::Desk& desk, const Site& site) {
  StepTimes times;
  const std::size_t stride = std::max<std::size_t>(1, site.works.size() / kWorksDragged);
  for (std::size_t i = 0; i < site.works.size(); i += stride) {
    const Work& work = site.works[i];
    for (int step = 1; step <= kSteps; ++step) {
      Shape shape = work.shape;
      test::move_shape(shape, [&](Point at) {
        return Point{at.x + kStepWide * step, at.y + kStepWide * step};
      });
      const double core = seconds(), clock = waited();
      const auto answer = desk.try_shape(work.id, shape);
      if (!answer) continue;
      times.of_cores.push_back(1000 * (seconds() - core));
      times.waited.push_back(1000 * (waited() - clock));
    }
  }
  std::sort(times.of_cores.begin(), times.of_cores.end());
  std::sort(times.waited.begin(), times.waited.end());
  return times;
}

void run(const char* name, io::Project project, const Tables& tables) {
  const Site read = sound(project.read());
  const auto with_levels = with_level_works(read, tables);
  const Site site = with_levels ? *with_levels : read;
  const RootSimulation simulation;
  const double full = full_assessment(site, tables, simulation.draws);
  const double rough = full_assessment(site, tables, serve::kTrialDraws);
  serve::Desk desk = sound(serve::Desk::open(std::move(project), site, tables, simulation));
  const StepTimes times = drag(desk, site);
  if (times.waited.empty()) return;
  const double p95 = part(times.of_cores, 0.95);
  std::printf("%-7s %6zu %6zu %6zu %8.1f %8.1f %8.1f %8.1f %8.1f %9.0f %9.0f %9.1f\n", name,
              site.trees.size(), site.works.size(), times.waited.size(), part(times.waited, 0.5),
              part(times.waited, 0.95), times.waited.back(), part(times.of_cores, 0.5), p95,
              1000 * full, 1000 * rough, 1000 * full / p95);
}

}  // namespace
}  // namespace rootstead

int main(int argc, char** argv) {
  using namespace rootstead;
  if (argc == 5) {
    invented(argv[2], std::atoi(argv[3]), std::atoi(argv[4]));
    return 0;
  }
  const Tables tables = sound(io::load_tables());
  const test::TempFolder folder;
  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  std::printf(
      "milliseconds of one step: waited for, and of a core, summed over threads; full: assess() "
      "with 1,000 draws, rough: with %d, both of a core\n",
      serve::kTrialDraws);
  std::printf("%-7s %6s %6s %6s %8s %8s %8s %8s %8s %9s %9s %9s\n", "site", "trees", "works",
              "steps", "p50", "p95", "most", "p50 core", "p95 core", "full", "rough", "full/p95");
  if (argc > 1) {
    run("given", sound(io::Project::open(argv[1])), tables);
    return 0;
  }
  run("small", invented(folder / "small.gpkg", 46, 12), tables);
  run("large", invented(folder / "large.gpkg", 500, 200), tables);
  return 0;
}
