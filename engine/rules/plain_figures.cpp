#include "engine/rules/plain_figures.hpp"

#include <cmath>
#include <numbers>

#include "engine/base/text.hpp"
#include "engine/geom/circle_area.hpp"
#include "engine/rules/redraw.hpp"
#include "engine/site/diameter.hpp"

namespace rootstead {
namespace {

// Textbook geometry; the figures have no other source.
const Citation kGeometry{"plane-geometry", "circular segment", Status::published};
constexpr int kBisections = 60;

Error needs(const std::string& figure, const std::string& what) {
  return {Code::wrong_use, figure, what + " is missing", "add it, e.g. " + what + "=6m"};
}

Figure plain(double value, std::string unit, std::string formula, Citation from) {
  Figure figure;
  figure.value = value;
  figure.unit = std::move(unit);
  figure.formula = std::move(formula);
  figure.from = std::move(from);
  return figure;
}

PlainFigure convention_figure(StemConvention convention, const Citation& from) {
  PlainFigure figure;
  const std::string name = "diameter." + std::string(to_text(convention));
  figure.kind = {name, "m",
                 "one diameter from several stems: " + std::string(formula_of(convention)),
                 hand_keys({"stem", "girth"})};
  figure.compute = [=](const HandInput& input) -> Result<Figure> {
    DiameterRule rule;
    rule.stems = convention;
    const auto diameter = combined_diameter(input.tree, rule);
    if (!diameter) {
      return Error{Code::wrong_use, name, diameter.error().message,
                   "give the stems, e.g. stem=300mm,400mm"};
    }
    return plain(diameter->metres(), "m", "D = " + std::string(formula_of(convention)), from);
  };
  return figure;
}

PlainFigure cut_share() {
  const std::string name = "straight-cut.share";
  return {{name, "", "share of a circle's area beyond a straight line",
           hand_keys({"radius", "distance"})},
          [=](const HandInput& input) -> Result<Figure> {
            if (!input.radius || *input.radius <= Length()) return needs(name, "radius");
            if (!input.distance) return needs(name, "distance");
            const double share =
                segment_area(*input.radius, *input.distance) / circle_area(*input.radius);
            return plain(share, "", "f = (acos x - x sqrt(1 - x^2)) / pi, x = d / r", kGeometry);
          }};
}

PlainFigure cut_distance() {
  const std::string name = "straight-cut.distance";
  return {{name, "m", "distance of the straight line that cuts off a share of a circle, up to half",
           hand_keys({"radius", "share"})},
          [=](const HandInput& input) -> Result<Figure> {
            if (!input.radius || *input.radius <= Length()) return needs(name, "radius");
            if (!input.share || *input.share < 0 || *input.share > 0.5) {
              return Error{Code::wrong_use, name, "share is missing or not between 0 and half",
                           "add it, e.g. share=10%"};
            }
            Length low, high = *input.radius;
            for (int i = 0; i < kBisections; ++i) {
              const Length middle = (low + high) / 2;
              const double share = segment_area(*input.radius, middle) / circle_area(*input.radius);
              (share > *input.share ? low : high) = middle;
            }
            return plain(((low + high) / 2).metres(), "m",
                         "f = (acos x - x sqrt(1 - x^2)) / pi solved for x = d / r", kGeometry);
          }};
}

PlainFigure equal_area() {
  const std::string name = "equal-area-radius";
  return {{name, "m",
           "radius of the circle that keeps the full circle's area on the stem's side of a "
           "straight wall",
           hand_keys({"radius", "distance"})},
          [=](const HandInput& input) -> Result<Figure> {
            if (!input.radius || *input.radius <= Length()) return needs(name, "radius");
            if (!input.distance) return needs(name, "distance");
            return plain(equal_area_radius(*input.radius, *input.distance).metres(), "m",
                         "pi R^2 (1 - f(d/R)) = pi r^2", kGeometry);
          }};
}

PlainFigure slope_length() {
  const std::string name = "slope-length";
  return {{name, "m", "tape length along a slope for a distance in plan",
           hand_keys({"distance", "slope"})},
          [=](const HandInput& input) -> Result<Figure> {
            constexpr double kSteepest = 80;
            if (!input.distance) return needs(name, "distance");
            if (!input.slope || std::abs(input.slope->degrees()) > kSteepest) {
              return Error{Code::wrong_use, name, "slope is missing or steeper than 80 degrees",
                           "add it, e.g. slope=20deg"};
            }
            return plain(input.distance->metres() / std::cos(input.slope->radians()), "m",
                         "L = d / cos(slope)", kGeometry);
          }};
}

std::vector<PlainFigure> all() {
  using enum StemConvention;
  const Status memory = Status::memory, published = Status::published;
  return {
      convention_figure(root_sum_square, {"bs5837-2012", "4.6.1 a)", published}),
      convention_figure(mean_times_root_count, {"bs5837-2012", "4.6.1 b)", memory}),
      convention_figure(largest_plus_half_rest, {"austin-trees", "", published}),
      convention_figure(sum, {"atlanta-158", "158-26", published}),
      convention_figure(two_largest, {"new-westminster-trees", "", published}),
      convention_figure(largest, {"eemsdelta-bomen", "", published}),
      cut_share(),
      cut_distance(),
      equal_area(),
      slope_length(),
  };
}

}  // namespace

const std::vector<PlainFigure>& plain_figures() {
  static const std::vector<PlainFigure> figures = all();
  return figures;
}

}  // namespace rootstead
