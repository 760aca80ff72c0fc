#include "engine/transplant/weights.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include "engine/base/text.hpp"
#include "engine/transplant/trail.hpp"

namespace rootstead {
namespace {

constexpr double kPound = 0.45359237;
constexpr double kSameSize = 1e-9;  // m

// What nurseries print of their balls; sources differ by about 1.8 (light sand, silt loam).
struct PublishedWeight {
  double diameter_in, low_lb, high_lb;
  const char* source;
};
constexpr std::array kPublished = {PublishedWeight{24, 325, 325, "bluegrass-farms"},
                                   PublishedWeight{28, 550, 550, "bluegrass-farms"},
                                   PublishedWeight{30, 400, 500, "uf-root-growth-field"},
                                   PublishedWeight{32, 700, 750, "bluegrass-farms"},
                                   PublishedWeight{36, 1150, 1150, "bluegrass-farms"},
                                   PublishedWeight{40, 800, 900, "uf-root-growth-field"}};

double cut_cone(double lower, double upper, double height) {
  return std::numbers::pi * height / 3 * (lower * lower + lower * upper + upper * upper);
}

double cylinder(Length width, Length height) {
  return circle_area(width / 2).square_metres() * height.metres();
}

Trail weight(std::string name, std::string formula) {
  Trail trail(std::move(name), "kg");
  trail.formula(std::move(formula));
  return trail;
}

// The density that was given, else that of the table, which makes a range.
Range density_range(Trail& trail, std::optional<Density> density, const Parameter& otherwise) {
  if (!density) {
    trail.by(otherwise, "rho");
    return range_of(otherwise);
  }
  const double value = density->kilograms_per_cubic_metre();
  trail.given("rho", "density", fixed_number(value, 0) + " kg/m3");
  return same(value);
}

// Formulas that are recalled without their author, whatever goes into them.
const Citation kRecalled{"rootstead", "trade formula, recalled without its author", Status::memory};

}  // namespace

namespace {

// The soil's density is that given, else that of `soil`.
Figure cone(std::string name, Length diameter, Length depth, std::optional<Density> density,
            const Parameter& soil, const Tables& tables) {
  const Parameter& narrows = tables.parameter("transplant.cone_narrows_to");
  Trail trail = weight(std::move(name), "rho pi h / 3 (R^2 + R r + r^2), R = d / 2, r = k R");
  trail.length("d", "ball diameter", diameter).length("h", "ball depth", depth).by(narrows, "k");
  const Range rho = density_range(trail, density, soil);
  const double upper = diameter.metres() / 2;
  return trail.is(times(rho, cut_cone(narrows.best * upper, upper, depth.metres())));
}

}  // namespace

Figure ball_weight_cone(Length diameter, Length depth, std::optional<Density> density,
                        const Tables& tables) {
  return cone("transplant.ball-weight-cone", diameter, depth, density,
              tables.parameter("transplant.soil_density"), tables);
}

Figure ball_weight_practice(Length diameter, Length depth, const Tables& tables) {
  return cone("transplant.ball-weight-cone-practice", diameter, depth, {},
              tables.parameter("transplant.soil_density_practice"), tables);
}

Figure ball_weight_short_rule(Length diameter, Length depth, std::optional<Density> density,
                              const Tables& tables) {
  const Parameter& share = tables.parameter("transplant.short_rule_share");
  Trail trail = weight("transplant.ball-weight-short", "rho k d^2 h");
  trail.length("d", "ball diameter", diameter).length("h", "ball depth", depth).by(share, "k");
  const Range rho = density_range(trail, density, tables.parameter("transplant.soil_density"));
  return trail.is(times(rho, share.best * (diameter * diameter).square_metres() * depth.metres()));
}

std::optional<Figure> ball_weight_published(Length diameter) {
  for (const PublishedWeight& row : kPublished) {
    if (diameter.metres() > row.diameter_in * kMetresPerInch + kSameSize) continue;
    if (diameter.metres() < kPublished.front().diameter_in * kMetresPerInch - kSameSize) break;
    const std::string size = shortest_number(row.diameter_in) + " in";
    return weight("transplant.ball-weight-published", "as printed for a ball of " + size)
        .length("d", "ball diameter", diameter)
        .by(Citation{row.source, "ball of " + size, Status::published})
        .is(Range{row.low_lb * kPound, (row.low_lb + row.high_lb) / 2 * kPound,
                  row.high_lb * kPound});
  }
  return std::nullopt;
}

Figure ball_weight_cylinder(Length diameter, Length depth, std::optional<Density> density,
                            const Tables& tables) {
  Trail trail = weight("transplant.palm-ball-weight", "rho pi / 4 d^2 h");
  trail.length("d", "ball diameter", diameter).length("h", "ball depth", depth).by(kRecalled);
  const Range rho = density_range(trail, density, tables.parameter("transplant.soil_density"));
  return trail.is(times(rho, cylinder(diameter, depth)));
}

Figure stem_weight(Length base, Length top, Length height, std::optional<Density> density,
                   bool conifer, const Tables& tables) {
  Trail trail = weight("transplant.stem-weight", "rho pi h / 3 (R^2 + R r + r^2)");
  trail.length("2 R", "diameter at the foot", base)
      .length("2 r", "diameter at the top", top)
      .length("h", "height of the stem", height)
      .by(kRecalled);
  const Range rho = density_range(trail, density,
                                  tables.parameter(conifer ? "transplant.green_wood.softwood"
                                                           : "transplant.green_wood.hardwood"));
  return trail.is(times(rho, cut_cone(base.metres() / 2, top.metres() / 2, height.metres())));
}

Figure palm_trunk_weight(Length width, Length height, std::optional<Density> density,
                         const Tables& tables) {
  Trail trail = weight("transplant.palm-trunk-weight", "rho pi / 4 w^2 h");
  trail.length("w", "width of the trunk", width)
      .length("h", "height of the trunk", height)
      .by(kRecalled);
  const Range rho = density_range(trail, density, tables.parameter("transplant_palms.green_trunk"));
  return trail.is(times(rho, cylinder(width, height)));
}

Figure lifting_load(Mass heaviest, const Tables& tables) {
  const Parameter& allowance = tables.parameter("transplant.lift_allowance");
  return weight("transplant.lifting-load", "k W, W the highest estimate; breaking out adds more")
      .given("W", "highest weight", fixed_number(heaviest.kilograms(), 0) + " kg")
      .by(allowance, "k")
      .is(times(range_of(allowance), heaviest.kilograms()));
}

Figure sling_strength(Mass load, const Tables& tables) {
  const Parameter& factor = tables.parameter("transplant.sling_factor");
  return weight("transplant.sling-strength", "n L, as a mass")
      .given("L", "load on the slings", fixed_number(load.kilograms(), 0) + " kg")
      .by(factor, "n")
      .is(times(range_of(factor), load.kilograms()));
}

}  // namespace rootstead
