// Screening a network: trees in a town of streets against trenches along them, beside GEOS with an
// STR-tree and circles of 32 corners in the same run. bench/screen_peer.sh sets PostGIS beside
// both in one run.
//
//   cmake --preset release -DROOTSTEAD_BENCH=ON && cmake --build --preset release --target
//   bench_screen build/release/bin/bench_screen [TREES WORKS]            once, with GEOS
//   build/release/bin/bench_screen growth                   10^4 to 10^7 trees
//   build/release/bin/bench_screen write TREES WORKS DIR    trees.csv, works.csv for others
#include <geos_c.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <string>
#include <thread>
#include <vector>

#include "engine/base/random.hpp"
#include "engine/base/text.hpp"
#include "engine/geom/circle_area.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/screening/network_ground.hpp"

namespace {

using namespace rootstead;

constexpr int kCorners = 32;  // of the peers' circles
// Ten million trees in no order lie all over the memory: each is called for this many before it.
constexpr std::size_t kAhead = 16;
constexpr double kBlock = 80, kStreet = 16;
constexpr int kAlong = 10;  // trees a side of a block, both sides of the street together

double seconds() {
  using Clock = std::chrono::steady_clock;
  return std::chrono::duration<double>(Clock::now().time_since_epoch()).count();
}

// Of all threads of this process: what the machine does beside them counts little.
double processor_seconds() {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  const auto of = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  return of(used.ru_utime) + of(used.ru_stime);
}

double peak_megabytes() {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  return static_cast<double>(used.ru_maxrss) / 1024;
}

struct Town {
  std::vector<Circle> zones;        // in an order that says nothing of place
  std::vector<MultiPolygon> works;  // that overlap nowhere, so that the peers' sums are unions too
};

// Blocks of streets; each stretch of street between two crossings has a trench, straight or with a
// bend, and about ten trees on its two sides. Zones of 12 diameters of stems of 10 to 100 cm.
Town town(std::size_t trees, std::size_t works) {
  Town made;
  RandomStream random(1, "town");
  const double pitch = kBlock + kStreet;
  const auto across =
      static_cast<std::size_t>(std::ceil(std::sqrt(static_cast<double>(works) / 2)));
  std::vector<Line> streets;
  for (std::size_t i = 0; streets.size() < works; ++i) {
    const double x = 480'000 + pitch * static_cast<double>(i / 2 % across);
    const double y = 5'450'000 + pitch * static_cast<double>(i / 2 / across);
    const double begin = kStreet, end = kBlock;
    const double side = random.uniform(-4, 4), bend = random.uniform(-2, 2);
    const double middle = random.uniform(begin + 15, end - 15);
    Line line =
        i % 2 == 0
            ? Line{{x + begin, y + side}, {x + middle, y + side + bend}, {x + end, y + side}}
            : Line{{x + side, y + begin}, {x + side + bend, y + middle}, {x + side, y + end}};
    if (random.uniform() < 0.5) line.erase(line.begin() + 1);
    made.works.push_back(corridor(line, Length::metres(random.uniform(0.2, 0.6))));
    streets.push_back(std::move(line));
  }
  for (std::size_t i = 0; i < trees; ++i) {
    const Line& street = streets[i * streets.size() / trees];
    const double t = random.uniform(), off = (i % 2 == 0 ? 1 : -1) * random.uniform(3, 7);
    const Point a = street.front(), b = street.back();
    const double length = distance(a, b).metres();
    const Point at{a.x + t * (b.x - a.x) - off * (b.y - a.y) / length,
                   a.y + t * (b.y - a.y) + off * (b.x - a.x) / length};
    made.zones.push_back({at, Length::metres(12 * random.uniform(0.1, 1.0))});
  }
  // Surveys come street by street or in no order: here in none, which is the worst case.
  for (std::size_t i = made.zones.size(); i > 1; --i)
    std::swap(made.zones[i - 1],
              made.zones[static_cast<std::size_t>(random.uniform() * static_cast<double>(i))]);
  return made;
}

struct Answers {
  double taken = 0, seconds = 0, processor = 0;
  std::size_t reached = 0;
  std::vector<float> of_tree;
};

NetworkGround ground_of(const std::vector<MultiPolygon>& works, int threads) {
  NetworkBuilder builder;
  for (const MultiPolygon& work : works) builder.add(work);
  return std::move(builder).finish(threads);
}

// The whole of it: works laid out, overlaps looked for, every tree asked for its area, its nearest
// and its worst work.
Answers rootstead_screen(const Town& town, int threads) {
  Answers all;
  all.of_tree.resize(town.zones.size());
  const double start = seconds(), worked = processor_seconds();
  const NetworkGround ground = ground_of(town.works, threads);
  std::vector<Answers> parts(static_cast<std::size_t>(threads));
  const auto share = [&](std::size_t k) {
    const std::size_t first = town.zones.size() * k / parts.size();
    const std::size_t last = town.zones.size() * (k + 1) / parts.size();
    std::vector<Point> places;
    for (std::size_t i = first; i < last; ++i) places.push_back(town.zones[i].centre);
    const std::vector<std::uint32_t> order = in_order_of_place(places);
    for (std::size_t n = 0; n < order.size(); ++n) {
      const std::size_t i = first + order[n];
      if (n + kAhead < order.size()) {
        __builtin_prefetch(&town.zones[first + order[n + kAhead]]);
        __builtin_prefetch(&all.of_tree[first + order[n + kAhead]], 1);
      }
      const GroundAnswer answer = ground.ask(town.zones[i], Length());
      const double area = answer.taken.square_metres();
      parts[k].taken += area;
      parts[k].reached += area > 0;
      all.of_tree[i] = static_cast<float>(area);
    }
  };
  std::vector<std::thread> helpers;
  for (std::size_t k = 1; k < parts.size(); ++k) helpers.emplace_back(share, k);
  share(0);
  for (std::thread& helper : helpers) helper.join();
  all.seconds = seconds() - start;
  all.processor = processor_seconds() - worked;
  for (const Answers& part : parts) {
    all.taken += part.taken;
    all.reached += part.reached;
  }
  return all;
}

class Geos {
 public:
  Geos() : handle_(GEOS_init_r()) {}
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;
  ~Geos() { GEOS_finish_r(handle_); }
  GEOSContextHandle_t handle() const { return handle_; }

