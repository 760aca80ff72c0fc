// The wind a project names, as a field: reading the choice, and telling where it comes from.
#include "engine/anchorage/wind.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr std::string_view kTerrains[] = {"0", "I", "II", "III", "IV"};
constexpr std::string_view kExposures[] = {"B", "C", "D"};
constexpr double kFastestSpeed = 120;  // m/s: above it a slip of units

bool is_en(Wind::Standard standard) {
  return standard == Wind::Standard::en1991;
}

template <std::size_t N>
bool among(const std::string_view (&words)[N], std::string_view word) {
  return std::find(std::begin(words), std::end(words), word) != std::end(words);
}

std::string metres_a_second(double speed) {
  return fixed_number(speed, 1) + " m/s";
}

Error unusable(Code code, std::string message, std::string remedy) {
  return {code, "wind", std::move(message), std::move(remedy)};
}

Result<Wind> checked(const Wind& wind, double return_years) {
  if (!(wind.basic_speed > 0) || wind.basic_speed > kFastestSpeed)
    return unusable(
        Code::value_invalid, "the basic speed is " + metres_a_second(wind.basic_speed),
        "enter it in m/s: " + std::string(is_en(wind.standard) ? "a 10-minute mean, e.g. 24"
                                                               : "a 3-second gust, e.g. 52"));
  if (is_en(wind.standard) && !among(kTerrains, wind.terrain))
    return unusable(Code::unknown_name, "there is no terrain \"" + wind.terrain + "\"",
                    "enter 0, I, II, III or IV");
  if (!is_en(wind.standard) && !among(kExposures, wind.terrain))
    return unusable(Code::unknown_name, "there is no exposure \"" + wind.terrain + "\"",
                    "enter B, C or D");
  if (is_en(wind.standard) && !(return_years > 1))
    return unusable(Code::value_invalid,
                    "a return period of " + shortest_number(return_years) + " years is none",
                    "enter more than 1 year, e.g. 50");
  return wind;
}

}  // namespace

std::string_view name_of(Wind::Standard standard) {
  switch (standard) {
    case Wind::Standard::none:
      return "no wind standard";
    case Wind::Standard::en1991:
      return "EN 1991-1-4:2005";
    case Wind::Standard::asce7_16:
      return "ASCE 7-16";
    case Wind::Standard::asce7_22:
      return "ASCE 7-22";
  }
  return "no wind standard";
}

WindField WindField::en1991(const Wind& wind, double return_years, const Tables& tables) {
  const std::string prefix = "wind.en1991.terrain_" + wind.terrain;
  const Parameter& roughness = tables.parameter(prefix + "_roughness");
  const double factor = probability_factor(return_years, tables);
  WindField field;
  field.model_ = En1991Wind(wind.basic_speed * factor,
                            {roughness.best, tables.parameter(prefix + "_least_height").best},
                            tables.parameter("wind.air_density").best);
  field.from_ = {"en1991-1-4", "4.2 to 4.5, recommended values", roughness.from.status};
  field.inputs_ = {
      {"v_b,0", "basic wind speed, 10-minute mean", metres_a_second(wind.basic_speed)},
      {"c_prob", "factor for a return period of " + shortest_number(return_years) + " years",
       fixed_number(factor, 4)},
      {"terrain", "z0 = " + shortest_number(roughness.best) + " m", wind.terrain}};
  return field;
}

WindField WindField::asce7(const Wind& wind, const Tables& tables) {
  const bool new_edition = wind.standard == Wind::Standard::asce7_22;
  const std::string prefix =
      (new_edition ? "wind.asce7_22.exposure_" : "wind.asce7_16.exposure_") + wind.terrain;
  const Parameter& exponent = tables.parameter(prefix + "_exponent");
  const Parameter& directionality = tables.parameter("wind.asce7.directionality");
  WindField field;
  field.model_ = Asce7Wind(wind.basic_speed,
                           {new_edition ? Asce7Wind::kFrom2022 : Asce7Wind::kBefore2022,
                            exponent.best, tables.parameter(prefix + "_gradient_height").best},
                           wind.elevation, directionality.best);
  field.from_ = {new_edition ? "asce7-22" : "asce7-16", "26.10",
                 weaker(exponent.from.status, directionality.from.status)};
  field.inputs_ = {
      {"V", "wind speed, 3-second gust, of the return period of the map it is read from",
       metres_a_second(wind.basic_speed)},
      {"exposure", "alpha = " + shortest_number(exponent.best), wind.terrain},
      {"K_d", "directionality factor", shortest_number(directionality.best)},
      {"z_elev", "ground above sea level", shortest_number(wind.elevation) + " m"}};
  if (exponent.low < exponent.high)
    field.notes_.push_back(
        {NoteCode::rule_from_memory, "wind",
         "sources give two values for the profile of ASCE 7-22 exposure " + wind.terrain +
             ", alpha " + shortest_number(exponent.low) + " and " + shortest_number(exponent.high) +
             ": " + shortest_number(exponent.best) + " is used; the standard itself was not read"});
  return field;
}

Result<WindField> WindField::of(const Wind& wind, double return_years, const Tables& tables) {
  assert(wind.standard != Wind::Standard::none);
  ROOTSTEAD_TRY(const Wind usable, checked(wind, return_years));
  return is_en(usable.standard) ? en1991(usable, return_years, tables) : asce7(usable, tables);
}

Pressure WindField::pressure(Length z) const {
  if (const auto* en = std::get_if<En1991Wind>(&model_)) return en->peak_pressure(z);
  return std::get<Asce7Wind>(model_).pressure(z);
}

double WindField::gust_speed(Length z) const {
  return std::visit([&](const auto& wind) { return wind.gust_speed(z); }, model_);
}

double WindField::size_factor(Length whole_height, Length crown_width, Length crown_height) const {
  const auto* en = std::get_if<En1991Wind>(&model_);
  return en ? en->size_factor(whole_height, crown_width, crown_height).factor : 1;
}

Figure WindField::figure(std::string name, Length z) const {
  const bool en = std::holds_alternative<En1991Wind>(model_);
  Figure figure;
  figure.name = std::move(name);
  figure.value = pressure(z).pascals();
  figure.unit = "Pa";
  figure.formula = en ? "q_p = (1 + 7 I_v) rho v_m^2 / 2, v_m = k_r ln(z / z0) c_prob v_b,0, "
                        "I_v = 1 / ln(z / z0)"
                      : "q_z = 0.613 K_z K_d K_e V^2, K_z = c (z / z_g)^(2 / alpha)";
  figure.inputs = inputs_;
  figure.inputs.push_back({"z", "height above ground", fixed_number(z.metres(), 2) + " m"});
  figure.inputs.push_back({"v_p", "gust speed at that height", metres_a_second(gust_speed(z))});
  figure.from = from_;
  return figure;
}

}  // namespace rootstead
