// Density and air: where published tables say that roots are hindered, and how much of the soil is
// pores and air. Never one indicator alone (Cook and Knight 2003): density, air and resistance are
// reported side by side.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/result.hpp"
#include "engine/soil/texture.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

inline constexpr double kParticleDensity = 2.65;  // g/cm3, quartz

// Shares of the volume; density in g/cm3, water as a share of the volume.
double porosity(double bulk_density);                  // 1 - rho / 2.65
double air_filled(double bulk_density, double water);  // porosity - water, not below 0
// The density at which soil with this mass of water by mass of dry soil keeps `air` of its volume
// as air: (1 - air) / (1 / 2.65 + w).
double densest_with_air(double water_by_mass, double air = 0.10);

// What one table says of one texture at one density.
enum class DensityVerdict { unknown, free, watch, hindered, stopped };  // watch: above ideal only
std::string_view to_text(DensityVerdict verdict);  // "not known", "free", "watch" ...

struct DensityReading {
  BulkDensityLimit row;
  DensityVerdict verdict = DensityVerdict::unknown;
  std::string sentence;  // "Harris table, clay loam: hindered from 1.45, stopped from 1.55 g/cm3"
};

// The names of the tables, for the parameter of a call.
std::vector<std::string> density_tables(const Tables& tables);
// Null where the table has no row for the class.
const BulkDensityLimit* density_limit(const Tables& tables, std::string_view table,
                                      TextureClass texture);
// One reading a table, in the order of the data.
std::vector<DensityReading> density_readings(double bulk_density, TextureClass texture,
                                             const Tables& tables);

// The limits that we go by: of one table where it is named; by default ("") warned from the low
// end of the tree-oriented table (harris), stopped from where nrcs restricts or harris ends,
// whichever is lower. `used` says which.
struct DensityLimits {
  double watch = 0, stop = 0;  // g/cm3
  std::string used;
  Citation from;
};
// Fails with unknown_name where there is no such table, missing_measurement where the table has no
// row for the class.
Result<DensityLimits> density_limits(TextureClass texture, const Tables& tables,
                                     std::string_view table = {});
DensityVerdict density_verdict(double bulk_density, const DensityLimits& limits);

// Least limiting water range (da Silva 1994), shares of the volume. The example parameters are an
// arithmetic test, not the physics of any site.
struct WaterRangeParameters {
  double a = -0.9175, b = -0.3027, c = -0.0835;   // theta = exp(a + b rho) h^c
  double b0 = 0.0827, b1 = -1.6087, b2 = 3.0570;  // PR = b0 theta^b1 rho^b2, MPa
  double h_capacity = 0.1, h_wilting = 1.5;       // in the unit that a, b, c were fitted with
  double resistance = 2.0;                        // MPa
  double air = 0.10;
};
struct WaterRange {
  double air = 0, capacity = 0, wilting = 0, resistance = 0;  // water contents
  double width = 0;  // max(0, min(air, capacity) - max(wilting, resistance))
};
WaterRange least_limiting_water_range(double bulk_density, const WaterRangeParameters& p);

}  // namespace rootstead
