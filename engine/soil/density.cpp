#include "engine/soil/density.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/nearest.hpp"
#include "engine/base/text.hpp"
#include "engine/base/words.hpp"

namespace rootstead {
namespace {

constexpr Words<DensityVerdict, 5> kDensityVerdicts{{
    {DensityVerdict::unknown, "not known"},
    {DensityVerdict::free, "free"},
    {DensityVerdict::watch, "watch"},
    {DensityVerdict::hindered, "hindered"},
    {DensityVerdict::stopped, "stopped"},
}};

constexpr std::string_view kWarnTable = "harris", kStopTable = "nrcs";

// The three-class table speaks of sandy, silty and clayey soil; which class is which is ours.
std::string_view group_of(TextureClass texture) {
  switch (plain_texture(texture)) {
    case SoilTexture::sand:
      return "sandy";
    case SoilTexture::clay:
      return "clayey";
    default:
      return "silty";
  }
}

std::string density_text(double density) {
  return fixed_number(density, 2) + " g/cm3";
}

DensityVerdict verdict_of(double density, const BulkDensityLimit& row) {
  if (row.restricts && density >= *row.restricts) return DensityVerdict::stopped;
  if (row.affects && density >= *row.affects) return DensityVerdict::hindered;
  const auto first = row.ideal ? row.ideal : row.affects ? row.affects : row.restricts;
  if (!first) return DensityVerdict::unknown;
  return density < *first ? DensityVerdict::free : DensityVerdict::watch;
}

std::string sentence_of(const BulkDensityLimit& row) {
  std::vector<std::string> parts;
  if (row.ideal) parts.push_back("free below " + density_text(*row.ideal));
  if (row.affects) parts.push_back("hindered from " + density_text(*row.affects));
  if (row.restricts) parts.push_back("stopped from " + density_text(*row.restricts));
  return "table " + row.table + ", " + row.texture + ": roots are " + joined(parts, ", ") + " (" +
         std::string(to_text(row.from.status)) + ")";
}

Result<DensityLimits> limits_of(const BulkDensityLimit& row) {
  DensityLimits limits;
  const auto first = row.affects ? row.affects : row.ideal ? row.ideal : row.restricts;
  const auto last = row.restricts ? row.restricts : row.affects ? row.affects : row.ideal;
  limits.watch = first.value_or(0);
  limits.stop = last.value_or(0);
  limits.used = "table " + row.table + ", " + row.texture;
  limits.from = row.from;
  return limits;
}

Error no_row(std::string_view table, TextureClass texture) {
  return Error{
      Code::missing_measurement, "density",
      "the table " + std::string(table) + " has no row for " + std::string(to_text(texture)),
      "choose another table, or none for our default"};
}

// Warned by the tree-oriented table, stopped by whichever of the two ends first.
Result<DensityLimits> default_limits(TextureClass texture, const Tables& tables) {
  const BulkDensityLimit* warn = density_limit(tables, kWarnTable, texture);
  const BulkDensityLimit* stop = density_limit(tables, kStopTable, texture);
  if (warn == nullptr || !warn->affects) return no_row(kWarnTable, texture);
  if (stop == nullptr || !stop->restricts) return no_row(kStopTable, texture);
  const bool harris_first = warn->restricts && *warn->restricts < *stop->restricts;
  DensityLimits limits;
  limits.watch = *warn->affects;
  limits.stop = harris_first ? *warn->restricts : *stop->restricts;
  limits.used = "watched from the low end of table " + warn->table + ", stopped from " +
                (harris_first ? "its high end" : "where table " + stop->table + " restricts") +
                ", the lower of the two";
  limits.from = harris_first ? warn->from : stop->from;
  limits.from.status = weaker(warn->from.status, stop->from.status);
  limits.from.place += "; of two tables the lower: our choice";
  return limits;
}

}  // namespace

std::string_view to_text(DensityVerdict verdict) {
  return word_for(kDensityVerdicts, verdict);
}

double porosity(double bulk_density) {
  return 1 - bulk_density / kParticleDensity;
}
double air_filled(double bulk_density, double water) {
  return std::max(porosity(bulk_density) - water, 0.0);
}
double densest_with_air(double water_by_mass, double air) {
  return (1 - air) / (1 / kParticleDensity + water_by_mass);
}

std::vector<std::string> density_tables(const Tables& tables) {
  std::vector<std::string> names;
  for (const BulkDensityLimit& row : tables.soil.density_limits)
    if (std::find(names.begin(), names.end(), row.table) == names.end()) names.push_back(row.table);
  return names;
}

const BulkDensityLimit* density_limit(const Tables& tables, std::string_view table,
                                      TextureClass texture) {
  for (const BulkDensityLimit& row : tables.soil.density_limits)
    if (row.table == table && (row.texture == to_text(texture) || row.texture == group_of(texture)))
      return &row;
  return nullptr;
}

std::vector<DensityReading> density_readings(double bulk_density, TextureClass texture,
                                             const Tables& tables) {
  std::vector<DensityReading> readings;
  for (const std::string& table : density_tables(tables))
    if (const BulkDensityLimit* row = density_limit(tables, table, texture))
      readings.push_back({*row, verdict_of(bulk_density, *row), sentence_of(*row)});
  return readings;
}

Result<DensityLimits> density_limits(TextureClass texture, const Tables& tables,
                                     std::string_view table) {
  if (table.empty()) return default_limits(texture, tables);
  const auto known = density_tables(tables);
  if (std::find(known.begin(), known.end(), table) == known.end())
    return Error{Code::unknown_name, "density",
                 "there is no table of densities \"" + std::string(table) + "\"",
                 suggestion(table, known)};
  const BulkDensityLimit* row = density_limit(tables, table, texture);
  if (row == nullptr) return no_row(table, texture);
  return limits_of(*row);
}

DensityVerdict density_verdict(double bulk_density, const DensityLimits& limits) {
  if (bulk_density >= limits.stop) return DensityVerdict::stopped;
  return bulk_density >= limits.watch ? DensityVerdict::hindered : DensityVerdict::free;
}

WaterRange least_limiting_water_range(double bulk_density, const WaterRangeParameters& p) {
  const auto held = [&](double suction) {
    return std::exp(p.a + p.b * bulk_density) * std::pow(suction, p.c);
  };
  WaterRange range;
  range.air = porosity(bulk_density) - p.air;
  range.capacity = held(p.h_capacity);
  range.wilting = held(p.h_wilting);
  range.resistance = std::pow(p.resistance / (p.b0 * std::pow(bulk_density, p.b2)), 1 / p.b1);
  range.width = std::max(
      0.0, std::min(range.air, range.capacity) - std::max(range.wilting, range.resistance));
  return range;
}

}  // namespace rootstead
