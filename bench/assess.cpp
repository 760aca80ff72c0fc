// How long an assessment takes, and where the time goes, on seeded synthetic sites: 60, 500 and
// 5,000 trees with 200 works. Wall time by thread count; shares are of the time summed over
// threads.   bench_assess [THREADS]
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <iostream>

#include "engine/assess/assess.hpp"
#include "io/tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

constexpr int kWorks = 200;
constexpr double kTreeSpacing = 9;  // m, as in a planted street or park
constexpr std::uint64_t kSeed = 20261125;

double seconds() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

void run(int trees, int threads, const Tables& tables) {
  const double side = kTreeSpacing * std::sqrt(static_cast<double>(trees));
  Site site = test::random_site(kSeed, trees, kWorks, side);
  site.settings.rules = {"bs5837-2012", "as4970-2009"};
  AssessOptions options;
  options.threads = threads;
  options.clock = seconds;
  const double start = seconds();
  const auto assessment = assess(site, tables, options);
  const double wall = seconds() - start;
  if (!assessment.ok()) {
    std::cerr << assessment.error().sentence() << '\n';
    std::exit(1);
  }
  int affected = 0;
  for (const TreeAssessment& tree : assessment->trees) affected += tree.affected() ? 1 : 0;
  const StageTimes& t = assessment->times;
  const double all = t.works + t.zones + t.losses + t.roots + t.anchorage + t.verdicts;
  const auto share = [&](double stage) { return 100 * stage / all; };
  std::printf("%6d %6d %8d %8.3f %8.3f | %6.1f %6.1f %6.1f %6.1f %6.1f %6.1f\n", trees, kWorks,
              affected, wall, 1000 * wall / trees, share(t.works), share(t.zones), share(t.losses),
              share(t.roots), share(t.anchorage), share(t.verdicts));
}

}  // namespace
}  // namespace rootstead

int main(int argc, char** argv) {
  const int threads = argc > 1 ? std::atoi(argv[1]) : 1;
  const auto tables = rootstead::io::load_tables();
  if (!tables.ok()) {
    std::cerr << tables.error().sentence() << '\n';
    return 1;
  }
  std::printf("threads %d, 1,000 draws, two rules; shares of the time in %%\n", threads);
  std::printf("%6s %6s %8s %8s %8s | %6s %6s %6s %6s %6s %6s\n", "trees", "works", "affected",
              "wall s", "ms/tree", "works", "zones", "losses", "roots", "anchor", "verdict");
  for (const int trees : {60, 500, 5000}) rootstead::run(trees, threads, *tables);
  return 0;
}
