#include "serve/ground_json.hpp"

#include <algorithm>
#include <cmath>

#include "engine/geom/measure.hpp"
#include "engine/site/block.hpp"
#include "serve/shape_json.hpp"

namespace rootstead::serve {
namespace {

using io::Json;

template <class Thing>
void add_blocks(const Thing& thing, const Box& box, Json& list) {
  for (const Block& block : blocks_of(thing)) {
    if (!meet(box_of(block.areas), box)) continue;
    list.push_back({{"id", thing.id},
                    {"name", thing.name},
                    {"kind", to_text(thing.kind)},
                    {"areas", to_json(block.areas)},
                    {"top_m", block.top},
                    {"bottom_m", block.bottom}});
  }
}

}  // namespace

bool meet(const Box& a, const Box& b) {
  return !a.empty() && !b.empty() && a.min_x <= b.max_x && b.min_x <= a.max_x &&
         a.min_y <= b.max_y && b.min_y <= a.max_y;
}

double rounded(double metres, double step) {
  const double value = std::round(metres / step) * step;
  return value == 0 ? 0 : value;
}

Json work_blocks(const Site& site, const Box& box) {
  Json list = Json::array();
  for (const Work& work : site.works) add_blocks(work, box, list);
  return list;
}

Json barrier_blocks(const Site& site, const Box& box) {
  Json list = Json::array();
  for (const Barrier& barrier : site.barriers) add_blocks(barrier, box, list);
  return list;
}

Json ground_grid(const Standing& standing, const Box& box) {
  const PreparedLevels* levels = standing.existing_levels();
  if (levels == nullptr || !meet(levels->extent(), box)) return nullptr;
  const double wide = box.max_x - box.min_x, high = box.max_y - box.min_y;
  const double cell = std::max(0.25, std::max(wide, high) / kMostGroundCells);
  const auto cells = [&](double length) { return std::max(1, int(std::ceil(length / cell))); };
  const int columns = cells(wide), rows = cells(high);
  Json heights = Json::array();
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const auto height =
          levels->height_at({box.min_x + (column + 0.5) * cell, box.min_y + (row + 0.5) * cell});
      heights.push_back(height ? Json(rounded(*height)) : Json(nullptr));
    }
  }
  return {{"at", Json::array({box.min_x, box.min_y})},
          {"cell_m", cell},
          {"columns", columns},
          {"rows", rows},
          {"height_m", std::move(heights)}};
}

}  // namespace rootstead::serve
