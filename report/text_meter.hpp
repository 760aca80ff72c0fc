// How large a text is. Pages are laid out against this interface, so that layout needs no Cairo.
#pragma once

#include <memory>
#include <optional>
#include <string_view>

#include "report/layout.hpp"

namespace rootstead::layout {

struct Size {
  double w = 0, h = 0;  // mm
};

class TextMeter {
 public:
  virtual ~TextMeter() = default;
  // Size of the text, on as many lines as it has, or wrapped to `width` millimetres.
  virtual Size measure(std::string_view text, const TextStyle& style,
                       std::optional<double> width = {}) const = 0;
};

// The meter of the writers: Inter with whatever the system falls back to, unhinted, so that a
// measure is the same at every size of page.
std::unique_ptr<TextMeter> pango_meter();

}  // namespace rootstead::layout
