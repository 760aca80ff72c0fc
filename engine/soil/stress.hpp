// Stress in the ground under loads on its surface. All are elastic half-space solutions and their
// one correction for soil, the concentration factor of Froehlich and Soehne: 3 elastic
// (Boussinesq), 4 dry, 5 moist, 6 wet soil. Texts disagree on which end is wet; we follow Soehne,
// by whom stress reaches deeper in wet soil. Vertical stress, downward positive.
// Requires everywhere: depth > 0, loads and sides > 0, concentration 1 to 12.
#pragma once

#include <optional>
#include <string_view>

#include "engine/base/quantity.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

enum class Moisture { dry, moist, wet };
std::string_view to_text(Moisture moisture);
std::optional<Moisture> moisture_from(std::string_view text);
int concentration_factor(Moisture moisture, const Tables& tables);  // 4, 5, 6

inline constexpr int kElastic = 3;

// Under a point load, `offset` sideways: nu P cos^(nu+2) / (2 pi z^2).
Pressure point_stress(double load_kn, Length offset, Length depth, int concentration = kElastic);

// On the axis of a uniform circle: p (1 - (z / sqrt(z^2 + a^2))^nu).
Pressure circle_stress(Pressure surface, Length radius, Length depth, int concentration = kElastic);

// Share of the surface pressure below a corner of a uniform rectangle. Closed (Newmark) for 3; else
// by a single integral, error below 1e-9.
double corner_influence(Length width, Length length, Length depth, int concentration = kElastic);
double newmark_corner(double m, double n);  // m = B/z, n = L/z

// Below the centre of a uniform rectangle: four corners.
Pressure rectangle_stress(Pressure surface, Length width, Length length, Length depth,
                          int concentration = kElastic);

// Spread at one sideways for two down: Q / ((B + z)(L + z)); low on the axis for z < B.
Pressure two_to_one_stress(double load_kn, Length width, Length length, Length depth);
// The layer that brings the load of a square of side `width` down to `allowed`, by the same rule;
// zero where none is needed.
Length two_to_one_layer(double load_kn, Length width, Pressure allowed);

// Under a tyre (Keller 2005), sizes in metres and pressures in kPa as fitted.
struct TyreContact {
  Pressure greatest;    // in the contact area
  Length length;        // of the footprint
  double exponent = 2;  // of the super-ellipse
};
TyreContact tyre_contact(double tyre_pressure_kpa, double recommended_kpa, double wheel_load_kn,
                         Length tyre_width, Length tyre_diameter);

}  // namespace rootstead
