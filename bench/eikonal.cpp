// The travel-distance solver against skimage.graph.MCP_Geometric on the same grids in the same run:
// 40 random barriers, blocked and half open, round the middle of the grid. Processor time, best of
// several rounds; each side's set-up counts. Without python3-skimage only our own time is shown.
//
//   ./dev bench, or: cmake --preset release -DROOTSTEAD_BENCH=ON
//   cmake --build --preset release --target bench_eikonal && build/release/bin/bench_eikonal
#include "engine/geom/eikonal.hpp"

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/random.hpp"
#include "engine/roots/ground_map.hpp"
#include "io/tables.hpp"

namespace {

using namespace rootstead;

constexpr int kBarriers = 40;
constexpr int kRounds = 7;

struct Scene {
  int side;
  int speeds;  // kinds of ground besides blocked: 1 or 3
  PlanGrid grid;
  std::vector<double> speed;
  Point middle() const { return grid.centre(side / 2, side / 2); }
};

// Walls, kerbs and paved strips, a quarter of the grid long at most; the middle stays open.
Scene scene(int side, int speeds) {
  Scene made{side, speeds, {{0, 0}, 0.1, side, side}, {}};
  made.speed.assign(made.grid.count(), 1);
  RandomStream random(1, "eikonal bench");
  for (int i = 0; i < kBarriers; ++i) {
    const int column = static_cast<int>(random.uniform(0, side));
    const int row = static_cast<int>(random.uniform(0, side));
    int length = static_cast<int>(random.uniform(0.02, 0.25) * side);
    int width = 1 + static_cast<int>(random.uniform(0, 0.02) * side);
    if (random.uniform() < 0.5) std::swap(length, width);
    const double passing = speeds == 1 || i % 2 == 0 ? 0.0 : i % 4 == 1 ? 0.5 : 0.15;
    for (int r = row; r < std::min(side, row + width); ++r)
      for (int c = column; c < std::min(side, column + length); ++c)
        made.speed[made.grid.index(c, r)] = passing;
  }
  made.speed[made.grid.index(side / 2, side / 2)] = 1;
  return made;
}

double best_seconds(const Scene& scene) {
  double best = INFINITY;
  for (int i = 0; i < kRounds; ++i) {
    const std::clock_t start = std::clock();
    const TravelMap map = travel_from(scene.middle(), scene.grid, scene.speed);
    best = std::min(best, static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    if (map.times().empty()) return INFINITY;
  }
  return best;
}

// Runs the peer in a folder of its own that is gone afterwards.
class Peer {
 public:
  Peer()
      : folder_(std::filesystem::temp_directory_path() /
                ("rootstead-bench-" + std::to_string(getpid()))) {
    std::filesystem::create_directory(folder_);
  }
  Peer(const Peer&) = delete;
  Peer& operator=(const Peer&) = delete;
  ~Peer() { std::filesystem::remove_all(folder_); }

  std::optional<double> seconds(const Scene& scene) {
    const auto bytes = static_cast<std::streamsize>(scene.speed.size() * sizeof(double));
    std::ofstream(folder_ / "speeds", std::ios::binary)
        .write(reinterpret_cast<const char*>(scene.speed.data()), bytes);
    const std::string command = "/usr/bin/python3 " ROOTSTEAD_BENCH_FOLDER "/eikonal_peer.py " +
                                (folder_ / "speeds").string() + " " + std::to_string(scene.side) +
                                " " + std::to_string(kRounds) + " " + (folder_ / "times").string();
    std::FILE* const output = popen(command.c_str(), "r");
    if (output == nullptr) return {};
    double best = 0;
    const bool read = std::fscanf(output, "%lf", &best) == 1;
    if (pclose(output) != 0 || !read) return {};
    times.resize(scene.speed.size());
    std::ifstream(folder_ / "times", std::ios::binary)
        .read(reinterpret_cast<char*>(times.data()), bytes);
    for (double& time : times) time *= scene.grid.cell;
    return best;
  }

  std::vector<double> times;  // it found, in metres of open ground

 private:
  std::filesystem::path folder_;
};

// How much longer the peer's ways along the eight directions are than ours.
void print_lengths(const Scene& scene, const std::vector<double>& peer) {
  const TravelMap ours = travel_from(scene.middle(), scene.grid, scene.speed);
  double sum = 0, worst = 0;
  int cells = 0, disagree = 0;
  for (std::size_t i = 0; i < peer.size(); ++i) {
    const double time = ours.times()[i];
    if (std::isfinite(time) != std::isfinite(peer[i])) ++disagree;
    if (!std::isfinite(time) || !std::isfinite(peer[i]) || time < 1) continue;
    sum += peer[i] / time - 1;
    worst = std::max(worst, peer[i] / time - 1);
    ++cells;
  }
  std::printf(
      "    its ways are longer by %.1f %% on average, %.1f %% at most (8 directions only);"
      " cells reached by one only: %d\n",
      100 * sum / cells, 100 * worst, disagree);
}

// The ground of one street tree: walls and kerbs of three depths, paving, 40 things in reach.
Site street() {
  RandomStream random(1, "eikonal bench street");
  Site site;
  Tree tree;
  tree.id = "T1";
  tree.position = Position{{0, 0}, "bench", {}};
  site.trees = {tree};
  const double depths[] = {0.3, 0.6, 1.0};
  for (int i = 0; i < kBarriers; ++i) {
    const Point at{random.uniform(-15, 15), random.uniform(-15, 15)};
    const Point to{at.x + random.uniform(-6, 6), at.y + random.uniform(-6, 6)};
    Barrier barrier;
    barrier.id = "B" + std::to_string(i);
    barrier.kind = i % 3 == 0 ? BarrierKind::kerb : BarrierKind::wall;
    barrier.depth = EnteredLength{depths[i % 3], LengthUnit::metre};
    barrier.shape.lines = {{at, to}};
    site.barriers.push_back(barrier);
  }
  Surface paving;
  paving.id = "S1";
  paving.area = {{{{-20, 3}, {20, 3}, {20, 9}, {-20, 9}}, {}}};
  site.surfaces = {paving};
  return site;
}

void print_ground() {
  const auto tables = io::load_tables();
  if (!tables.ok()) return;
  const Site site = street();
  for (const double cell : {0.2, 0.1}) {
    double drawn = INFINITY, solved = INFINITY;
    std::size_t layers = 0;
    for (int i = 0; i < kRounds; ++i) {
      const std::clock_t start = std::clock();
      const GroundMap ground = ground_round(site.trees.front(), site, tables.value(),
                                            Length::metres(15), Length::metres(cell));
      const std::clock_t middle = std::clock();
      layers = root_travel(ground, {0, 0}).size();
      drawn = std::min(drawn, static_cast<double>(middle - start) / CLOCKS_PER_SEC);
      solved = std::min(solved, static_cast<double>(std::clock() - middle) / CLOCKS_PER_SEC);
    }
    std::printf(
        "one tree, 15 m, cells of %.1f m, %d barriers: ground in %.1f ms, %zu layers solved "
        "in %.1f ms\n",
        cell, kBarriers, drawn * 1e3, layers, solved * 1e3);
  }
}

}  // namespace

int main() {
  Peer peer;
  bool absent = false;
  for (const int side : {300, 1000}) {
    for (const int speeds : {1, 3}) {
      const Scene grid = scene(side, speeds);
      const double ours = best_seconds(grid);
      std::printf("%4d x %-4d cells, %d barriers, %d speed%s: %.2f ms, %.0f ns a cell", side, side,
                  kBarriers, speeds, speeds == 1 ? "" : "s", ours * 1e3,
                  ours * 1e9 / static_cast<double>(grid.grid.count()));
      const auto theirs = peer.seconds(grid);
      absent = absent || !theirs;
      if (theirs) {
        std::printf("; MCP_Geometric %.2f ms: %.1f times ours\n", *theirs * 1e3, *theirs / ours);
        print_lengths(grid, peer.times);
      } else {
        std::printf("\n");
      }
    }
  }
  print_ground();
  if (absent) std::printf("no comparison: python3-skimage is not installed\n");
  return 0;
}
