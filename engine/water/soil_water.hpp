// How much water a soil holds that roots can take, and what is left of it on a dry day.
// Sources and worked examples: docs/methods/water.md.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/result.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Water contents as shares of the soil's volume.
struct WaterContents {
  double wilting = 0, field_capacity = 0, saturation = 0;
};
// Saxton and Rawls 2006, normal density, no gravel or salt. Sand, clay and organic matter as shares
// by mass. Fails with value_invalid (shares that are none) or outside_rule_domain (more than 60 %
// clay or 8 % organic matter).
Result<WaterContents> saxton_rawls(double sand, double clay, double organic_matter);

// Millimetres of water that roots can take from a metre of soil.
struct AvailableWater {
  Range mm_per_m;
  std::string texture;  // of the row, "clay loam"; or how it was worked out
  Citation from;
};
// The rows of the table by the names of soil survey ("silt loam", "clay loam", ...), every one
// filed under several names. Null where there is none.
std::optional<AvailableWater> available_water(std::string_view texture, const Tables& tables);
std::vector<std::string> available_water_textures();
// Of the plain words of a survey. Unknown: from the driest to the wettest row.
AvailableWater available_water(SoilTexture texture, const Tables& tables);
// Of a profile down to `depth`: each layer by its particle shares where they are known, else by its
// texture; what no layer speaks of, by the texture of the whole site.
AvailableWater available_water(const Soil& soil, Length depth, const Tables& tables);

// A row of FAO-56 Tables 12 and 22: "conifers", "palm trees", "date palm", "apples", "citrus",
// "avocado", "walnut", "olive", "cool turf".
struct CropRow {
  std::string name;
  Range root_depth_m;
  double depletion = 0.5;  // p, at 5 mm/day
  std::optional<double> kc_initial, kc_middle, kc_end;
  Citation from;
};
std::vector<CropRow> crop_rows(const Tables& tables);

// p of the table moved to the day's demand: + 0.04 (5 - ET_c), between 0.1 and 0.8 (FAO-56 p. 162).
double depletion_share(double table_share, double demand_mm_per_day);
// TAW, mm: what roots can take from a soil of that depth.
double total_available_mm(double field_capacity, double wilting, double depth_m);
// K_s, 1 unstressed to 0 wilted, of a depletion in mm (FAO-56 equation 84). Requires: total > 0.
double stress_factor(double depletion_mm, double total_mm, double depletion_share);

}  // namespace rootstead
