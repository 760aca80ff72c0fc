// The thick roots that ten works of a site meet round one tree, 1,000 draws; and one root system.
//
//   cmake --preset release -DROOTSTEAD_BENCH=ON
//   cmake --build --preset release --target bench_roots_met && build/release/bin/bench_roots_met
#include "engine/roots/roots_met.hpp"

#include <benchmark/benchmark.h>

#include <cmath>
#include <cstdlib>
#include <iostream>

#include "engine/geom/measure.hpp"
#include "engine/roots/architecture.hpp"
#include "engine/roots/field_source.hpp"
#include "io/tables.hpp"

namespace {

using namespace rootstead;

constexpr int kWorks = 10;

const Tables& tables() {
  static const Tables read = [] {
    auto loaded = io::load_tables();
    if (loaded.ok()) return std::move(loaded).value();
    std::cerr << loaded.error().sentence() << '\n';
    std::exit(1);
  }();
  return read;
}

Tree lime() {
  Tree tree;
  tree.id = "T1";
  tree.botanical_name = "Tilia cordata";
  tree.form = GrowthForm::broadleaf;
  tree.position = Position{{0, 0}, "bench", {}};
  tree.stems = {{Stem::Read::diameter, {0.5, LengthUnit::metre}, {}}};
  return tree;
}

std::vector<ThickRootLaw> laws(std::size_t draws) {
  const Tree tree = lime();
  const Soil soil;
  const Length diameter = Length::metres(0.5);
  const Species* species = tables().species_of(tree.botanical_name);
  const auto fields = woody_fields(tree, diameter, species, soil, tables());
  const ThickRootSource source(tree, diameter, species, tables());
  RandomStream random(1, "bench");
  std::vector<ThickRootLaw> made;
  while (made.size() < draws) {
    const RootField field = fields->draw(random);
    made.push_back(source.draw(field, random));
  }
  return made;
}

// Trenches 16 m long and 0.6 m wide, 2 to 5 m from the stem, all round it.
std::vector<GroundTaking> trenches() {
  std::vector<GroundTaking> takings;
  for (int i = 0; i < kWorks; ++i) {
    const double azimuth = Angle::degrees(36.0 * i).radians(), near = 2 + 0.3 * i;
    const auto at = [&](double out, double along) {
      return Point{out * std::sin(azimuth) + along * std::cos(azimuth),
                   out * std::cos(azimuth) - along * std::sin(azimuth)};
    };
    const Ring ring = {at(near, -8), at(near + 0.6, -8), at(near + 0.6, 8), at(near, 8)};
    takings.push_back({"W" + std::to_string(i),
                       {{ring, {}}},
                       Length::metres(0.5 + 0.1 * i),
                       GroundTaking::Effect::severs,
                       {}});
  }
  return takings;
}

void roots_met_by_ten_works(benchmark::State& state) {
  const auto draws = laws(static_cast<std::size_t>(state.range(0)));
  const auto takings = trenches();
  for (auto _ : state) benchmark::DoNotOptimize(roots_met(draws, {0, 0}, takings));
}
BENCHMARK(roots_met_by_ten_works)->Arg(1)->Arg(200)->Arg(1000)->Unit(benchmark::kMillisecond);

void draws_of_the_law(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(laws(1000));
}
BENCHMARK(draws_of_the_law)->Unit(benchmark::kMillisecond);

void one_root_system(benchmark::State& state) {
  const Tree tree = lime();
  std::uint64_t seed = 0;
  for (auto _ : state) benchmark::DoNotOptimize(grow_roots(tree, {}, tables(), ++seed));
}
BENCHMARK(one_root_system)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
