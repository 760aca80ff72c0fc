#include "io/flat_layer.hpp"

#include "engine/base/text.hpp"

namespace rootstead::io {
namespace {

struct ToText {
  std::string operator()(std::monostate) const { return ""; }
  std::string operator()(bool v) const { return v ? "yes" : "no"; }
  std::string operator()(std::int64_t v) const { return std::to_string(v); }
  std::string operator()(double v) const { return shortest_number(v); }
  std::string operator()(const std::string& v) const { return v; }
};

}  // namespace

std::string text_of(const Cell& cell) {
  return std::visit(ToText{}, cell);
}

std::size_t FlatLayer::column(std::string_view wanted) const {
  std::size_t at = 0;
  while (at < columns.size() && columns[at].name != wanted) ++at;
  return at;
}

}  // namespace rootstead::io
