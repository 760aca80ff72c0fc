#include "engine/water/water_figures.hpp"

#include <algorithm>
#include <iterator>

#include "engine/water/water_by_hand.hpp"

namespace rootstead {

std::vector<HandFigure> water_figures(const Tables& tables) {
  std::vector<HandFigure> all = water_by_hand::air_and_sun_figures();
  const auto take = [&](std::vector<HandFigure> more) {
    std::move(more.begin(), more.end(), std::back_inserter(all));
  };
  take(water_by_hand::evapotranspiration_figures());
  take(water_by_hand::soil_water_figures(tables));
  take(water_by_hand::watering_figures(tables));
  return all;
}

}  // namespace rootstead
