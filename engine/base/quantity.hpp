// Quantities as types: a Length cannot be passed where an Area is meant, and only named
// constructors and accessors see a bare number. Values are SI inside; units at the edges are in
// units.hpp. All operations are those of double: relative rounding error 1.1e-16 each.
#pragma once

#include <compare>
#include <numbers>

namespace rootstead {

// What every quantity shares: sums, multiples, comparison, and the ratio of two of a kind.
template <class Self>
class Quantity {
 public:
  constexpr Quantity() = default;

  friend constexpr Self operator+(Self a, Self b) { return Self(a.si() + b.si()); }
  friend constexpr Self operator-(Self a, Self b) { return Self(a.si() - b.si()); }
  friend constexpr Self operator-(Self a) { return Self(-a.si()); }
  friend constexpr Self operator*(Self a, double k) { return Self(a.si() * k); }
  friend constexpr Self operator*(double k, Self a) { return Self(k * a.si()); }
  friend constexpr Self operator/(Self a, double k) { return Self(a.si() / k); }
  friend constexpr double operator/(Self a, Self b) { return a.si() / b.si(); }
  friend constexpr auto operator<=>(Self a, Self b) { return a.si() <=> b.si(); }
  friend constexpr bool operator==(Self a, Self b) { return a.si() == b.si(); }
  constexpr Self& operator+=(Self b) { return si_ += b.si(), static_cast<Self&>(*this); }
  constexpr Self& operator-=(Self b) { return si_ -= b.si(), static_cast<Self&>(*this); }

 protected:
  explicit constexpr Quantity(double si) : si_(si) {}
  constexpr double si() const { return si_; }

 private:
  double si_ = 0;
};

class Area : public Quantity<Area> {
 public:
  constexpr Area() = default;
  static constexpr Area square_metres(double v) { return Area(v); }
  constexpr double square_metres() const { return si(); }

 private:
  friend class Quantity<Area>;
  using Quantity::Quantity;
};

class Length : public Quantity<Length> {
 public:
  constexpr Length() = default;
  static constexpr Length metres(double v) { return Length(v); }
  static constexpr Length centimetres(double v) { return Length(v / 100); }
  static constexpr Length millimetres(double v) { return Length(v / 1000); }
  constexpr double metres() const { return si(); }
  constexpr double centimetres() const { return si() * 100; }
  constexpr double millimetres() const { return si() * 1000; }

  using Quantity::operator+=;
  friend constexpr Area operator*(Length a, Length b) {
    return Area::square_metres(a.metres() * b.metres());
  }

 private:
  friend class Quantity<Length>;
  using Quantity::Quantity;
};

class Angle : public Quantity<Angle> {
 public:
  constexpr Angle() = default;
  static constexpr Angle radians(double v) { return Angle(v); }
  static constexpr Angle degrees(double v) { return Angle(v * std::numbers::pi / 180); }
  constexpr double radians() const { return si(); }
  constexpr double degrees() const { return si() * 180 / std::numbers::pi; }

 private:
  friend class Quantity<Angle>;
  using Quantity::Quantity;
};

class Mass : public Quantity<Mass> {
 public:
  constexpr Mass() = default;
  static constexpr Mass kilograms(double v) { return Mass(v); }
  constexpr double kilograms() const { return si(); }

 private:
  friend class Quantity<Mass>;
  using Quantity::Quantity;
};

class Pressure : public Quantity<Pressure> {
 public:
  constexpr Pressure() = default;
  static constexpr Pressure pascals(double v) { return Pressure(v); }
  static constexpr Pressure kilopascals(double v) { return Pressure(v * 1000); }
  constexpr double pascals() const { return si(); }
  constexpr double kilopascals() const { return si() / 1000; }

 private:
  friend class Quantity<Pressure>;
  using Quantity::Quantity;
};

class Density : public Quantity<Density> {
 public:
  constexpr Density() = default;
  static constexpr Density kilograms_per_cubic_metre(double v) { return Density(v); }
  constexpr double kilograms_per_cubic_metre() const { return si(); }

 private:
  friend class Quantity<Density>;
  using Quantity::Quantity;
};

constexpr Area circle_area(Length radius) {
  return Area::square_metres(std::numbers::pi * radius.metres() * radius.metres());
}

}  // namespace rootstead
