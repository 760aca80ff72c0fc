// Pango set up once for measuring and for drawing, so that both agree to the last unit.
// Private to the report room.
#pragma once

#include <pango/pangocairo.h>

#include <memory>
#include <optional>
#include <string_view>

#include "report/layout.hpp"

namespace rootstead::layout {

struct Unref {
  void operator()(void* object) const { g_object_unref(object); }
};
using PangoContextPtr = std::unique_ptr<PangoContext, Unref>;
using PangoLayoutPtr = std::unique_ptr<PangoLayout, Unref>;

// Units are points: 72 a page inch.
PangoContextPtr make_context();

// Width in millimetres; nothing leaves lines as they are.
PangoLayoutPtr make_layout(PangoContext* context, std::string_view text, const TextStyle& style,
                           std::optional<double> width);

}  // namespace rootstead::layout
