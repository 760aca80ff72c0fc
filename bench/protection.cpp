// How long the protection plan and all advice take beside the assessment they come from, on seeded
// synthetic sites with 200 works. Time of the process, one thread.   bench_protection [TREES...]
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <string>
#include <vector>

#include "engine/rootstead.hpp"
#include "io/tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

constexpr int kWorks = 200;
constexpr double kTreeSpacing = 9;  // m, as in a planted street or park
constexpr std::uint64_t kSeed = 20261125;

template <class T>
T or_end(Result<T> result) {
  if (result) return std::move(result).value();
  std::cerr << result.error().sentence() << '\n';
  std::exit(1);
}

// Of this process, so that what else the machine does is not counted.
double seconds_since(std::clock_t start) {
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

void run(int trees, const Tables& tables) {
  const double side = kTreeSpacing * std::sqrt(static_cast<double>(trees));
  Site site = test::random_site(kSeed, trees, kWorks, side);
  site.settings.rules = {"bs5837-2012"};
  site.settings.date = "2026-05-01";
  AssessOptions options;
  options.threads = 1;
  auto start = std::clock();
  const Assessment assessment = or_end(assess(site, tables, options));
  const double assessed = seconds_since(start);
  start = std::clock();
  const ProtectionPlan plan = or_end(protection_plan(site, tables, assessment));
  const double planned = seconds_since(start);
  start = std::clock();
  const Advice advice = or_end(advise(site, tables, assessment));
  const double advised = seconds_since(start);
  std::printf("%6d %6d %9.2f %9.2f %9.2f | %8.2f %8.2f | %7zu %7zu\n", trees, kWorks, assessed,
              planned, advised, planned / assessed, advised / assessed, plan.fences.size(),
              advice.prescriptions().size());
}

}  // namespace
}  // namespace rootstead

int main(int argc, char** argv) {
  const auto tables = rootstead::io::load_tables();
  if (!tables.ok()) {
    std::cerr << tables.error().sentence() << '\n';
    return 1;
  }
  std::vector<int> sizes;
  for (int i = 1; i < argc; ++i) sizes.push_back(std::atoi(argv[i]));
  if (sizes.empty()) sizes = {60, 500};
  std::printf("%6s %6s %9s %9s %9s | %17s | %7s %7s\n", "trees", "works", "assess s", "plan s",
              "advise s", "ratio to assess", "fences", "to do");
  for (const int trees : sizes) rootstead::run(trees, *tables);
  return 0;
}
