// Any heap of numbers as an area: nothing in engine/geom may crash on it, hang, or give an area
// that cannot be. Coordinates are either small whole numbers, which meet and cross all the time,
// or raw bits, which are huge, tiny or no numbers at all.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <cstring>

#include "engine/geom/circle_area.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/geom/ray.hpp"
#include "engine/site/work.hpp"

namespace {

using namespace rootstead;

class Bytes {
 public:
  Bytes(const std::uint8_t* data, std::size_t size) : data_(data), left_(size) {}

  bool empty() const { return left_ == 0; }
  std::uint8_t next() {
    if (left_ == 0) return 0;
    --left_;
    return *data_++;
  }
  double number() {
    constexpr std::uint8_t kRaw = 0xFF;
    const std::uint8_t first = next();
    if (first != kRaw || left_ < sizeof(double)) return first % 16;
    double value = 0;
    std::memcpy(&value, data_, sizeof value);
    data_ += sizeof value;
    left_ -= sizeof value;
    return value;
  }

 private:
  const std::uint8_t* data_;
  std::size_t left_;
};

Ring ring_from(Bytes& bytes) {
  Ring ring;
  for (int points = bytes.next() % 12; points > 0 && !bytes.empty(); --points) {
    const double x = bytes.number();
    ring.push_back({x, bytes.number()});
  }
  return ring;
}

MultiPolygon area_from(Bytes& bytes) {
  MultiPolygon area;
  for (int polygons = bytes.next() % 4; polygons > 0; --polygons) {
    area.push_back({ring_from(bytes), {}});
    for (int holes = bytes.next() % 3; holes > 0; --holes)
      area.back().holes.push_back(ring_from(bytes));
  }
  return area;
}

void require(bool holds) {
  if (!holds) std::abort();
}

bool ordinary(const Ring& ring) {
  constexpr double kLargest = 1e7;  // metres; no grid has larger coordinates
  for (const Point& at : ring)
    if (!(std::abs(at.x) < kLargest && std::abs(at.y) < kLargest)) return false;
  return true;
}

// Holes too: a box of the area leaves out those that lie far outside it.
bool ordinary(const MultiPolygon& area) {
  for (const Polygon& polygon : area) {
    if (!ordinary(polygon.outer)) return false;
    for (const Ring& hole : polygon.holes)
      if (!ordinary(hole)) return false;
  }
  return true;
}

double m2(const MultiPolygon& area) {
  return area_of(area).square_metres();
}

void check_areas(const MultiPolygon& a, const MultiPolygon& b) {
  const MultiPolygon clean = union_of({a});
  const MultiPolygon both = union_of({a, b});
  const MultiPolygon common = intersection_of(a, b);
  const MultiPolygon rest = difference_of(a, b);
  if (!ordinary(a) || !ordinary(b)) return;
  const double slack = 1e-6 * (1 + m2(both));
  require(std::abs(m2(common) + m2(rest) - m2(clean)) <= slack);
  require(m2(both) + slack >= m2(clean));
  const Circle circle{{8, 8}, Length::metres(5)};
  const double inside = common_area(circle, clean).square_metres();
  require(inside <= m2(clean) + slack && inside <= circle_area(circle.radius).square_metres());
}

void check_rays(const MultiPolygon& area) {
  double last = 0;
  for (const auto& [enter, leave] : ray_crossings({7.5, 7.25}, Angle::degrees(33), 40, area)) {
    require(last <= enter && enter < leave && leave <= 40);
    last = leave;
  }
}

void check_works(const MultiPolygon& area, const Line& line) {
  Work work;
  work.kind = WorkKind::trench;
  work.shape = {{line}, area, line};
  work.working_room = EnteredLength{0.5, LengthUnit::metre};
  const MultiPolygon ground = footprint(work, true);
  if (ordinary(area) && ordinary({{line, {}}})) require(std::isfinite(m2(ground)));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  Bytes bytes(data, size);
  const MultiPolygon a = area_from(bytes);
  const MultiPolygon b = area_from(bytes);
  const Line line = ring_from(bytes);
  static_cast<void>(is_valid(a));
  static_cast<void>(contains(a, {8, 8}));
  static_cast<void>(distance_between(Point{8, 8}, a));
  check_areas(a, b);
  check_rays(a);
  check_works(a, line);
  return 0;
}
