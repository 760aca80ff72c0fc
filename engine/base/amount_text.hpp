// Amounts in words, one system of units a text: "6.00 m" or "19.7 ft". Rounded for reading.
#pragma once

#include <string>

#include "engine/base/source.hpp"
#include "engine/base/units.hpp"

namespace rootstead {

struct AmountText {
  UnitSystem units = UnitSystem::metric;

  std::string length(Length length) const;        // "6.00 m", "19.7 ft"
  std::string small_length(Length length) const;  // "150 mm", "5.9 in"
  std::string area(Area area) const;              // "12.5 m²", "134.5 ft²"
  std::string volume(double cubic_metres) const;  // "3.20 m³", "4.19 yd³"
  std::string water(double litres) const;         // "140 L", "37 gal"
  std::string mass(Mass mass) const;              // "1,850 kg" below ten tonnes, "4,080 lb"
  std::string pressure(Pressure pressure) const;  // "48 kPa", "7.0 psi"
  std::string temperature(double celsius) const;  // "18 °C", "64 °F"
};

// "johnson-1999, Table 2; published".
std::string cited(const Citation& from);

}  // namespace rootstead
