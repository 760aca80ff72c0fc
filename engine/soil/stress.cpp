#include "engine/soil/stress.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

#include "engine/base/words.hpp"

namespace rootstead {
namespace {

using std::numbers::pi;

constexpr Words<Moisture, 3> kMoistures{{
    {Moisture::dry, "dry"},
    {Moisture::moist, "moist"},
    {Moisture::wet, "wet"},
}};

constexpr int kSteps = 64;  // of Simpson's rule on a smooth bounded integrand: error below 1e-9

// Integral of cos^n from 0 to `angle`.
double cosine_integral(int n, double angle) {
  double value = n % 2 == 0 ? angle : std::sin(angle);
  for (int k = n % 2 == 0 ? 2 : 3; k <= n; k += 2)
    value = std::pow(std::cos(angle), k - 1) * std::sin(angle) / k + (k - 1.0) / k * value;
  return value;
}

// The point load integrated over the rectangle, with x = z tan u and y = z tan v / cos u; the inner
// integral is closed.
double integrated_corner(double m, double n, int nu) {
  const double end = std::atan(m), step = end / kSteps;
  const auto integrand = [&](double u) {
    return std::pow(std::cos(u), nu - 1) * cosine_integral(nu, std::atan(n * std::cos(u)));
  };
  double sum = integrand(0) + integrand(end);
  for (int i = 1; i < kSteps; ++i) sum += (i % 2 == 1 ? 4 : 2) * integrand(i * step);
  return nu / (2 * pi) * sum * step / 3;
}

}  // namespace

std::string_view to_text(Moisture moisture) {
  return word_for(kMoistures, moisture);
}
std::optional<Moisture> moisture_from(std::string_view text) {
  return value_for(kMoistures, text);
}

int concentration_factor(Moisture moisture, const Tables& tables) {
  const auto factor = [&](std::string_view id) {
    return std::clamp(static_cast<int>(std::lround(tables.parameter(id).best)), 1, 12);
  };
  switch (moisture) {
    case Moisture::dry:
      return factor("ground.concentration_dry");
    case Moisture::moist:
      return factor("ground.concentration_moist");
    case Moisture::wet:
      return factor("ground.concentration_wet");
  }
  return kElastic;
}

Pressure point_stress(double load_kn, Length offset, Length depth, int concentration) {
  assert(depth > Length());
  const double z = depth.metres(), reach = std::hypot(offset.metres(), z);
  return Pressure::kilopascals(concentration * load_kn * std::pow(z / reach, concentration) /
                               (2 * pi * reach * reach));
}

Pressure circle_stress(Pressure surface, Length radius, Length depth, int concentration) {
  const double z = depth.metres();
  return surface * (1 - std::pow(z / std::hypot(z, radius.metres()), concentration));
}

double newmark_corner(double m, double n) {
  const double mn = m * n, v = m * m + n * n + 1, v1 = mn * mn;
  const double root = 2 * mn * std::sqrt(v);
  return (root / (v + v1) * (v + 1) / v + std::atan2(root, v - v1)) / (4 * pi);
}

double corner_influence(Length width, Length length, Length depth, int concentration) {
  assert(depth > Length());
  const double m = width / depth, n = length / depth;
  return concentration == kElastic ? newmark_corner(m, n) : integrated_corner(m, n, concentration);
}

Pressure rectangle_stress(Pressure surface, Length width, Length length, Length depth,
                          int concentration) {
  return surface * (4 * corner_influence(width / 2, length / 2, depth, concentration));
}

Pressure two_to_one_stress(double load_kn, Length width, Length length, Length depth) {
  return Pressure::kilopascals(load_kn / ((width + depth) * (length + depth)).square_metres());
}

Length two_to_one_layer(double load_kn, Length width, Pressure allowed) {
  assert(allowed > Pressure());
  const double side = std::sqrt(load_kn / allowed.kilopascals());
  return std::max(Length::metres(side) - width, Length());
}

TyreContact tyre_contact(double tyre_pressure_kpa, double recommended_kpa, double wheel_load_kn,
                         Length tyre_width, Length tyre_diameter) {
  const double over = std::log(tyre_pressure_kpa / recommended_kpa);
  const double d = tyre_diameter.metres(), area = tyre_width.metres() * d;
  return {
      Pressure::kilopascals(34.4 + 1.13 * tyre_pressure_kpa + 0.72 * wheel_load_kn - 33.4 * over),
      Length::metres(0.47 + 0.11 * d * d - 0.16 * over), 2.1 * area * area + 2};
}

}  // namespace rootstead