  GEOSGeometry* polygon(const Ring& ring) const {
    const auto size = static_cast<unsigned>(ring.size());
    GEOSCoordSequence* sequence = GEOSCoordSeq_create_r(handle_, size + 1, 2);
    for (unsigned i = 0; i <= size; ++i)
      GEOSCoordSeq_setXY_r(handle_, sequence, i, ring[i % size].x, ring[i % size].y);
    return GEOSGeom_createPolygon_r(handle_, GEOSGeom_createLinearRing_r(handle_, sequence),
                                    nullptr, 0);
  }

 private:
  GEOSContextHandle_t handle_;
};

// The peer in its own best practice: an STR-tree over the works, prepared works to turn away those
// whose box alone meets the circle, then intersection and area.
Answers geos_screen(const Town& town) {
  const Geos geos;
  struct Item {
    GEOSGeometry* geometry;
    const GEOSPreparedGeometry* prepared;
  };
  struct Query {
    GEOSContextHandle_t handle;
    GEOSGeometry* circle;
    double area;
  };
  std::vector<Item> items;
  for (const MultiPolygon& work : town.works)
    items.push_back({geos.polygon(work.front().outer), nullptr});
  Answers all;
  all.of_tree.resize(town.zones.size());
  const double start = seconds(), worked = processor_seconds();
  GEOSSTRtree* tree = GEOSSTRtree_create_r(geos.handle(), 10);
  for (Item& item : items) {
    item.prepared = GEOSPrepare_r(geos.handle(), item.geometry);
    GEOSSTRtree_insert_r(geos.handle(), tree, item.geometry, &item);
  }
  for (std::size_t i = 0; i < town.zones.size(); ++i) {
    Query query{geos.handle(), geos.polygon(polygon_of(town.zones[i], kCorners).outer), 0};
    GEOSSTRtree_query_r(
        geos.handle(), tree, query.circle,
        [](void* found, void* data) {
          const Item& item = *static_cast<Item*>(found);
          Query& q = *static_cast<Query*>(data);
          if (GEOSPreparedIntersects_r(q.handle, item.prepared, q.circle) != 1) return;
          GEOSGeometry* common = GEOSIntersection_r(q.handle, item.geometry, q.circle);
          double area = 0;
          GEOSArea_r(q.handle, common, &area);
          GEOSGeom_destroy_r(q.handle, common);
          q.area += area;
        },
        &query);
    GEOSGeom_destroy_r(geos.handle(), query.circle);
    all.taken += query.area;
    all.reached += query.area > 0;
    all.of_tree[i] = static_cast<float>(query.area);
  }
  all.seconds = seconds() - start;
  all.processor = processor_seconds() - worked;
  GEOSSTRtree_destroy_r(geos.handle(), tree);
  for (const Item& item : items) {
    GEOSPreparedGeom_destroy_r(geos.handle(), item.prepared);
    GEOSGeom_destroy_r(geos.handle(), item.geometry);
  }
  return all;
}

void print(const char* what, const Answers& answers, const Answers& peer) {
  std::printf("%-28s %9.3f s waited %9.3f s of processors  %8zu reached  %14.3f m2  x%.1f x%.1f\n",
              what, answers.seconds, answers.processor, answers.reached, answers.taken,
              peer.seconds / answers.seconds, peer.processor / answers.processor);
}

void compare(std::size_t trees, std::size_t works, bool with_geos) {
  const Town made = town(trees, works);
  std::printf("%zu trees, %zu trenches; peak memory before %.0f MB\n", trees, works,
              peak_megabytes());
  const Answers one = rootstead_screen(made, 1);
  const Answers two = rootstead_screen(made, 2);
  const double ours = peak_megabytes();
  const Answers peer = with_geos ? geos_screen(made) : Answers{};
  print("Rootstead, 1 thread", one, peer);
  print("Rootstead, 2 threads", two, peer);
  std::printf("peak memory of all till here %.0f MB\n", ours);
  if (!with_geos) return;
  print("GEOS, STR-tree, 32 corners", peer, peer);
  double most = 0;
  for (std::size_t i = 0; i < trees; ++i)
    if (one.of_tree[i] > 0)
      most = std::max(most, 1.0 - static_cast<double>(peer.of_tree[i] / one.of_tree[i]));
  std::printf("the peer's sum is %.3f %% low, up to %.1f %% on one tree; peak memory %.0f MB\n",
              100 * (1 - peer.taken / one.taken), 100 * most, peak_megabytes());
}

void growth() {
  std::printf("%10s %10s %14s %14s %12s %12s\n", "trees", "works", "processor s", "ns a tree",
              "reached", "peak MB");
  for (const std::size_t trees : {10'000u, 100'000u, 1'000'000u, 10'000'000u}) {
    const Town made = town(trees, trees / 10);
    const Answers one = rootstead_screen(made, 1);
    std::printf("%10zu %10zu %14.3f %14.0f %12zu %12.0f\n", trees, trees / 10, one.processor,
                1e9 * one.processor / static_cast<double>(trees), one.reached, peak_megabytes());
  }
}

std::string ring_text(const Ring& ring) {
  std::string text = "POLYGON((";
  for (std::size_t i = 0; i <= ring.size(); ++i) {
    const Point& p = ring[i % ring.size()];
    text += (i == 0 ? "" : ",") + shortest_number(p.x) + " " + shortest_number(p.y);
  }
  return text + "))";
}

void write(std::size_t trees, std::size_t works, const std::string& folder) {
  const Town made = town(trees, works);
  std::ofstream out(folder + "/trees.csv");
  out << "id,easting,northing,dbh_m,form,radius_m\n";
  for (std::size_t i = 0; i < trees; ++i) {
    const Circle& zone = made.zones[i];
    out << i + 1 << ',' << shortest_number(zone.centre.x) << ',' << shortest_number(zone.centre.y)
        << ',' << shortest_number(zone.radius.metres() / 12) << ",broadleaf,"
        << shortest_number(zone.radius.metres()) << '\n';
  }
  std::ofstream ground(folder + "/works.csv");
  ground << "id,kind,depth_m,wkt\n";
  for (std::size_t i = 0; i < works; ++i)
    ground << "W" << i + 1 << ",cut,1,\"" << ring_text(made.works[i].front().outer) << "\"\n";
}

}  // namespace

int main(int argc, char** argv) {
  const auto number = [&](int i) { return static_cast<std::size_t>(std::atoll(argv[i])); };
  if (argc > 1 && std::strcmp(argv[1], "growth") == 0) {
    growth();
  } else if (argc == 5 && std::strcmp(argv[1], "write") == 0) {
    write(number(2), number(3), argv[4]);
  } else {
    compare(argc > 2 ? number(1) : 1'000'000, argc > 2 ? number(2) : 100'000, true);
  }
  return 0;
}
