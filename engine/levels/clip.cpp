// Cutting rings along lines, and sums over them.
#include "engine/levels/piece_walk.hpp"

namespace rootstead {

void clip(const Corners& ring, double nx, double ny, double nd, double c, Corners& out) {
  out.clear();
  if (ring.empty()) return;
  const auto side = [&](const Corner& p) { return nx * p.x + ny * p.y + nd * p.d - c; };
  const Corner* last = &ring.back();
  double last_side = side(*last);
  for (const Corner& corner : ring) {
    const double this_side = side(corner);
    if ((this_side > 0 && last_side < 0) || (this_side < 0 && last_side > 0)) {
      const double t = last_side / (last_side - this_side);
      out.push_back({last->x + t * (corner.x - last->x), last->y + t * (corner.y - last->y),
                     last->d + t * (corner.d - last->d)});
    }
    if (this_side >= 0) out.push_back(corner);
    last = &corner;
    last_side = this_side;
  }
  if (out.size() < 3) out.clear();
}

// A fan from the first corner: of a plane's integral each triangle's share is exact, and triangles
// outside the ring cancel.
RingSum sum_over(const Corners& ring) {
  RingSum sum;
  if (ring.size() < 3) return sum;
  const Corner& a = ring[0];
  for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
    const Corner &b = ring[i], &c = ring[i + 1];
    const double area = ((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)) / 2;
    sum.area += area;
    sum.volume += area * (a.d + b.d + c.d) / 3;
  }
  return sum;
}

}  // namespace rootstead
