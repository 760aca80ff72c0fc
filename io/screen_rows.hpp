// One row of a screening, as text: the parts, the CSV output and what other formats are filled
// from. Private to the screening.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/screening/screening.hpp"

namespace rootstead::io {

enum class ScreenColumn : std::uint8_t {
  row,
  tree,
  rule,
  zone,
  radius,
  status,
  share,
  taken,
  nearest_work,
  nearest,
  worst_work,
  worst_share,
  x,
  y,
  remark,
};
inline constexpr std::size_t kScreenColumns = static_cast<std::size_t>(ScreenColumn::remark) + 1;
struct ScreenColumnType {
  const char* name;
  enum Kind { text, whole, number } kind;
};
const std::array<ScreenColumnType, kScreenColumns>& screen_columns();

struct ScreenedTree {
  std::size_t row = 0;  // in the source
  std::string id;
  std::string_view rule;
  const Tree* tree = nullptr;
  const ScreenZone* zone = nullptr;
  TreeScreening figures;
  double unit = 1;  // metres of one unit of the grid
};

std::string screen_header();  // with its line end
// Adds one line of CSV (RFC 4180). Shares to 1e-9, areas to 1e-6 m2, lengths to 1 mm.
void add_screen_row(const ScreenedTree& tree, const std::vector<std::string>& works,
                    std::string& to);

}  // namespace rootstead::io
