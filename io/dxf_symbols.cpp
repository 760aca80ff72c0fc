#include "io/dxf_symbols.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/base/text.hpp"
#include "io/csv.hpp"

namespace rootstead::io {
namespace {

constexpr int kDeepest = 16;                   // blocks within blocks
constexpr std::size_t kMostSteps = 2'000'000;  // entities looked at inside blocks

// x' = a x + c y + tx, y' = b x + d y + ty.
struct Placing {
  double a = 1, b = 0, c = 0, d = 1, tx = 0, ty = 0;

  Point of(const Point& p) const { return {a * p.x + c * p.y + tx, b * p.x + d * p.y + ty}; }
  // First `inner`, then this.
  Placing after(const Placing& inner) const {
    const Point t = of({inner.tx, inner.ty});
    return {a * inner.a + c * inner.b,
            b * inner.a + d * inner.b,
            a * inner.c + c * inner.d,
            b * inner.c + d * inner.d,
            t.x,
            t.y};
  }
  double scale() const { return std::sqrt(std::abs(a * d - b * c)); }
};

std::string name_in(std::string_view text) {
  return decoded(std::string(text)).text;
}

// Entities drawn from below have their x axis mirrored (extrusion 0, 0, -1).
bool is_mirrored(const DxfEntity& entity) {
  return entity.number(230, 1) < 0;
}

Point point_of(const DxfEntity& entity) {
  const double x = entity.number(10, 0), y = entity.number(20, 0);
  return {is_mirrored(entity) && entity.kind != "POINT" ? -x : x, y};
}

// The placings of a block reference, one a copy of its array.
std::vector<Placing> placings_of(const DxfEntity& insert, const DxfBlock* block) {
  constexpr double kMostCopies = 10'000;
  const double turn = insert.number(50, 0) * std::numbers::pi / 180;
  const double sx = insert.number(41, 1), sy = insert.number(42, 1);
  const double cos = std::cos(turn), sin = std::sin(turn);
  const double mirror = is_mirrored(insert) ? -1 : 1;
  const auto copies = [&](int code) {
    return static_cast<int>(std::clamp(insert.number(code, 1), 1.0, kMostCopies));
  };
  const double base_x = block == nullptr ? 0 : block->base_x;
  const double base_y = block == nullptr ? 0 : block->base_y;
  std::vector<Placing> placings;
  for (int row = 0; row < copies(71); ++row) {
    for (int column = 0; column < copies(70); ++column) {
      if (static_cast<double>(placings.size()) >= kMostCopies) return placings;
      const double dx = column * insert.number(44, 0), dy = row * insert.number(45, 0);
      Placing p{cos * sx, sin * sx, -sin * sy, cos * sy, 0, 0};
      const double x = insert.number(10, 0) + cos * dx - sin * dy;
      const double y = insert.number(20, 0) + sin * dx + cos * dy;
      p.tx = x - (p.a * base_x + p.c * base_y);
      p.ty = y - (p.b * base_x + p.d * base_y);
      placings.push_back({mirror * p.a, p.b, mirror * p.c, p.d, mirror * p.tx, p.ty});
    }
  }
  return placings;
}

class SymbolTaker {
 public:
  SymbolTaker(const DxfDrawing& drawing, const IsTree& is_tree)
      : drawing_(drawing), is_tree_(is_tree) {}

  DxfSymbols take(std::string_view text) {
    for (const DxfEntity& entity : drawing_.entities) {
      if (!entity.paper_space) look_at(entity, {}, "0", 0);
    }
    cut_out_of(text);
    return std::move(found_);
  }

 private:
  // An entity on layer 0 of a block lies on the layer of the reference.
  static std::string layer_of(const DxfEntity& entity, const std::string& outer) {
    return entity.layer == "0" ? outer : name_in(entity.layer);
  }

  bool is_symbol(const DxfEntity& entity, const std::string& layer) const {
    if (entity.kind == "INSERT") return is_tree_(layer, name_in(entity.text(2).value_or("")));
    return (entity.kind == "CIRCLE" || entity.kind == "POINT") && is_tree_(layer, "");
  }

  void look_at(const DxfEntity& entity, const Placing& placing, const std::string& outer,
               int depth) {
    if (++steps_ > kMostSteps) {
      found_.cut_short = true;
      return;
    }
    const std::string layer = layer_of(entity, outer);
    if (is_symbol(entity, layer)) return take_symbol(entity, placing, layer);
    if (entity.kind != "INSERT") return;
    const auto block = drawing_.blocks.find(entity.text(2).value_or(""));
    if (block == drawing_.blocks.end()) return;
    if (depth >= kDeepest) {
      found_.cut_short = true;
      return;
    }
    for (const Placing& copy : placings_of(entity, &block->second)) {
      for (const DxfEntity& inner : block->second.entities)
        look_at(inner, placing.after(copy), layer, depth + 1);
    }
  }

  void take_symbol(const DxfEntity& entity, const Placing& placing, const std::string& layer) {
    DxfSymbol symbol;
    symbol.layer = layer;
    symbol.handle = entity.handle;
    if (entity.kind != "INSERT") {
      symbol.at = placing.of(point_of(entity));
      if (entity.kind == "CIRCLE") symbol.radius = entity.number(40, 0) * placing.scale();
      found_.symbols.push_back(std::move(symbol));
      return;
    }
    symbol.block = name_in(entity.text(2).value_or(""));
    for (const DxfEntity& part : entity.parts) {
      if (part.kind != "ATTRIB") continue;
      symbol.attributes.emplace_back(name_in(part.text(2).value_or("")),
                                     name_in(part.text(1).value_or("")));
    }
    for (const Placing& copy : placings_of(entity, nullptr)) {
      symbol.at = placing.of({copy.tx, copy.ty});
      found_.symbols.push_back(symbol);
    }
  }

  // What GDAL shall not see: symbols, paper space, kinds that are not read.
  void cut_out_of(std::string_view text) {
    std::vector<std::pair<std::size_t, std::size_t>> cuts;
    const auto consider = [&](const DxfEntity& entity) {
      const bool cut = entity.paper_space || !dxf_skip_reason(entity.kind).empty() ||
                       is_symbol(entity, name_in(entity.layer));
      if (cut) cuts.emplace_back(entity.begin, entity.end);
    };
    for (const auto& [name, block] : drawing_.blocks) {
      for (const DxfEntity& entity : block.entities) consider(entity);
    }
    for (const DxfEntity& entity : drawing_.entities) consider(entity);
    std::sort(cuts.begin(), cuts.end());
    std::size_t at = 0;
    for (const auto& [begin, end] : cuts) {
      if (begin < at) continue;
      found_.rest += text.substr(at, begin - at);
      at = end;
    }
    found_.rest += text.substr(at);
  }

  const DxfDrawing& drawing_;
  const IsTree& is_tree_;
  DxfSymbols found_;
  std::size_t steps_ = 0;
};

}  // namespace

DxfSymbols take_symbols(const DxfDrawing& drawing, std::string_view text, const IsTree& is_tree) {
  return SymbolTaker(drawing, is_tree).take(text);
}

}  // namespace rootstead::io
