// Wind by height above ground: EN 1991-1-4:2005 with its recommended values (a national annex
// prevails) and ASCE 7-16 and 7-22. Trees are no listed structure in either: only the wind is
// taken from them. Sources and test cases: docs/methods/wind.md.
#pragma once

#include <string_view>
#include <variant>

#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/result.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// ---- EN 1991-1-4 --------------------------------------------------------------------------------

// c_prob of 4.2: the basic speed of a return period over that of fifty years.
// Requires: return_years > 1.
double probability_factor(double return_years, const Tables& tables);

// The size factor of Annex B: gusts do not strike a wide crown all at once. Recalled, not read.
struct SizeFactor {
  Length reference_height;  // z_s, 0.6 of the whole height
  double length_scale = 0;  // L, m
  double background = 0;    // B^2
  double turbulence = 0;    // I_v at z_s
  double factor = 1;        // c_s, at most 1
};

class En1991Wind {
 public:
  struct Terrain {
    double roughness = 0.05;    // z0, m
    double least_height = 2.0;  // z_min, m
  };
  // `basic_speed` is v_b, a 10-minute mean in m/s.
  En1991Wind(double basic_speed, Terrain terrain, double air_density);

  double basic_speed() const { return basic_speed_; }
  double terrain_factor() const;            // k_r
  double roughness_factor(Length z) const;  // c_r
  double mean_speed(Length z) const;        // v_m, m/s
  double turbulence(Length z) const;        // I_v
  Pressure basic_pressure() const;          // q_b
  Pressure peak_pressure(Length z) const;   // q_p
  double exposure(Length z) const;          // c_e = q_p / q_b
  double gust_speed(Length z) const;        // sqrt(2 q_p / rho), m/s
  SizeFactor size_factor(Length whole_height, Length crown_width, Length crown_height) const;

 private:
  double effective(Length z) const;  // m, not below z_min

  double basic_speed_ = 0;
  Terrain terrain_;
  double air_density_ = 0;
};

// ---- ASCE 7 -------------------------------------------------------------------------------------

class Asce7Wind {
 public:
  static constexpr double kBefore2022 = 2.01, kFrom2022 = 2.41;  // Table 26.10-1, note 1
  struct Exposure {
    double coefficient = 2.01;        // 2.41 from 7-22 on
    double exponent = 9.5;            // alpha
    double gradient_height = 274.32;  // z_g, m
  };
  // `speed` is V, a 3-second gust in m/s at 10 m over open ground.
  Asce7Wind(double speed, Exposure exposure, double elevation, double directionality);

  double speed() const { return speed_; }
  double exposure_factor(Length z) const;  // K_z
  double altitude_factor() const;          // K_e
  Pressure pressure(Length z) const;       // q_z = 0.613 K_z K_d K_e V^2, level ground
  double gust_speed(Length z) const;       // V sqrt(K_z), m/s

 private:
  double speed_ = 0;
  Exposure exposure_;
  double elevation_ = 0;
  double directionality_ = 1;
};

// ---- either -------------------------------------------------------------------------------------

// What the crown is loaded with, whichever standard drew it.
class WindField {
 public:
  // Fails with value_invalid (a speed or period that is none) or unknown_name (terrain), naming
  // what to enter. Requires: wind.standard is not none.
  static Result<WindField> of(const Wind& wind, double return_years, const Tables& tables);

  Pressure pressure(Length z) const;  // peak velocity pressure
  double gust_speed(Length z) const;  // m/s
  // c_s of EN Annex B; ASCE has no such factor for trees: 1.
  double size_factor(Length whole_height, Length crown_width, Length crown_height) const;

  // "wind.pressure" at z with its trail. `name` is what it is called.
  Figure figure(std::string name, Length z) const;
  const std::vector<Note>& notes() const { return notes_; }
  Status status() const { return from_.status; }

 private:
  WindField() = default;
  using Model = std::variant<En1991Wind, Asce7Wind>;
  static WindField en1991(const Wind& wind, double return_years, const Tables& tables);
  static WindField asce7(const Wind& wind, const Tables& tables);

  Model model_{En1991Wind(0, {}, 0)};
  Citation from_;
  std::vector<FigureInput> inputs_;
  std::vector<Note> notes_;
};

// "EN 1991-1-4:2005", "ASCE 7-16" ...
std::string_view name_of(Wind::Standard standard);

}  // namespace rootstead
