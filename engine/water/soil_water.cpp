#include "engine/water/soil_water.hpp"

#include <algorithm>
#include <array>
#include <cassert>

#include "engine/base/text.hpp"
#include "engine/water/range_arithmetic.hpp"

namespace rootstead {
namespace {

using water::range_of;

constexpr double kMostClay = 0.60, kMostOrganicMatter = 0.08;  // the domain of the equations
constexpr double kUsualOrganicMatter = 0.025;                  // where a survey names none

// The names of soil survey, and the row of the table that speaks of them.
struct TextureRow {
  std::string_view name, row;
};
constexpr std::array kTextureRows = {
    TextureRow{"very coarse sand", "very_coarse_sand"},
    TextureRow{"sand", "sand"},
    TextureRow{"coarse sand", "sand"},
    TextureRow{"fine sand", "sand"},
    TextureRow{"loamy sand", "sand"},
    TextureRow{"sandy loam", "sandy_loam"},
    TextureRow{"fine sandy loam", "sandy_loam"},
    TextureRow{"very fine sandy loam", "loam"},
    TextureRow{"loam", "loam"},
    TextureRow{"silt loam", "loam"},
    TextureRow{"silt", "silt"},
    TextureRow{"clay loam", "clay_loam"},
    TextureRow{"silty clay loam", "clay_loam"},
    TextureRow{"sandy clay loam", "clay_loam"},
    TextureRow{"sandy clay", "clay"},
    TextureRow{"silty clay", "clay"},
    TextureRow{"clay", "clay"},
};

AvailableWater row_of(std::string_view row, std::string texture, const Tables& tables) {
  const Parameter& parameter = tables.parameter("water.available." + std::string(row));
  return {range_of(parameter), std::move(texture), parameter.from};
}

std::string plain(std::string_view text) {
  std::string name = lower_case(trimmed(text));
  std::replace(name.begin(), name.end(), '_', ' ');
  std::replace(name.begin(), name.end(), '-', ' ');
  return name;
}

// From particle shares. The equations give one figure; how far soils stray from it is our guess.
std::optional<AvailableWater> by_particles(const SoilLayer& layer, const Tables& tables) {
  if (!layer.sand || !layer.clay) return std::nullopt;
  const auto contents =
      saxton_rawls(*layer.sand, *layer.clay, layer.organic_matter.value_or(kUsualOrganicMatter));
  if (!contents) return std::nullopt;
  const double held = 1000 * (contents->field_capacity - contents->wilting);
  const Range spread = range_of(tables.parameter("water.particles_spread"));
  return AvailableWater{water::times(spread, held),
                        "by its sand, clay and organic matter",
                        {"saxton-rawls-2006", "equations 1 and 2",
                         tables.parameter("water.particles_spread").from.status}};
}

AvailableWater of_layer(const SoilLayer& layer, SoilTexture otherwise, const Tables& tables) {
  if (const auto found = by_particles(layer, tables)) return *found;
  return available_water(layer.texture == SoilTexture::unknown ? otherwise : layer.texture, tables);
}

// One stretch of the profile, laid to the others by its thickness.
void add(AvailableWater& sum, const AvailableWater& part, double share) {
  sum.mm_per_m.low += part.mm_per_m.low * share;
  sum.mm_per_m.best += part.mm_per_m.best * share;
  sum.mm_per_m.high += part.mm_per_m.high * share;
  const bool first = sum.texture.empty();
  if (first) {
    sum.texture = part.texture;
    sum.from = part.from;
  } else if (sum.texture != part.texture) {
    sum.texture += ", then " + part.texture;
    if (part.from.status > sum.from.status) sum.from = part.from;
  }
}

const Parameter* find(const Tables& tables, const std::string& id) {
  const auto found = std::find_if(tables.parameters.begin(), tables.parameters.end(),
                                  [&](const Parameter& p) { return p.id == id; });
  return found == tables.parameters.end() ? nullptr : &*found;
}

std::optional<double> best_of(const Tables& tables, const std::string& id) {
  const Parameter* parameter = find(tables, id);
  return parameter == nullptr ? std::nullopt : std::optional(parameter->best);
}

}  // namespace

Result<WaterContents> saxton_rawls(double sand, double clay, double organic_matter) {
  const auto is_share = [](double v) { return v >= 0 && v <= 1; };
  if (!is_share(sand) || !is_share(clay) || !is_share(organic_matter) || sand + clay > 1 + 1e-9)
    return Error{Code::value_invalid, "soil",
                 "sand, clay and organic matter are no shares of one soil",
                 "enter shares by mass, e.g. sand 20 %, clay 20 %, organic matter 2.5 %"};
  if (clay > kMostClay || organic_matter > kMostOrganicMatter)
    return Error{Code::outside_rule_domain, "soil",
                 "the equations hold up to 60 % clay and 8 % organic matter",
                 "take the row of the texture instead"};
  const double s = sand, c = clay, om = 100 * organic_matter;
  const double wilting = -0.024 * s + 0.487 * c + 0.006 * om + 0.005 * s * om - 0.013 * c * om +
                         0.068 * s * c + 0.031;  // equation 1
  const double capacity = -0.251 * s + 0.195 * c + 0.011 * om + 0.006 * s * om - 0.027 * c * om +
                          0.452 * s * c + 0.299;  // equation 2
  const double wide = 0.278 * s + 0.034 * c + 0.022 * om - 0.018 * s * om - 0.027 * c * om -
                      0.584 * s * c + 0.078;  // equation 3
  WaterContents contents;
  contents.wilting = 1.14 * wilting - 0.02;
  contents.field_capacity = capacity + 1.283 * capacity * capacity - 0.374 * capacity - 0.015;
  contents.saturation =
      contents.field_capacity + 1.636 * wide - 0.107 - 0.097 * s + 0.043;  // equation 5
  return contents;
}

std::optional<AvailableWater> available_water(std::string_view texture, const Tables& tables) {
  const std::string name = plain(texture);
  for (const TextureRow& row : kTextureRows)
    if (row.name == name) return row_of(row.row, name, tables);
  return std::nullopt;
}

std::vector<std::string> available_water_textures() {
  std::vector<std::string> names;
  for (const TextureRow& row : kTextureRows) names.emplace_back(row.name);
  return names;
}

AvailableWater available_water(SoilTexture texture, const Tables& tables) {
  switch (texture) {
    case SoilTexture::sand:
      return row_of("sand", "sand", tables);
    case SoilTexture::loam:
      return row_of("loam", "loam", tables);
    case SoilTexture::silt:
      return row_of("silt", "silt", tables);
    case SoilTexture::clay:
      return row_of("clay", "clay", tables);
    case SoilTexture::unknown:
      break;
  }
  return row_of("unknown", "texture not known", tables);
}

AvailableWater available_water(const Soil& soil, Length depth, const Tables& tables) {
  AvailableWater sum;
  sum.mm_per_m = {};
  Length top;
  for (const SoilLayer& layer : soil.layers) {
    const Length bottom = std::min(layer.bottom.length(), depth);
    if (bottom <= top) continue;
    add(sum, of_layer(layer, soil.texture, tables), (bottom - top) / depth);
    top = bottom;
  }
  if (top < depth) add(sum, available_water(soil.texture, tables), (depth - top) / depth);
  return sum;
}

std::vector<CropRow> crop_rows(const Tables& tables) {
  constexpr std::array kNames = {"conifers", "palm_trees",        "date_palm", "apples",
                                 "citrus",   "apples_with_cover", "avocado",   "walnut",
                                 "olive",    "cool_turf"};
  std::vector<CropRow> rows;
  for (const std::string key : kNames) {
    // Ground cover changes the coefficient of an orchard, not its roots.
    const std::string roots = key == "apples_with_cover" ? "apples" : key;
    const Parameter& depth = tables.parameter("water.root_depth." + roots);
    const Parameter& depletion = tables.parameter("water.depletion." + roots);
    CropRow row;
    row.name = plain(key);
    row.root_depth_m = range_of(depth);
    row.depletion = depletion.best;
    row.kc_initial = best_of(tables, "water.kc_initial." + key);
    row.kc_middle = best_of(tables, "water.kc_middle." + key);
    row.kc_end = best_of(tables, "water.kc_end." + key);
    row.from = {depth.from.source, "Tables 12 and 22",
                weaker(depth.from.status, depletion.from.status)};
    rows.push_back(std::move(row));
  }
  return rows;
}

double depletion_share(double table_share, double demand_mm_per_day) {
  return std::clamp(table_share + 0.04 * (5 - demand_mm_per_day), 0.1, 0.8);
}

double total_available_mm(double field_capacity, double wilting, double depth_m) {
  return 1000 * (field_capacity - wilting) * depth_m;
}

double stress_factor(double depletion_mm, double total_mm, double depletion_share) {
  assert(total_mm > 0);
  const double readily = depletion_share * total_mm;
  return std::clamp((total_mm - depletion_mm) / (total_mm - readily), 0.0, 1.0);
}

}  // namespace rootstead
