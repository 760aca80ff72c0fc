// What the figures of water by hand share. Private to engine/water.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "engine/base/hand_figure.hpp"
#include "engine/tables/tables.hpp"
#include "engine/water/evapotranspiration.hpp"

namespace rootstead::water_by_hand {

using Answer = Result<std::vector<Figure>>;

inline constexpr double kLitresPerCubicMetre = 1000, kMillimetres = 1000;

inline Citation fao(std::string place) {
  return {"allen-1998", std::move(place), Status::published};
}

inline Figure part(std::string name, double value, std::string unit, std::string formula,
                   Citation from) {
  Figure figure;
  figure.name = std::move(name);
  figure.value = value;
  figure.unit = std::move(unit);
  figure.formula = std::move(formula);
  figure.from = std::move(from);
  return figure;
}

inline Error refused(const std::string& name, std::string message, std::string remedy) {
  return {Code::value_invalid, name, std::move(message), std::move(remedy)};
}

// 0, which is no day, where it cannot be one.
inline int day_of_year(const HandValues& v) {
  const double day = v.in("day", "");
  return day >= 1 && day <= 366 ? static_cast<int>(day) : 0;
}

inline Humidity humidity_of(const HandValues& v) {
  const auto share = [&](const char* key) {
    return v.has(key) ? std::optional(v.in(key, "")) : std::nullopt;
  };
  return {share("humidity-max"), share("humidity-min"), share("humidity")};
}

std::vector<HandFigure> air_and_sun_figures();
std::vector<HandFigure> evapotranspiration_figures();
std::vector<HandFigure> soil_water_figures(const Tables& tables);
std::vector<HandFigure> watering_figures(const Tables& tables);

}  // namespace rootstead::water_by_hand
