#include "report/pango_text.hpp"

#include <cmath>
#include <string>

#include "report/line_breaks.hpp"
#include "report/text_meter.hpp"

namespace rootstead::layout {
namespace {

constexpr const char* kTextFace = "Inter,DejaVu Sans,sans-serif";
constexpr const char* kDisplayFace = "Inter Display,Inter,DejaVu Sans,sans-serif";
constexpr double kPointsPerInch = 72;

PangoWeight pango_weight(Weight weight) {
  switch (weight) {
    case Weight::light:
      return PANGO_WEIGHT_LIGHT;
    case Weight::regular:
      return PANGO_WEIGHT_NORMAL;
    case Weight::medium:
      return PANGO_WEIGHT_MEDIUM;
    case Weight::bold:
      return PANGO_WEIGHT_SEMIBOLD;
  }
  return PANGO_WEIGHT_NORMAL;
}

PangoAlignment pango_alignment(Align align) {
  if (align == Align::centre) return PANGO_ALIGN_CENTER;
  return align == Align::right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT;
}

void set_font(PangoLayout* layout, const TextStyle& style) {
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family(font, style.display ? kDisplayFace : kTextFace);
  pango_font_description_set_absolute_size(font, style.points * PANGO_SCALE);
  pango_font_description_set_weight(font, pango_weight(style.weight));
  if (style.italic) pango_font_description_set_style(font, PANGO_STYLE_ITALIC);
  pango_layout_set_font_description(layout, font);
  pango_font_description_free(font);
}

void set_features(PangoLayout* layout, const TextStyle& style) {
  if (!style.tabular) return;
  PangoAttrList* list = pango_attr_list_new();
  pango_attr_list_insert(list, pango_attr_font_features_new("tnum=1"));
  pango_layout_set_attributes(layout, list);
  pango_attr_list_unref(list);
}

class PangoMeter : public TextMeter {
 public:
  PangoMeter() : context_(make_context()) {}

  Size measure(std::string_view text, const TextStyle& style,
               std::optional<double> width) const override {
    const auto layout = make_layout(context_.get(), text, style, width);
    int w = 0, h = 0;
    pango_layout_get_size(layout.get(), &w, &h);
    return {w / double(PANGO_SCALE) / kPointsPerMillimetre,
            h / double(PANGO_SCALE) / kPointsPerMillimetre};
  }

 private:
  PangoContextPtr context_;
};

}  // namespace

PangoContextPtr make_context() {
  PangoContextPtr context(pango_font_map_create_context(pango_cairo_font_map_get_default()));
  pango_cairo_context_set_resolution(context.get(), kPointsPerInch);
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options(context.get(), options);
  cairo_font_options_destroy(options);
  pango_context_set_round_glyph_positions(context.get(), FALSE);
  return context;
}

PangoLayoutPtr make_layout(PangoContext* context, std::string_view text, const TextStyle& style,
                           std::optional<double> width) {
  PangoLayoutPtr layout(pango_layout_new(context));
  set_font(layout.get(), style);
  set_features(layout.get(), style);
  pango_layout_set_alignment(layout.get(), pango_alignment(style.align));
  if (style.leading > 1) pango_layout_set_line_spacing(layout.get(), float(style.leading));
  if (width) {
    pango_layout_set_width(layout.get(),
                           int(std::ceil(*width * kPointsPerMillimetre * PANGO_SCALE)));
    pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  }
  if (width) {
    const std::string kept = kept_together(text);
    pango_layout_set_text(layout.get(), kept.data(), int(kept.size()));
  } else {
    pango_layout_set_text(layout.get(), text.data(), int(text.size()));
  }
  return layout;
}

std::unique_ptr<TextMeter> pango_meter() {
  return std::make_unique<PangoMeter>();
}

}  // namespace rootstead::layout
