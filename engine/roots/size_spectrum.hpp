// SizeSpectrum: how many roots are thicker than ..., beside those of a reference thickness, where
// thick roots thin out sooner than thin ones:
//   N(s, u) = s^-q exp(-u s^p),  s thickness over reference, u distance over the reference reach
// and the wood in all of them. The published counts of Silsoe (Upson & Burgess 2013) have p 0.7.
#pragma once

#include <array>

namespace rootstead {

class SizeSpectrum {
 public:
  // The reference is 2 mm in a stem of 350 mm. Thickest counted: 0.6 of the stem.
  static constexpr double kReferencePerStem = 2.0 / 350;
  static constexpr double kThickestPerStem = 0.6;

  SizeSpectrum() : SizeSpectrum(1.02, 0.7) {}
  SizeSpectrum(double size_exponent, double reach_exponent);

  // One thickness, made ready for many distances.
  struct Size {
    double power = 0;  // s^-q
    double fall = 0;   // s^p
  };
  Size size(double s) const;
  // Roots thicker than that and thinner than the thickest, beside those above the reference at
  // u = 0.
  double number_above(const Size& size, double u) const;
  // Sum of s^2 over the roots between reference and thickest, per root above the reference at
  // u = 0. Gauss-Legendre in ln s, within 1e-3 of itself.
  double wood(double u) const;

 private:
  static constexpr int kNodes = 8;
  struct Node {
    double fall = 0, weight = 0;
  };
  double q_, p_;
  Size thickest_;
  double thickest_wood_ = 0;
  std::array<Node, kNodes> nodes_{};
};

}  // namespace rootstead
