// Tree symbols of a drawing: block references, circles and points on tree layers, also inside
// other blocks, each at its place. Private to the readers.
#pragma once

#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "engine/geom/shapes.hpp"
#include "io/dxf_scan.hpp"

namespace rootstead::io {

struct DxfSymbol {
  Point at;           // drawing units
  double radius = 0;  // of a circle; 0 for others
  std::string layer, block, handle;
  std::vector<std::pair<std::string, std::string>> attributes;  // tag, text
};

using IsTree = std::function<bool(const std::string& layer, const std::string& block)>;

struct DxfSymbols {
  std::vector<DxfSymbol> symbols;
  std::string rest;  // the drawing without them, without paper space and without skipped kinds
  bool cut_short = false;  // blocks within blocks too deep or too many
};
DxfSymbols take_symbols(const DxfDrawing& drawing, std::string_view text, const IsTree& is_tree);

}  // namespace rootstead::io
