// Exact area common to a circle and polygons, against GEOS with the circle as a polygon:
// time and error, on the same thousand circles and trenches in the same run.
//
//   cmake --preset release && cmake --build --preset release --target bench_circle_area
//   build/release/bin/bench_circle_area
#include "engine/geom/circle_area.hpp"

#include <benchmark/benchmark.h>
#include <geos_c.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <ctime>
#include <vector>

#include "engine/base/random.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace {

using namespace rootstead;

constexpr int kPairs = 1000;

struct Pair {
  Circle circle;
  MultiPolygon trench;
};

// Zones of 2 to 15 m, and trenches of one to eight bends that pass within reach of the stem.
std::vector<Pair> pairs() {
  RandomStream random(1, "bench");
  std::vector<Pair> made;
  for (int i = 0; i < kPairs; ++i) {
    const Point stem{random.uniform(4e5, 5e5), random.uniform(1e5, 2e5)};
    const Length radius = Length::metres(random.uniform(2, 15));
    Line line;
    Point next = offset(stem, Angle::degrees(random.uniform(0, 360)), radius * random.uniform());
    double heading = random.uniform(0, 360);
    for (int bends = 2 + i % 8; bends > 0; --bends) {
      line.push_back(next);
      heading += random.uniform(-40, 40);
      next = offset(next, Angle::degrees(heading), Length::metres(random.uniform(3, 20)));
    }
    made.push_back({{stem, radius}, corridor(line, Length::metres(random.uniform(0.2, 1)))});
  }
  return made;
}

const std::vector<Pair>& input() {
  static const std::vector<Pair> kInput = pairs();
  return kInput;
}

double exact_sum() {
  double sum = 0;
  for (const Pair& p : input()) sum += common_area(p.circle, p.trench).square_metres();
  return sum;
}

// The same by GEOS itself, all geometries made beforehand: only intersection and area are timed.
class Faceted {
 public:
  explicit Faceted(int corners) : geos_(GEOS_init_r()) {
    for (const Pair& p : input()) {
      circles_.push_back(geometry(polygon_of(p.circle, corners)));
      trenches_.push_back(geometry(p.trench.front()));
    }
  }
  Faceted(const Faceted&) = delete;
  Faceted& operator=(const Faceted&) = delete;
  ~Faceted() {
    for (GEOSGeometry* made : circles_) GEOSGeom_destroy_r(geos_, made);
    for (GEOSGeometry* made : trenches_) GEOSGeom_destroy_r(geos_, made);
    GEOS_finish_r(geos_);
  }

  double area(std::size_t i) const {
    double area = 0;
    GEOSGeometry* common = GEOSIntersection_r(geos_, circles_[i], trenches_[i]);
    GEOSArea_r(geos_, common, &area);
    GEOSGeom_destroy_r(geos_, common);
    return area;
  }
  double sum() const {
    double sum = 0;
    for (std::size_t i = 0; i < circles_.size(); ++i) sum += area(i);
    return sum;
  }

 private:
  GEOSGeometry* ring(const Ring& points) const {
    const auto size = static_cast<unsigned>(points.size());
    GEOSCoordSequence* sequence = GEOSCoordSeq_create_r(geos_, size + 1, 2);
    for (unsigned i = 0; i <= size; ++i)
      GEOSCoordSeq_setXY_r(geos_, sequence, i, points[i % size].x, points[i % size].y);
    return GEOSGeom_createLinearRing_r(geos_, sequence);
  }
  GEOSGeometry* geometry(const Polygon& polygon) const {
    std::vector<GEOSGeometry*> holes;
    for (const Ring& hole : polygon.holes) holes.push_back(ring(hole));
    return GEOSGeom_createPolygon_r(geos_, ring(polygon.outer), holes.data(),
                                    static_cast<unsigned>(holes.size()));
  }

  GEOSContextHandle_t geos_;
  std::vector<GEOSGeometry*> circles_, trenches_;
};

void exact(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(exact_sum());
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(input().size()));
}
BENCHMARK(exact)->Unit(benchmark::kMillisecond);

void geos_with_corners(benchmark::State& state) {
  const Faceted faceted(static_cast<int>(state.range(0)));
  for (auto _ : state) benchmark::DoNotOptimize(faceted.sum());
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(input().size()));
}
BENCHMARK(geos_with_corners)->Arg(32)->Arg(256)->Unit(benchmark::kMillisecond);

// Processor time, which other programs on the machine disturb least.
template <class Work>
double best_seconds(int rounds, const Work& work) {
  double best = INFINITY;
  for (int i = 0; i < rounds; ++i) {
    const std::clock_t start = std::clock();
    benchmark::DoNotOptimize(work());
    best = std::min(best, static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
  }
  return best;
}

void print_comparison() {
  constexpr int kRounds = 30;
  const double reference = exact_sum();
  const double seconds = best_seconds(kRounds, exact_sum);
  std::printf("\nexact: %.3f us a pair, best of %d\n", seconds / kPairs * 1e6, kRounds);
  for (const int corners : {32, 256}) {
    const Faceted faceted(corners);
    const double slower = best_seconds(kRounds, [&] { return faceted.sum(); });
    double worst = 0;
    for (std::size_t i = 0; i < input().size(); ++i) {
      const double whole = common_area(input()[i].circle, input()[i].trench).square_metres();
      if (whole > 0) worst = std::max(worst, std::abs(faceted.area(i) / whole - 1));
    }
    std::printf("GEOS with %d corners: %.0f times the time; sum %.3f %% off, worst pair %.2f %%\n",
                corners, slower / seconds, 100 * (faceted.sum() / reference - 1), 100 * worst);
  }
}

}  // namespace

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
  print_comparison();
  return 0;
}
