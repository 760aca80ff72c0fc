// How figures are written on a page: one system of units a sheet, and a small raised letter for
// how far each can be trusted.
#pragma once

#include <optional>
#include <string>

#include "engine/rootstead.hpp"

namespace rootstead {

// "ᵖ" published, "ᶜ" common practice, "ᵐ" from memory, "ᵃ" our assumption.
std::string mark(Status status);
// The sentence that explains the marks, for every page that uses them.
std::string legend_of_marks();

class Wording {
 public:
  explicit Wording(UnitSystem units) : units_(units) {}
  UnitSystem units() const { return units_; }
  bool us() const { return units_ == UnitSystem::us_customary; }

  std::string length(Length length, int decimals = 1) const;  // "6.0 m", "19.7 ft"
  std::string small_length(Length length) const;              // "450 mm", "18 in"
  // "45 cm", "17.7 in"; more exactly where sums are taken of them
  std::string stem(Length diameter, int centimetre_decimals = 0) const;
  std::string area(Area area) const;   // "113 m²", "1,217 ft²"
  std::string scale(int scale) const;  // "1:200", "1 in = 20 ft (1:240)"
  // A figure's own value in its own unit, metres and square metres turned into the sheet's.
  std::string figure(const Figure& figure) const;

 private:
  std::string long_length(double metres) const;  // in three digits: "43,600 m", "143,000 ft"
  std::string mass(double kilograms, bool of_a_model) const;

  UnitSystem units_;
};

std::string share(double value);       // "12 %", "3.4 %" below ten
std::string share_of(const Range& r);  // "12 % (8–17)"; "100 %" where the ends read the same
// As entered, to the third decimal (what a file's binary numbers add beyond that is not shown);
// "–" for nothing.
std::string entered(const EnteredLength& length);
std::string entered(const std::optional<EnteredLength>& length);
std::string degrees(Angle angle);  // "45°"
std::string with_thousands(double value, int decimals = 0);

// The weakest status a derived figure may claim, with what comes in.
Status weakest(const std::vector<Figure>& figures, Status otherwise);

// First letter in upper case (ASCII).
std::string sentence_case(std::string text);

}  // namespace rootstead
