#include "engine/base/amount_text.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr double kMetresPerFoot = 0.3048, kMetresPerYard = 0.9144, kLitresPerGallon = 3.785411784;
constexpr double kKilogramsPerPound = 0.45359237, kPascalsPerPsi = 6894.757293168361;

// "1,116.77": thousands parted.
std::string parted(double value, int decimals) {
  std::string digits = fixed_number(value, decimals);
  const std::size_t first = digits.starts_with('-') ? 1 : 0;
  for (std::size_t i = std::min(digits.find('.'), digits.size()); i > first + 3; i -= 3)
    digits.insert(i - 3, ",");
  return digits;
}

std::string whole(double value) {
  return parted(value, 0);
}

// One decimal below ten, none above.
std::string rounded(double value) {
  return std::abs(value) < 9.95 ? fixed_number(value, 1) : whole(value);
}

}  // namespace

std::string AmountText::length(Length length) const {
  if (units == UnitSystem::metric) return parted(length.metres(), 2) + " m";
  return parted(length.metres() / kMetresPerFoot, 1) + " ft";
}

std::string AmountText::small_length(Length length) const {
  if (units == UnitSystem::metric) return whole(length.millimetres()) + " mm";
  return fixed_number(in_unit(length, LengthUnit::inch), 1) + " in";
}

std::string AmountText::area(Area area) const {
  if (units == UnitSystem::metric) return parted(area.square_metres(), 1) + " m²";
  return parted(area.square_metres() / (kMetresPerFoot * kMetresPerFoot), 1) + " ft²";
}

std::string AmountText::volume(double cubic_metres) const {
  if (units == UnitSystem::metric) return fixed_number(cubic_metres, 2) + " m³";
  return fixed_number(cubic_metres / (kMetresPerYard * kMetresPerYard * kMetresPerYard), 2) +
         " yd³";
}

std::string AmountText::water(double litres) const {
  if (units == UnitSystem::metric) return rounded(litres) + " L";
  return rounded(litres / kLitresPerGallon) + " gal";
}

std::string AmountText::mass(Mass mass) const {
  if (units == UnitSystem::metric) return rounded(mass.kilograms()) + " kg";
  return rounded(mass.kilograms() / kKilogramsPerPound) + " lb";
}

std::string AmountText::pressure(Pressure pressure) const {
  if (units == UnitSystem::metric) return rounded(pressure.kilopascals()) + " kPa";
  return fixed_number(pressure.pascals() / kPascalsPerPsi, 1) + " psi";
}

std::string AmountText::temperature(double celsius) const {
  if (units == UnitSystem::metric) return fixed_number(celsius, 0) + " °C";
  return fixed_number(celsius * 9 / 5 + 32, 0) + " °F";
}

std::string cited(const Citation& from) {
  std::string text = from.source;
  if (!from.place.empty()) text += ", " + from.place;
  return text + "; " + std::string(to_text(from.status));
}

}  // namespace rootstead
